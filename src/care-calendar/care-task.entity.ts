import { Column, Entity, PrimaryColumn } from 'typeorm';
import type { PlannedTask } from '../core/care/care-plan.js';
import type { Consequence } from '../core/care/care-rule.js';
import type { TaskState } from '../core/care/standing-task.js';
import {
  dateColumn,
  flagColumn,
  idColumn,
  instantColumn,
  integerColumn,
  jsonColumn,
  keyColumn,
  textColumn,
} from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId, PondId, VisitId } from '../platform/ids.js';

/** One rule due on one pond. Its identity is (pond, rule, cycle). */
@Entity('care_task')
export class CareTaskEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  @Column(textColumn('rule_id'))
  ruleId!: string;

  @Column(textColumn('cycle'))
  cycle!: string;

  @Column(textColumn('state'))
  state!: TaskState;

  @Column(textColumn('done_by'))
  doneBy!: 'homeowner' | 'technician';

  @Column(textColumn('consequence'))
  consequence!: Consequence;

  @Column(flagColumn('routine_line'))
  routineLine!: boolean;

  @Column(dateColumn('earliest_on'))
  earliestOn!: string;

  @Column(dateColumn('due_on'))
  dueOn!: string;

  @Column(dateColumn('latest_on'))
  latestOn!: string;

  /** Set by a person; stays until released. */
  @Column(dateColumn('held_due_on', { nullable: true }))
  heldDueOn!: string | null;

  /** Told to somebody: mailed, or on a published visit. */
  @Column(dateColumn('promised_on', { nullable: true }))
  promisedOn!: string | null;

  /** The homeowner's "not now". */
  @Column(dateColumn('put_off_until', { nullable: true }))
  putOffUntil!: string | null;

  /** The task as planned: reason, quantities, minutes. */
  @Column(jsonColumn('planned'))
  planned!: PlannedTask;

  @Column(dateColumn('finished_on', { nullable: true }))
  finishedOn!: string | null;

  @Column(idColumn('finished_by', { nullable: true }))
  finishedBy!: PersonId | null;

  @Column(textColumn('finished_because', { nullable: true }))
  finishedBecause!: 'done' | 'done-by-other-means' | 'not-applicable' | 'superseded' | null;

  @Column(jsonColumn('actuals'))
  actuals!: Record<string, number>;

  @Column(integerColumn('mailed_times'))
  mailedTimes!: number;

  @Column(idColumn('visit_id', { nullable: true }))
  visitId!: VisitId | null;

  @Column(instantColumn('created_at'))
  createdAt!: string;

  @Column(instantColumn('updated_at'))
  updatedAt!: string;
}
