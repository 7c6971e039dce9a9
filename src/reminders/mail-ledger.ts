import { Logger } from '@nestjs/common';
import { In, LessThan, MoreThanOrEqual } from 'typeorm';
import { type Database, SharedCommit } from '../database/index.js';
import { type Clock, instantFrom, instantText } from '../platform/clock.js';
import type { CompanyId } from '../platform/ids.js';
import type { MailHolds } from './mail-holds.service.js';
import { quietUntil } from './mail-night.js';
import { MailOutboxEntity, type MailState } from './mail-outbox.entity.js';
import type { MailKind } from './outbox.service.js';
import { waitAfterTryMinutes } from './retry-schedule.js';
import type { HandOver } from './transport/mail-transport.js';

export interface DeliveryOutcome {
  sent: number;
  deferred: number;
  bounced: number;
  inDoubt: number;
  expired: number;
  dead: number;
}

/** A claim lasts this long unless it is renewed; a dead sender's mails are free after it. */
export const LEASE_SECONDS = 120;
/** A mail begun so often without ever coming to an end takes its sender with it: it is left to a person. */
const MOST_BEGINNINGS = 8;
/** Mails that are sent once more, with the same Message-ID, when nobody knows whether they went out; after minutes. */
const ONCE_MORE_AFTER_MINUTES: Partial<Record<MailKind, number>> = {
  'visit-report': 5,
  'visit-notice': 5,
  account: 5,
  urgent: 2,
};
const STOPPED_IN_BETWEEN =
  'The program stopped while this mail was being handed over, so nobody knows whether it went out.';

/** Every change a sender makes to its mails, each only while its lease is the last one. */
export class MailLedger {
  private readonly logger = new Logger('mail');
  /** Marks and outcomes of parallel senders share a commit; none goes on before its own is on the disk. */
  private readonly commits: SharedCommit;

  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly holds: MailHolds,
    private readonly spread: () => number,
  ) {
    this.commits = new SharedCommit(database, 'mark mails');
  }

  isHeld(companyId: CompanyId): Promise<boolean> {
    return this.holds.isHeld(companyId);
  }

  /** Takes a mail, or answers null when another has it. The number of the lease goes up with every claim. */
  async claim(mail: MailOutboxEntity): Promise<MailOutboxEntity | null> {
    const { id, companyId, state, leaseNumber } = mail;
    const claim = {
      state: 'claimed' as const,
      leaseNumber: leaseNumber + 1,
      attempts: mail.attempts + 1,
      leasedUntil: this.leaseEnd(),
    };
    const taken = await this.database.company(companyId).update(MailOutboxEntity, { id, state, leaseNumber }, claim);
    return taken === 1 ? { ...mail, ...claim } : null;
  }

  async giveBack(mail: MailOutboxEntity): Promise<void> {
    await this.change(mail, ['claimed'], { state: 'due', attempts: mail.attempts - 1, leasedUntil: null });
  }

  /** Inside the unit of work of a claim. */
  async waitForMorning({ id, companyId, state, leaseNumber }: MailOutboxEntity, notBefore: string): Promise<void> {
    await this.database
      .company(companyId)
      .update(MailOutboxEntity, { id, state, leaseNumber }, { state: 'due', notBefore, leasedUntil: null });
  }

  /** Committed after the server has asked for the text, before any of it goes out. False when the lease is lost. */
  async markHandingOver({ id, companyId, leaseNumber }: MailOutboxEntity): Promise<boolean> {
    const marked = await this.commits.run(() =>
      this.database
        .company(companyId)
        .update(
          MailOutboxEntity,
          { id, leaseNumber, state: 'claimed' },
          { state: 'handing_over', leasedUntil: this.leaseEnd() },
        ),
    );
    return marked === 1;
  }

  async renew(mail: MailOutboxEntity): Promise<void> {
    await this.change(mail, ['handing_over'], { leasedUntil: this.leaseEnd() }).catch((error: unknown) =>
      this.logger.warn(`The lease of mail ${mail.id} was not renewed: ${String(error)}`),
    );
  }

  /** Notes what became of handing a mail over. */
  async note(mail: MailOutboxEntity, result: HandOver, outcome: DeliveryOutcome): Promise<void> {
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

  /** Mails whose sender died after the mark: in doubt. Those claimed only are free by the end of their lease. */
  async settleAbandoned(companyId: CompanyId, outcome: DeliveryOutcome): Promise<void> {
    const store = this.database.company(companyId);
    const leasedUntil = LessThan(this.clock.instant());
    for (const mail of await store.find(MailOutboxEntity, { where: { state: 'handing_over', leasedUntil } })) {
      const lastSeenAt = instantText(instantFrom(mail.leasedUntil!).minus({ seconds: LEASE_SECONDS }));
      await this.doubt(mail, STOPPED_IN_BETWEEN, lastSeenAt, outcome);
    }
    const where = { state: 'claimed' as const, leasedUntil, attempts: MoreThanOrEqual(MOST_BEGINNINGS) };
    for (const mail of await store.find(MailOutboxEntity, { where })) {
      const lastReply = `The program stopped each of the ${mail.attempts} times this mail was begun, so it is left alone.`;
      if (await this.change(mail, ['claimed'], { state: 'dead', lastReply })) outcome.dead += 1;
    }
  }

  async expire(companyId: CompanyId, outcome: DeliveryOutcome): Promise<void> {
    const late = await this.database.company(companyId).find(MailOutboxEntity, {
      where: { state: In(['due', 'deferred'] satisfies MailState[]), notAfter: LessThan(this.clock.instant()) },
    });
    for (const mail of late) {
      const changed = await this.change(mail, [mail.state], { state: unsentState(mail) });
      if (changed) outcome.expired += 1;
    }
  }

  private async putOff(mail: MailOutboxEntity, reply: string, outcome: DeliveryOutcome): Promise<void> {
    const minutes = waitAfterTryMinutes(mail.attempts, this.spread());
    const next = minutes === null ? null : this.byDay(mail, minutes);
    const isTooLate = next === null || (mail.notAfter !== null && next > mail.notAfter);
    const change = isTooLate
      ? { state: unsentState(mail), lastReply: reply }
      : { state: 'deferred' as const, notBefore: next, lastReply: reply };
    if (!(await this.change(mail, ['claimed', 'handing_over'], change))) return;
    if (isTooLate) outcome.expired += 1;
    else outcome.deferred += 1;
  }

  private byDay(mail: MailOutboxEntity, minutes: number): string {
    const next = this.clock.now().plus({ minutes });
    return quietUntil(mail, next) ?? instantText(next);
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
