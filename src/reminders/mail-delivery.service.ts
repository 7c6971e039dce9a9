import { Inject, Injectable, Logger } from '@nestjs/common';
import { In, LessThan } from 'typeorm';
import { CompaniesService, type CompanyEntity } from '../accounts/index.js';
import { Database, SharedCommit } from '../database/index.js';
import { Clock, instantFrom, instantText } from '../platform/clock.js';
import type { CompanyId } from '../platform/ids.js';
import { MailClaims } from './mail-claims.js';
import { MailOutboxEntity, type MailState } from './mail-outbox.entity.js';
import type { MailKind } from './outbox.service.js';
import { waitAfterTryMinutes } from './retry-schedule.js';
import { type HandOver, MailTransport } from './transport/mail-transport.js';

/** Injection token: a source of numbers from 0 to 1 that spreads retries. */
export const RETRY_SPREAD = Symbol('retry-spread');
export type RetrySpread = () => number;

export interface DeliveryOutcome {
  sent: number;
  deferred: number;
  bounced: number;
  inDoubt: number;
  expired: number;
  dead: number;
}

export interface DeliveryOptions {
  /** Called after each mail with how many were dealt with. */
  readonly onProgress?: (done: number) => void;
  readonly senders?: number;
  /** Aborts when the program stops: the mail at hand is finished, no other is begun. */
  readonly signal?: AbortSignal;
}

/** A claim lasts this long unless it is renewed; a dead sender's mails are free after it. */
const LEASE_SECONDS = 120;
const SENDERS = 4;
/** Claimed at one go for each sender: a claim costs a commit, and a dead process keeps these for the lease. */
const CLAIMED_PER_SENDER = 5;
/** Mails that are sent once more, with the same Message-ID, when nobody knows whether they went out; after minutes. */
const ONCE_MORE_AFTER_MINUTES: Partial<Record<MailKind, number>> = {
  'visit-report': 5,
  'visit-notice': 5,
  account: 5,
  urgent: 2,
};
const STOPPED_IN_BETWEEN =
  'The program stopped while this mail was being handed over, so nobody knows whether it went out.';

/** Takes due mails from the outbox to the mail server. Any number of processes may do so side by side. */
@Injectable()
export class MailDelivery {
  private readonly logger = new Logger('mail');
  /** Marks and outcomes of parallel senders share a commit; none goes on before its own is on the disk. */
  private readonly commits: SharedCommit;

  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly companies: CompaniesService,
    private readonly transport: MailTransport,
    @Inject(RETRY_SPREAD) private readonly spread: RetrySpread,
  ) {
    this.commits = new SharedCommit(database, 'mark mails');
  }

  /** Sends what is due now. A demo company's mail never reaches a mail server. */
  async run(options: DeliveryOptions = {}): Promise<DeliveryOutcome> {
    const outcome: DeliveryOutcome = { sent: 0, deferred: 0, bounced: 0, inDoubt: 0, expired: 0, dead: 0 };
    if (!this.transport.canSend) return outcome;

    let done = 0;
    const senders = options.senders ?? SENDERS;
    for (const company of await this.companies.all()) {
      if (company.isDemo) continue;
      await this.settleAbandoned(company.id, outcome);
      await this.expire(company.id, outcome);
      const claims = new MailClaims(() => this.claim(company.id, senders * CLAIMED_PER_SENDER));
      const send = async () => {
        // The outcome of a mail goes into the commit that marks the next one, at the latest: until then only one of
        // this sender's mails can be in doubt.
        let noted: Promise<void> = Promise.resolve();
        while (!options.signal?.aborted) {
          const mail = await claims.next();
          if (!mail) break;
          const result = await this.handOver(mail, company);
          await noted;
          noted = this.note(mail, result, outcome);
          noted.catch(() => undefined);
          options.onProgress?.(++done);
        }
        await noted;
      };
      await Promise.all(Array.from({ length: senders }, send));
      await this.giveBack(claims.left());
    }
    await this.transport.close();
    return outcome;
  }

  /** Takes the next due mails, or none. The number of the lease goes up with every claim. */
  private claim(companyId: CompanyId, atMost: number): Promise<MailOutboxEntity[]> {
    return this.database.unitOfWork('claim mails', async () => {
      const store = this.database.company(companyId);
      const now = this.clock.instant();
      const next = await store
        .select(MailOutboxEntity, 'mail')
        .and("mail.state IN ('due', 'deferred') OR (mail.state = 'claimed' AND mail.leasedUntil < :now)", { now })
        .and('mail.notBefore <= :now', { now })
        .orderBy('notBefore')
        .orderBy('id')
        .page(0, atMost)
        .rows();
      const claimed: MailOutboxEntity[] = [];
      for (const mail of next) {
        const claim = {
          state: 'claimed' as const,
          leaseNumber: mail.leaseNumber + 1,
          attempts: mail.attempts + 1,
          leasedUntil: this.leaseEnd(),
        };
        const { id, state, leaseNumber } = mail;
        const taken = await store.update(MailOutboxEntity, { id, state, leaseNumber }, claim);
        if (taken === 1) claimed.push({ ...mail, ...claim });
      }
      return claimed;
    });
  }

  /** Mails claimed and not begun when the program stops: another may take them at once. */
  private async giveBack(mails: readonly MailOutboxEntity[]): Promise<void> {
    for (const mail of mails) {
      await this.change(mail, ['claimed'], { state: 'due', attempts: mail.attempts - 1, leasedUntil: null });
    }
  }

  private async handOver(mail: MailOutboxEntity, company: CompanyEntity): Promise<HandOver> {
    let renewal: NodeJS.Timeout | undefined;
    try {
      return await this.transport.send(
        {
          id: mail.id,
          fromName: company.name,
          to: { name: mail.toName, address: mail.toAddress },
          replyTo: company.replyToEmail || null,
          subject: mail.subject,
          html: mail.html,
          plainText: mail.plainText,
          headers: mail.headers,
          messageId: mail.messageId,
          datedAt: mail.datedAt,
        },
        async () => {
          const goes = await this.markHandingOver(mail);
          if (goes) renewal = setInterval(() => void this.renew(mail), (LEASE_SECONDS * 1000) / 3).unref();
          return goes;
        },
      );
    } catch (error) {
      return { kind: 'unsendable', reply: (error as Error).message };
    } finally {
      clearInterval(renewal);
    }
  }

  /** Committed after the server has asked for the text, before any of it goes out. False when the lease is lost. */
  private async markHandingOver(mail: MailOutboxEntity): Promise<boolean> {
    const marked = await this.commits.run(() =>
      this.database
        .company(mail.companyId)
        .update(
          MailOutboxEntity,
          { id: mail.id, leaseNumber: mail.leaseNumber, state: 'claimed' },
          { state: 'handing_over', leasedUntil: this.leaseEnd() },
        ),
    );
    return marked === 1;
  }

  private async renew(mail: MailOutboxEntity): Promise<void> {
    await this.change(mail, ['handing_over'], { leasedUntil: this.leaseEnd() }).catch((error: unknown) =>
      this.logger.warn(`The lease of mail ${mail.id} was not renewed: ${String(error)}`),
    );
  }

  private async note(mail: MailOutboxEntity, result: HandOver, outcome: DeliveryOutcome): Promise<void> {
    if (result.kind === 'withdrawn') return;
    const { reply } = result;
    switch (result.kind) {
      case 'accepted':
        // Also when somebody thought this sender dead meanwhile: the server's word is the better knowledge.
        if (
          await this.change(mail, ['handing_over', 'in_doubt'], {
            state: 'sent',
            sentAt: this.clock.instant(),
            lastReply: reply,
          })
        )
          outcome.sent += 1;
        return;
      case 'refused':
        if (await this.change(mail, ['claimed', 'handing_over'], { state: 'bounced', lastReply: reply }))
          outcome.bounced += 1;
        return;
      case 'unsendable':
        if (await this.change(mail, ['claimed', 'handing_over'], { state: 'dead', lastReply: reply }))
          outcome.dead += 1;
        return;
      case 'later':
        await this.putOff(mail, reply, outcome);
        return;
      case 'unknown':
        await this.doubt(mail, reply, this.clock.instant(), outcome);
    }
  }

  private async putOff(mail: MailOutboxEntity, reply: string, outcome: DeliveryOutcome): Promise<void> {
    const minutes = waitAfterTryMinutes(mail.attempts, this.spread());
    const next = minutes === null ? null : instantText(this.clock.now().plus({ minutes }));
    const isTooLate = next === null || (mail.notAfter !== null && next > mail.notAfter);
    const change = isTooLate
      ? { state: unsentState(mail), lastReply: reply }
      : { state: 'deferred' as const, notBefore: next, lastReply: reply };
    if (!(await this.change(mail, ['claimed', 'handing_over'], change))) return;
    if (isTooLate) outcome.expired += 1;
    else outcome.deferred += 1;
  }

  /**
   * Nobody knows whether the mail went out. `sentAt` then says when it may have; a mail that has one is not sent by
   * itself a second time.
   */
  private async doubt(
    mail: MailOutboxEntity,
    reply: string,
    handedOverAt: string,
    outcome: DeliveryOutcome,
  ): Promise<void> {
    const waitMinutes = mail.sentAt === null ? ONCE_MORE_AFTER_MINUTES[mail.kind] : undefined;
    const next = waitMinutes === undefined ? null : instantText(this.clock.now().plus({ minutes: waitMinutes }));
    const goesOnceMore = next !== null && (mail.notAfter === null || next <= mail.notAfter);
    const changed = await this.change(mail, ['handing_over'], {
      state: goesOnceMore ? 'due' : 'in_doubt',
      ...(goesOnceMore && { notBefore: next }),
      sentAt: mail.sentAt ?? handedOverAt,
      lastReply: reply,
    });
    if (changed) outcome.inDoubt += 1;
  }

  /** Mails whose sender died after the mark: in doubt. Those claimed only are free by the end of their lease. */
  private async settleAbandoned(companyId: CompanyId, outcome: DeliveryOutcome): Promise<void> {
    const abandoned = await this.database.company(companyId).find(MailOutboxEntity, {
      where: { state: 'handing_over', leasedUntil: LessThan(this.clock.instant()) },
    });
    for (const mail of abandoned) {
      const lastSeenAt = instantText(instantFrom(mail.leasedUntil!).minus({ seconds: LEASE_SECONDS }));
      await this.doubt(mail, STOPPED_IN_BETWEEN, lastSeenAt, outcome);
    }
  }

  private async expire(companyId: CompanyId, outcome: DeliveryOutcome): Promise<void> {
    const late = await this.database.company(companyId).find(MailOutboxEntity, {
      where: { state: In(['due', 'deferred'] satisfies MailState[]), notAfter: LessThan(this.clock.instant()) },
    });
    for (const mail of late) {
      const changed = await this.change(mail, [mail.state], { state: unsentState(mail) });
      if (changed) outcome.expired += 1;
    }
  }

  /** Changes a mail only if this sender's lease is still the last one. */
  private async change(
    mail: MailOutboxEntity,
    from: readonly MailState[],
    to: Partial<MailOutboxEntity>,
  ): Promise<boolean> {
    const { id, leaseNumber, companyId } = mail;
    const changed = await this.commits.run(() =>
      this.database.company(companyId).update(MailOutboxEntity, { id, leaseNumber, state: In([...from]) }, to),
    );
    if (changed === 0) this.logger.warn(`Mail ${id}: another sender holds it, so nothing was noted.`);
    return changed === 1;
  }

  private leaseEnd(): string {
    return instantText(this.clock.now().plus({ seconds: LEASE_SECONDS }));
  }
}

/** A mail that ran out of time: expired, unless an earlier try may have gone out. */
function unsentState(mail: MailOutboxEntity): MailState {
  return mail.sentAt === null ? 'expired' : 'in_doubt';
}
