import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyId, PersonId } from '../platform/ids.js';

/** A sign-in. The cookie carries a token; only its SHA-256 is stored. */
@Entity('session')
export class SessionEntity {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(textColumn('token_hash'))
  tokenHash!: string;

  /** Goes into every form of this session, against cross-site posts. */
  @Column(textColumn('form_token'))
  formToken!: string;

  @Column(idColumn('person_id'))
  personId!: PersonId;

  @Column(idColumn('company_id', { nullable: true }))
  actingForCompanyId!: CompanyId | null;

  @Column(textColumn('role'))
  role!: 'owner' | 'office' | 'technician' | 'homeowner';

  @Column(instantColumn('created_at'))
  createdAt!: string;

  @Column(instantColumn('used_at'))
  usedAt!: string;

  @Column(instantColumn('expires_at'))
  expiresAt!: string;
}
