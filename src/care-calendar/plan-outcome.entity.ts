import { Column, Entity, PrimaryColumn } from 'typeorm';
import type { Conflict, NotDue, PondFinding } from '../core/care/care-plan.js';
import { dateColumn, idColumn, jsonColumn, keyColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PondId } from '../platform/ids.js';
import type { OutlookSummary } from './outlook-summary.js';

/** What the last planning of a pond found besides its tasks. */
@Entity('plan_outcome')
export class PlanOutcomeEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('pond_id'))
  pondId!: PondId;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(dateColumn('planned_on'))
  plannedOn!: string;

  @Column(jsonColumn('not_due'))
  notDue!: NotDue[];

  @Column(jsonColumn('conflicts'))
  conflicts!: Conflict[];

  @Column(jsonColumn('findings'))
  findings!: PondFinding[];

  /** Weekly and daily figures for the pages: see outlook-summary.ts. */
  @Column(jsonColumn('outlook'))
  outlook!: OutlookSummary;
}
