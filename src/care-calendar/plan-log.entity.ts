import { Column, Entity, PrimaryColumn } from 'typeorm';
import type { TaskWindow } from '../core/care/care-plan.js';
import { idColumn, instantColumn, jsonColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PondId } from '../platform/ids.js';

/** Every change of the calendar: when, what, from, to, because of which input. */
@Entity('plan_log')
export class PlanLogEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  @Column(instantColumn('logged_at'))
  loggedAt!: string;

  @Column(textColumn('rule_id'))
  ruleId!: string;

  @Column(textColumn('cycle'))
  cycle!: string;

  @Column(textColumn('kind'))
  kind!: string;

  @Column(jsonColumn('from_window', { nullable: true }))
  fromWindow!: TaskWindow | null;

  @Column(jsonColumn('to_window', { nullable: true }))
  toWindow!: TaskWindow | null;

  @Column(textColumn('because'))
  because!: string;
}
