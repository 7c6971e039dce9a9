import { Column, Entity, PrimaryColumn } from 'typeorm';
import { dateColumn, idColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PondId } from '../platform/ids.js';

/** Who does one care rule on this pond, from when to when. */
@Entity('agreement_term')
export class AgreementTermEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  @Column(textColumn('rule_id'))
  ruleId!: string;

  @Column(textColumn('done_by'))
  doneBy!: 'company' | 'homeowner';

  @Column(dateColumn('from_on', { nullable: true }))
  fromOn!: string | null;

  @Column(dateColumn('until_on', { nullable: true }))
  untilOn!: string | null;
}
