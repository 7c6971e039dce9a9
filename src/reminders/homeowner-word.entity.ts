import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId, PondId, TaskId, VisitId } from '../platform/ids.js';

export type HomeownerWordKind = 'question' | 'visit-wish' | 'visit-suits' | 'visit-does-not-suit';

/** Something a homeowner said to the office. It stands under This week until somebody settles it. */
@Entity('homeowner_word')
export class HomeownerWordEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  @Column(idColumn('person_id'))
  personId!: PersonId;

  @Column(textColumn('kind'))
  kind!: HomeownerWordKind;

  @Column(idColumn('visit_id', { nullable: true }))
  visitId!: VisitId | null;

  @Column(idColumn('task_id', { nullable: true }))
  taskId!: TaskId | null;

  @Column(textColumn('said'))
  said!: string;

  @Column(instantColumn('said_at'))
  saidAt!: string;

  @Column(instantColumn('settled_at', { nullable: true }))
  settledAt!: string | null;

  @Column(idColumn('settled_by', { nullable: true }))
  settledBy!: PersonId | null;
}
