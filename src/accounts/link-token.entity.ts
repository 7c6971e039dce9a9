import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyId, PersonId } from '../platform/ids.js';

/** What a link may do; a link for one purpose is unknown to every other. */
export type LinkPurpose =
  | 'demo-sign-in'
  | 'task-done'
  | 'task-not-now'
  | 'my-pond'
  | 'stop-mail'
  | 'visit-report'
  | 'calendar-feed'
  | 'visit-answer';

/** A signed link: one purpose, one object. Shared, because the link itself says which company it belongs to. */
@Entity('link_token')
export class LinkTokenEntity {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(textColumn('token_hash'))
  tokenHash!: string;

  @Column(textColumn('purpose'))
  purpose!: LinkPurpose;

  @Column(idColumn('company_id'))
  issuedByCompanyId!: CompanyId;

  @Column(idColumn('person_id', { nullable: true }))
  personId!: PersonId | null;

  @Column(idColumn('object_id'))
  objectId!: string;

  @Column(instantColumn('expires_at', { nullable: true }))
  expiresAt!: string | null;

  @Column(instantColumn('used_at', { nullable: true }))
  usedAt!: string | null;

  @Column(instantColumn('revoked_at', { nullable: true }))
  revokedAt!: string | null;

  @Column(instantColumn('created_at'))
  createdAt!: string;
}
