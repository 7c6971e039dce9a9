import { Column, Entity, PrimaryColumn } from 'typeorm';
import { dateColumn, idColumn, instantColumn, integerColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId, PondId } from '../platform/ids.js';

export type VisitState = 'TENTATIVE' | 'CONFIRMED' | 'IN-PROCESS' | 'COMPLETED' | 'CANCELLED';

/** A dated attendance at one pond by a technician. States of RFC 5545. */
@Entity('visit')
export class VisitEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  @Column(textColumn('state'))
  state!: VisitState;

  @Column(dateColumn('planned_on'))
  plannedOn!: string;

  /** Told arrival window, local HH:MM. */
  @Column(textColumn('from_time', { nullable: true }))
  fromTime!: string | null;

  @Column(textColumn('to_time', { nullable: true }))
  toTime!: string | null;

  @Column(idColumn('technician_id', { nullable: true }))
  technicianId!: PersonId | null;

  @Column(dateColumn('due_earliest_on'))
  dueEarliestOn!: string;

  @Column(dateColumn('due_latest_on'))
  dueLatestOn!: string;

  @Column(integerColumn('minutes'))
  minutes!: number;

  @Column(textColumn('office_note'))
  officeNote!: string;

  @Column(instantColumn('published_at', { nullable: true }))
  publishedAt!: string | null;

  @Column(instantColumn('on_the_way_at', { nullable: true }))
  onTheWayAt!: string | null;

  @Column(instantColumn('arrived_at', { nullable: true }))
  arrivedAt!: string | null;

  @Column(instantColumn('closed_at', { nullable: true }))
  closedAt!: string | null;

  @Column(textColumn('cancelled_because', { nullable: true }))
  cancelledBecause!: string | null;

  @Column(instantColumn('created_at'))
  createdAt!: string;

  @Column(instantColumn('updated_at'))
  updatedAt!: string;

  @Column(integerColumn('version'))
  version!: number;
}
