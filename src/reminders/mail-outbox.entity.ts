import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, integerColumn, jsonColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PondId } from '../platform/ids.js';

/** A picture inside a mail, shown where its HTML names `cid:`. */
export interface MailPicture {
  /** Without angle brackets. */
  readonly cid: string;
  readonly fileName: string;
  readonly contentType: 'image/png';
  readonly base64: string;
}

/** `kept`: there is no mail server, so the mail lies here to be read. */
export type MailState =
  | 'due'
  | 'claimed'
  | 'handing_over'
  | 'sent'
  | 'deferred'
  | 'bounced'
  | 'expired'
  | 'in_doubt'
  | 'dead'
  | 'kept';

/** A mail on its way. One row is one mail, one Message-ID, for ever. */
@Entity('mail_outbox')
export class MailOutboxEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(textColumn('kind'))
  kind!: 'digest' | 'urgent' | 'visit-report' | 'visit-notice' | 'account';

  @Column(textColumn('dedupe_key'))
  dedupeKey!: string;

  @Column(textColumn('state'))
  state!: MailState;

  @Column(textColumn('to_name'))
  toName!: string;

  @Column(textColumn('to_address'))
  toAddress!: string;

  @Column(idColumn('contact_id', { nullable: true }))
  contactId!: string | null;

  @Column(idColumn('pond_id', { nullable: true }))
  pondId!: PondId | null;

  @Column(textColumn('subject'))
  subject!: string;

  @Column(textColumn('html'))
  html!: string;

  @Column(textColumn('plain_text'))
  plainText!: string;

  @Column(jsonColumn('headers'))
  headers!: Record<string, string>;

  @Column(jsonColumn('pictures'))
  pictures!: MailPicture[];

  /** Zone whose nights it keeps, IANA; null: it goes at any hour. */
  @Column(textColumn('time_zone', { nullable: true }))
  timeZone!: string | null;

  @Column(textColumn('message_id'))
  messageId!: string;

  @Column(instantColumn('dated_at'))
  datedAt!: string;

  @Column(integerColumn('attempts'))
  attempts!: number;

  @Column(instantColumn('not_before'))
  notBefore!: string;

  @Column(instantColumn('not_after', { nullable: true }))
  notAfter!: string | null;

  /** Fencing: goes up with each claim, and a sender whose number is old may not write. */
  @Column(integerColumn('lease_number'))
  leaseNumber!: number;

  @Column(instantColumn('leased_until', { nullable: true }))
  leasedUntil!: string | null;

  @Column(textColumn('last_reply', { nullable: true }))
  lastReply!: string | null;

  @Column(instantColumn('sent_at', { nullable: true }))
  sentAt!: string | null;

  @Column(instantColumn('created_at'))
  createdAt!: string;
}
