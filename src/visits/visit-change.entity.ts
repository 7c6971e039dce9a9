import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, jsonColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId, VisitId } from '../platform/ids.js';

export type VisitChangeStep =
  | 'planned'
  | 'assigned'
  | 'moved'
  | 'published'
  | 'cancelled'
  | 'on-the-way'
  | 'started'
  | 'task-added'
  | 'task-taken-off'
  | 'closed'
  | 'amended'
  | 'edited'
  | 'reopened'
  | 'flags-settled'
  | 'photo-added'
  | 'photo-removed';

/** One line of a visit's audit trail: who changed what, from what to what. Never changed itself. */
@Entity('visit_change')
export class VisitChangeEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('visit_id'))
  visitId!: VisitId;

  @Column(textColumn('step'))
  step!: VisitChangeStep;

  @Column(instantColumn('changed_at'))
  changedAt!: string;

  /** Null where the program did it. */
  @Column(idColumn('changed_by', { nullable: true }))
  changedBy!: PersonId | null;

  @Column(jsonColumn('before_values'))
  before!: Readonly<Record<string, unknown>>;

  @Column(jsonColumn('after_values'))
  after!: Readonly<Record<string, unknown>>;

  @Column(textColumn('because'))
  because!: string;
}
