import { Column, Entity, PrimaryColumn } from 'typeorm';
import {
  dateColumn,
  flagColumn,
  idColumn,
  instantColumn,
  integerColumn,
  keyColumn,
  textColumn,
} from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId, PondId } from '../platform/ids.js';

/** A person of a pond, with or without an email address. A house sold ends the contact; the history stays. */
@Entity('pond_contact')
export class PondContactEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  /** Null: no email, so the office calls. */
  @Column(idColumn('person_id', { nullable: true }))
  personId!: PersonId | null;

  @Column(textColumn('name'))
  name!: string;

  @Column(textColumn('role'))
  role!: 'homeowner' | 'caretaker' | 'neighbour' | 'builder';

  @Column(textColumn('phone'))
  phone!: string;

  @Column(textColumn('language'))
  language!: string;

  @Column(textColumn('units', { nullable: true }))
  units!: 'us' | 'metric' | null;

  @Column(flagColumn('gets_mail'))
  getsMail!: boolean;

  /** ISO: 1 Monday to 7 Sunday. */
  @Column(integerColumn('digest_weekday'))
  digestWeekday!: number;

  /** Local hour in the pond's zone. */
  @Column(integerColumn('digest_hour'))
  digestHour!: number;

  @Column(instantColumn('mail_stopped_at', { nullable: true }))
  mailStoppedAt!: string | null;

  /** First and last day of weeks in which they want no weekly mail; both null, or neither. */
  @Column(dateColumn('quiet_from', { nullable: true }))
  quietFrom!: string | null;

  @Column(dateColumn('quiet_until', { nullable: true }))
  quietUntil!: string | null;

  @Column(dateColumn('started_on'))
  startedOn!: string;

  @Column(dateColumn('ended_on', { nullable: true }))
  endedOn!: string | null;
}
