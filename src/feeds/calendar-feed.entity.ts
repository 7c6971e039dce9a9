import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, integerColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId } from '../platform/ids.js';

/** Whose eyes it is for: a homeowner's ponds, a technician's round, or all visits of the company. */
export type FeedAudience = 'homeowner' | 'technician' | 'company';

/** A calendar address given to one person. The address itself is a link; only its hash is stored. */
@Entity('calendar_feed')
export class CalendarFeedEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('person_id'))
  personId!: PersonId;

  @Column(textColumn('audience'))
  audience!: FeedAudience;

  /** Tasks as to-dos with a due day, or as notes on their day for calendars that show no to-dos. */
  @Column(textColumn('tasks_as'))
  tasksAs!: 'to-do' | 'event';

  /** Minutes before an entry at which the calendar is to ring; null rings never. */
  @Column(integerColumn('alarm_minutes_before', { nullable: true }))
  alarmMinutesBefore!: number | null;

  @Column(instantColumn('created_at'))
  createdAt!: string;

  @Column(instantColumn('revoked_at', { nullable: true }))
  revokedAt!: string | null;

  @Column(instantColumn('last_read_at', { nullable: true }))
  lastReadAt!: string | null;
}
