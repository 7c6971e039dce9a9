import { Column, Entity, PrimaryColumn } from 'typeorm';
import { dateColumn, idColumn, instantColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId, PondId, TaskId, VisitId } from '../platform/ids.js';

/** Something a technician saw that the calendar does not know of: to be looked after until somebody settles it. */
@Entity('visit_follow_up')
export class VisitFollowUpEntity implements CompanyOwned {
  /** Made on the phone: sent twice, it is still one. */
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  @Column(idColumn('visit_id'))
  visitId!: VisitId;

  @Column(idColumn('care_task_id', { nullable: true }))
  careTaskId!: TaskId | null;

  @Column(textColumn('what'))
  what!: string;

  /** Wanted by this day, where the technician named one. */
  @Column(dateColumn('until_on', { nullable: true }))
  untilOn!: string | null;

  @Column(idColumn('noted_by'))
  notedBy!: PersonId;

  @Column(instantColumn('noted_at'))
  notedAt!: string;

  @Column(instantColumn('settled_at', { nullable: true }))
  settledAt!: string | null;

  @Column(idColumn('settled_by', { nullable: true }))
  settledBy!: PersonId | null;
}
