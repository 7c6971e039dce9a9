import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, integerColumn, jsonColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId, VisitId } from '../platform/ids.js';
import type { ClosingRecord } from './closing-record.js';

/** One closing of a visit as it came in. Reopening keeps it; the next closing is the next version. */
@Entity('visit_closing')
export class VisitClosingEntity implements CompanyOwned {
  /** Made on the phone: sent twice, it is still one closing. */
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('visit_id'))
  visitId!: VisitId;

  @Column(integerColumn('closing_version'))
  closingVersion!: number;

  @Column(instantColumn('closed_at'))
  closedAt!: string;

  @Column(idColumn('closed_by'))
  closedBy!: PersonId;

  @Column(instantColumn('received_at'))
  receivedAt!: string;

  @Column(instantColumn('reopened_at', { nullable: true }))
  reopenedAt!: string | null;

  @Column(idColumn('reopened_by', { nullable: true }))
  reopenedBy!: PersonId | null;

  /** Why the office opened it again. */
  @Column(textColumn('reopened_because', { nullable: true }))
  reopenedBecause!: string | null;

  /** The office has looked at what it is flagged for. */
  @Column(instantColumn('settled_at', { nullable: true }))
  settledAt?: string | null;

  @Column(idColumn('settled_by', { nullable: true }))
  settledBy?: PersonId | null;

  @Column(jsonColumn('record'))
  record!: ClosingRecord;
}
