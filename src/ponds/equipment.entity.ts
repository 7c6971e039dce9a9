import { Column, Entity, PrimaryColumn } from 'typeorm';
import type { Equipment, EquipmentKind } from '../core/care/pond-facts.js';
import { dateColumn, idColumn, jsonColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PondId } from '../platform/ids.js';

/** One machine of the register, make-neutral. */
@Entity('equipment')
export class EquipmentEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  @Column(textColumn('kind'))
  kind!: EquipmentKind;

  @Column(textColumn('name'))
  name!: string;

  @Column(jsonColumn('rated'))
  rated!: Equipment['rated'];

  @Column(dateColumn('installed_on', { nullable: true }))
  installedOn!: string | null;

  @Column(dateColumn('warranty_until', { nullable: true }))
  warrantyUntil!: string | null;

  @Column(dateColumn('removed_on', { nullable: true }))
  removedOn!: string | null;
}
