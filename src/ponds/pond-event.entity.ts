import { Column, Entity, PrimaryColumn } from 'typeorm';
import type { CareEvent } from '../core/care/care-rule.js';
import { dateColumn, idColumn, instantColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PondId } from '../platform/ids.js';

/** A fact of the pond that rules may count from. */
@Entity('pond_event')
export class PondEventEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  @Column(textColumn('kind'))
  kind!: CareEvent;

  @Column(dateColumn('happened_on'))
  happenedOn!: string;

  @Column(textColumn('note'))
  note!: string;

  @Column(instantColumn('created_at'))
  createdAt!: string;
}
