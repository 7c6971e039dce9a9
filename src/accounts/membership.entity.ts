import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, jsonColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyId, PersonId } from '../platform/ids.js';

/** A person's place in a company. Shared, because sign-in looks for a person's companies before there is one. */
@Entity('membership')
export class MembershipEntity {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  memberOfCompanyId!: CompanyId;

  @Column(idColumn('person_id'))
  personId!: PersonId;

  @Column(textColumn('role'))
  role!: 'owner' | 'office' | 'technician';

  @Column(jsonColumn('skills'))
  skills!: string[];

  @Column(instantColumn('created_at'))
  createdAt!: string;

  @Column(instantColumn('ended_at', { nullable: true }))
  endedAt!: string | null;
}
