import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, keyColumn, numberColumn, textColumn } from '../../database/columns.js';
import type { CompanyOwned } from '../../database/rows.js';
import type { CompanyId, TaskId, VisitId } from '../../platform/ids.js';

/** A part or product used on a visit. */
@Entity('visit_part')
export class VisitPartEntity implements CompanyOwned {
  /** Made on the phone: sent twice, it is still one. */
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('visit_id'))
  visitId!: VisitId;

  /** On the shelf; null for one that is not kept there. */
  @Column(idColumn('part_id', { nullable: true }))
  partId!: string | null;

  @Column(textColumn('name'))
  name!: string;

  @Column(numberColumn('amount'))
  amount!: number;

  @Column(textColumn('unit'))
  unit!: string;

  @Column(idColumn('care_task_id', { nullable: true }))
  careTaskId!: TaskId | null;

  /** Lot as printed on the product; may be empty. */
  @Column(textColumn('lot'))
  lot!: string;

  /** The closing it came with was opened again and does not count any more. */
  @Column(instantColumn('removed_at', { nullable: true }))
  removedAt!: string | null;
}
