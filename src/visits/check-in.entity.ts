import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, keyColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId } from '../platform/ids.js';

/** The time by which somebody who works alone wants to have said that all is well. No place is kept. */
@Entity('check_in')
export class CheckInEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('person_id'))
  personId!: PersonId;

  @Column(instantColumn('due_at'))
  dueAt!: string;

  @Column(instantColumn('set_at'))
  setAt!: string;

  @Column(instantColumn('ended_at', { nullable: true }))
  endedAt!: string | null;

  /** The person, or somebody of the office who has reached them. */
  @Column(idColumn('ended_by', { nullable: true }))
  endedBy!: PersonId | null;
}
