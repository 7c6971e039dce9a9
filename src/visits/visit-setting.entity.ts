import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, integerColumn, keyColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId } from '../platform/ids.js';

/** What a company wishes of its visits; one row, or none while all is as it comes. */
@Entity('visit_setting')
export class VisitSettingEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  /** How long a report waits for the office before it is mailed; 0: not at all. [h] */
  @Column(integerColumn('report_hold_hours'))
  reportHoldHours!: number;
}
