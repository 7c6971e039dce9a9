import { Column, Entity, PrimaryColumn } from 'typeorm';
import type { ReadingQuantity } from '../core/care/care-rule.js';
import { idColumn, instantColumn, keyColumn, numberColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId, PondId } from '../platform/ids.js';

/** A measured value. Never edited: a correction is a new reading that names the one it replaces. */
@Entity('reading')
export class ReadingEntity implements CompanyOwned {
  /** Made on the phone where one took it, so that a repeated upload finds its own row. */
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  @Column(textColumn('quantity'))
  quantity!: ReadingQuantity;

  /** In the stored unit of the quantity: °C, -, mg/L as N, mg/L CaCO3, mg/L, mg/L Cl2, g/L, L/h. */
  @Column(numberColumn('value'))
  value!: number;

  @Column(instantColumn('taken_at'))
  takenAt!: string;

  @Column(idColumn('taken_by', { nullable: true }))
  takenBy!: PersonId | null;

  @Column(idColumn('visit_id', { nullable: true }))
  visitId!: string | null;

  @Column(idColumn('replaces_id', { nullable: true }))
  replacesId!: string | null;

  @Column(instantColumn('created_at'))
  createdAt!: string;
}
