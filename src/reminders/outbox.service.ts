import { Inject, Injectable } from '@nestjs/common';
import { In, Like, MoreThanOrEqual } from 'typeorm';
import { CompaniesService } from '../accounts/index.js';
import { SETTINGS, type Settings } from '../config/index.js';
import { Database } from '../database/index.js';
import { Clock, instantFrom, instantText } from '../platform/clock.js';
import { type CompanyId, newId, type PondId } from '../platform/ids.js';
import { MailOutboxEntity, type MailPicture, type MailState } from './mail-outbox.entity.js';
import { MailNotFoundError, MailNotResendableError } from './reminders.errors.js';
import { MailTransport } from './transport/mail-transport.js';
import { oneLine } from './transport/message-text.js';

export type MailKind = MailOutboxEntity['kind'];

/** A mail as a feature hands it over: written in full, for one person. */
export interface NewMail {
  readonly kind: MailKind;
  /** What this mail is about; a second one with the same key is not written. */
  readonly dedupeKey: string;
  readonly toName: string;
  readonly toAddress: string;
  readonly contactId?: string | null;
  readonly pondId?: PondId | null;
  readonly subject: string;
  readonly html: string;
  readonly plainText: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly pictures?: readonly MailPicture[];
  /** Mails of one conversation show together: a name without spaces, the same for each of them. */
  readonly thread?: string;
  /** Zone whose nights it keeps, IANA; without one it goes at any hour. */
  readonly timeZone?: string | null;
  /** Instant before which it must not leave; now, unless given. */
  readonly notBefore?: string;
  /** Instant after which it is of no use. */
  readonly notAfter?: string | null;
  /** Instant it is dated; now, unless given. */
  readonly writtenAt?: string;
}

export interface MailQuery {
  readonly states?: readonly MailState[];
  readonly kinds?: readonly MailKind[];
  /** Part of a name, an address or a subject. */
  readonly text?: string;
  readonly skip: number;
  readonly take: number;
}

/** A mail without its text, for lists. */
export type MailHead = Omit<MailOutboxEntity, 'html' | 'plainText' | 'headers' | 'pictures'>;

/** From so many mails within so many days that came back for the moment only, an address counts as refused. */
const RETURNED_TIMES = 3;
const RETURNED_WITHIN_DAYS = 7;
const WAITING: readonly MailState[] = ['due', 'claimed', 'handing_over', 'deferred'];
const RESENDABLE: ReadonlySet<MailState> = new Set(['in_doubt', 'bounced', 'expired', 'dead']);

/** The mails of a company, from being written to being sent. A row is one mail with one Message-ID, for ever. */
@Injectable()
export class OutboxService {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly companies: CompaniesService,
    private readonly transport: MailTransport,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  /**
   * Writes a mail inside the unit of work of the change it speaks of. A demo company's mail, and every mail where no
   * mail server is set up, is kept to be read instead of being sent.
   * @returns Its id, or null when a mail with this key is already there.
   */
  async write(companyId: CompanyId, mail: NewMail): Promise<string | null> {
    const company = await this.companies.get(companyId);
    const leaves = this.transport.canSend && !company.isDemo;
    return this.insert(companyId, mail, leaves ? 'due' : 'kept', null);
  }

  /** Notes a mail that could not be composed, so that it is seen and the others go on. */
  async writeDead(companyId: CompanyId, mail: NewMail, fault: string): Promise<string | null> {
    return this.insert(companyId, mail, 'dead', fault);
  }

  /** Whether a mail with this key is there already; one that could not be written does not count. */
  async has(companyId: CompanyId, dedupeKey: string): Promise<boolean> {
    const standing = await this.database.company(companyId).findOne(MailOutboxEntity, { dedupeKey });
    return standing !== null && !isUnwritten(standing);
  }

  async get(companyId: CompanyId, id: string): Promise<MailOutboxEntity> {
    const mail = await this.database.company(companyId).findOne(MailOutboxEntity, { id });
    if (!mail) throw new MailNotFoundError(id);
    return mail;
  }

  /** Newest first. */
  async list(companyId: CompanyId, query: MailQuery): Promise<{ rows: MailHead[]; total: number }> {
    const select = this.database.company(companyId).select(MailOutboxEntity, 'mail');
    if (query.states?.length) select.and('mail.state IN (:...states)', { states: query.states });
    if (query.kinds?.length) select.and('mail.kind IN (:...kinds)', { kinds: query.kinds });
    if (query.text) {
      select.and(
        "LOWER(mail.toName) LIKE :part ESCAPE '!' OR LOWER(mail.toAddress) LIKE :part ESCAPE '!' OR LOWER(mail.subject) LIKE :part ESCAPE '!'",
        { part: `%${query.text.toLowerCase().replace(/[!%_]/g, '!$&')}%` },
      );
    }
    const total = await select.count();
    const rows = await select.orderBy('createdAt', 'DESC').orderBy('id', 'DESC').page(query.skip, query.take).rows();
    return { rows, total };
  }

  /** How many mails there are in each state. */
  async counts(companyId: CompanyId): Promise<ReadonlyMap<MailState, number>> {
    const rows = await this.database
      .company(companyId)
      .select(MailOutboxEntity, 'mail')
      .figures<{ state: MailState; n: number | string }>({ state: 'mail.state', n: 'COUNT(*)' }, 'mail.state');
    return new Map(rows.map((row) => [row.state, Number(row.n)]));
  }

  /** Of the mails written since an instant: how many there are, and how many still have to leave. */
  async progress(companyId: CompanyId, since: string): Promise<{ readonly written: number; readonly waiting: number }> {
    const written = () =>
      this.database.company(companyId).select(MailOutboxEntity, 'mail').and('mail.createdAt >= :since', { since });
    return {
      written: await written().count(),
      waiting: await written().and('mail.state IN (:...waiting)', { waiting: WAITING }).count(),
    };
  }

  /** Whether a person may have this mail sent once more. */
  mayResend(mail: Pick<MailOutboxEntity, 'state' | 'html'>, isDemo: boolean): boolean {
    return RESENDABLE.has(mail.state) && !isUnwritten(mail) && this.transport.canSend && !isDemo;
  }

  /** Sends a mail once more because a person asked for it, with the same Message-ID and Date. */
  async resend(companyId: CompanyId, id: string): Promise<void> {
    const company = await this.companies.get(companyId);
    await this.database.unitOfWork('send a mail again', async () => {
      const mail = await this.get(companyId, id);
      if (!this.mayResend(mail, company.isDemo)) throw new MailNotResendableError(mail.state);
      await this.database
        .company(companyId)
        .update(
          MailOutboxEntity,
          { id, state: mail.state },
          { state: 'due', attempts: 0, notBefore: this.clock.instant(), notAfter: null },
        );
    });
  }

  /**
   * Addresses whose server refused the recipient on the last mail, or reported it as undeliverable: they are called,
   * not mailed, until one arrives.
   */
  async refusedAddresses(companyId: CompanyId): Promise<ReadonlyMap<string, string>> {
    const store = this.database.company(companyId);
    const columns = { id: true, toAddress: true, createdAt: true, lastReply: true } as const;
    const bounced = await store.find(MailOutboxEntity, {
      where: [
        { state: 'bounced', lastReply: Like('RCPT TO%') },
        { state: 'bounced', lastReply: Like('report: 5%') },
      ],
      order: { createdAt: 'ASC', id: 'ASC' },
      select: columns,
    });
    bounced.push(...(await this.oftenReturned(companyId)));
    if (bounced.length === 0) return new Map();

    const refused = new Map(bounced.map((mail) => [mail.toAddress, mail]));
    const arrived = await store.find(MailOutboxEntity, {
      where: { state: 'sent', toAddress: In([...refused.keys()]) },
      select: columns,
    });
    for (const { toAddress, createdAt } of arrived) {
      const bounce = refused.get(toAddress);
      if (bounce && createdAt >= bounce.createdAt) refused.delete(toAddress);
    }
    return new Map([...refused].map(([address, { lastReply }]) => [address, lastReply ?? '']));
  }

  /** The last mail of each address from which several came back within days, each time only for the moment. */
  private async oftenReturned(companyId: CompanyId): Promise<MailOutboxEntity[]> {
    const since = instantText(this.clock.now().minus({ days: RETURNED_WITHIN_DAYS }));
    const returned = await this.database.company(companyId).find(MailOutboxEntity, {
      where: { state: 'bounced', lastReply: Like('report: 4%'), createdAt: MoreThanOrEqual(since) },
      order: { createdAt: 'ASC', id: 'ASC' },
    });
    const byAddress = new Map<string, MailOutboxEntity[]>();
    for (const mail of returned) byAddress.set(mail.toAddress, [...(byAddress.get(mail.toAddress) ?? []), mail]);
    return [...byAddress.values()].filter((mails) => mails.length >= RETURNED_TIMES).map((mails) => mails.at(-1)!);
  }

  private async insert(
    companyId: CompanyId,
    mail: NewMail,
    state: MailState,
    lastReply: string | null,
  ): Promise<string | null> {
    return this.database.unitOfWork('write a mail', async () => {
      const store = this.database.company(companyId);
      const standing = await store.findOne(MailOutboxEntity, { dedupeKey: mail.dedupeKey });
      // One that could not be written gives way to one that now can.
      if (standing && !(isUnwritten(standing) && state !== 'dead')) return null;
      if (standing) await store.remove(MailOutboxEntity, { id: standing.id });

      const now = mail.writtenAt ?? this.clock.instant();
      const id = newId(instantFrom(now).toMillis());
      await store.insert(MailOutboxEntity, {
        id,
        kind: mail.kind,
        dedupeKey: mail.dedupeKey,
        state,
        toName: oneLine(mail.toName),
        toAddress: mail.toAddress,
        contactId: mail.contactId ?? null,
        pondId: mail.pondId ?? null,
        subject: oneLine(mail.subject),
        html: mail.html,
        plainText: mail.plainText,
        headers: { ...mail.headers, ...(mail.thread && { References: this.messageIdOf(mail.thread) }) },
        pictures: [...(mail.pictures ?? [])],
        timeZone: mail.timeZone ?? null,
        messageId: this.messageIdOf(id),
        datedAt: now,
        attempts: 0,
        notBefore: mail.notBefore ?? now,
        notAfter: mail.notAfter ?? null,
        leaseNumber: 0,
        leasedUntil: null,
        lastReply,
        sentAt: null,
        createdAt: now,
      });
      return id;
    });
  }

  private messageIdOf(name: string): string {
    return `<${name}@${this.settings.mailFrom.address.split('@')[1]}>`;
  }
}

function isUnwritten(mail: Pick<MailOutboxEntity, 'state' | 'html'>): boolean {
  return mail.state === 'dead' && mail.html === '';
}
