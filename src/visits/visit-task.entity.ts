import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, keyColumn, numberColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, VisitId } from '../platform/ids.js';

/** A care task taken along on a visit, and what became of it. */
@Entity('visit_task')
export class VisitTaskEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('visit_id'))
  visitId!: VisitId;

  @Column(idColumn('care_task_id'))
  careTaskId!: string;

  @Column(textColumn('outcome', { nullable: true }))
  outcome!: 'done' | 'partly' | 'not-done' | null;

  @Column(numberColumn('done_share', { nullable: true }))
  doneShare!: number | null;

  @Column(textColumn('remark'))
  remark!: string;
}
