import { setTimeout as pause } from 'node:timers/promises';
import { Inject, Injectable, Logger } from '@nestjs/common';
import { CompaniesService, type CompanyEntity } from '../accounts/index.js';
import { SETTINGS, type Settings } from '../config/index.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { MailClaims } from './mail-claims.js';
import { MailHolds } from './mail-holds.service.js';
import { type DeliveryOutcome, LEASE_SECONDS, MailLedger } from './mail-ledger.js';
import type { MailOutboxEntity } from './mail-outbox.entity.js';
import { MailPace, NO_PACE } from './mail-pace.js';
import { type HandOver, MailTransport } from './transport/mail-transport.js';

export type { DeliveryOutcome } from './mail-ledger.js';

/** Injection token: a source of numbers from 0 to 1 that spreads retries. */
export const RETRY_SPREAD = Symbol('retry-spread');
export type RetrySpread = () => number;

export interface DeliveryOptions {
  /** Called after each mail with how many were dealt with. */
  readonly onProgress?: (done: number) => void;
  readonly senders?: number;
  /** Aborts when the program stops: the mail at hand is finished, no other is begun. */
  readonly signal?: AbortSignal;
  /** A server silent for longer than this keeps its one mail, while the sender goes on with others; 5 s unless given. [ms] */
  readonly silentAfterMs?: number;
}

const SENDERS = 4;
const SILENT_AFTER_MS = 5_000;
/** So many mails may wait for a silent server; with more, the server is taken for down and nothing new is begun. */
const MOST_WAITING = 16;

/** Takes due mails from the outbox to the mail server. Any number of processes may do so side by side. */
@Injectable()
export class MailDelivery {
  private readonly logger = new Logger('mail');
  private readonly ledger: MailLedger;
  private readonly pace: MailPace;
  /** Mails whose server is silent; each is noted when it answers, or when its patience ends. */
  private readonly waiting = new Set<Promise<void>>();

  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly companies: CompaniesService,
    private readonly transport: MailTransport,
    holds: MailHolds,
    @Inject(RETRY_SPREAD) spread: RetrySpread,
    @Inject(SETTINGS) { mailPace }: Partial<Pick<Settings, 'mailPace'>>,
  ) {
    this.ledger = new MailLedger(database, clock, holds, spread);
    this.pace = new MailPace(mailPace ?? NO_PACE, () => performance.now());
  }

  /**
   * Sends what is due now, each company in its turn where the pace allows no more at once. A demo company's mail never
   * reaches a mail server, and held mail stays.
   */
  async run(options: DeliveryOptions = {}): Promise<DeliveryOutcome> {
    const outcome: DeliveryOutcome = { sent: 0, deferred: 0, bounced: 0, inDoubt: 0, expired: 0, dead: 0 };
    if (!this.transport.canSend) return outcome;

    let left: CompanyEntity[] = [];
    for (const company of await this.companies.all()) {
      if (company.isDemo) continue;
      await this.ledger.settleAbandoned(company.id, outcome);
      await this.ledger.expire(company.id, outcome);
      left.push(company);
    }
    const tally = { done: 0, outcome };
    while (left.length > 0 && !isStopped(options)) {
      const paced: CompanyEntity[] = [];
      for (const company of left) {
        if (await this.sendSome(company, tally, options)) paced.push(company);
      }
      left = this.waiting.size >= MOST_WAITING ? [] : paced;
      if (left.length > 0)
        await pause(this.pace.waitMs(), undefined, { signal: options.signal }).catch(() => undefined);
    }
    await this.transport.close();
    return outcome;
  }

  /** Sends until nothing is due or the pace allows no more; true when it was the pace. */
  private async sendSome(
    company: CompanyEntity,
    tally: { done: number; readonly outcome: DeliveryOutcome },
    options: DeliveryOptions,
  ): Promise<boolean> {
    const senders = options.senders ?? SENDERS;
    const claims = new MailClaims(company, senders, this.database, this.clock, this.ledger, this.pace);
    const send = async () => {
      // The outcome of a mail goes into the commit that marks the next one, at the latest: until then only one of
      // this sender's mails can be in doubt.
      let noted: Promise<void> = Promise.resolve();
      while (!isStopped(options) && this.waiting.size < MOST_WAITING) {
        const mail = await claims.next();
        if (!mail) break;
        const handing = this.handOver(mail, company);
        if (await isSilent(handing, options.silentAfterMs ?? SILENT_AFTER_MS)) {
          this.leaveWaiting(mail, handing, tally.outcome);
          continue;
        }
        const result = await handing;
        await noted;
        noted = this.ledger.note(mail, result, tally.outcome);
        noted.catch(() => undefined);
        options.onProgress?.(++tally.done);
      }
      await noted;
    };
    await Promise.all(Array.from({ length: senders }, send));
    await claims.giveBack();
    return claims.isPaced;
  }

  private leaveWaiting(mail: MailOutboxEntity, handing: Promise<HandOver>, outcome: DeliveryOutcome): void {
    this.logger.warn(`Mail ${mail.id}: the server is silent; the others go on.`);
    const noted = handing
      .then((result) => this.ledger.note(mail, result, outcome))
      .catch((error: unknown) => this.logger.error(`Mail ${mail.id}: its outcome was not noted: ${String(error)}`))
      .finally(() => this.waiting.delete(noted));
    this.waiting.add(noted);
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
          pictures: mail.pictures,
          headers: mail.headers,
          messageId: mail.messageId,
          datedAt: mail.datedAt,
        },
        async () => {
          const goes = await this.ledger.markHandingOver(mail);
          if (goes) renewal = setInterval(() => void this.ledger.renew(mail), (LEASE_SECONDS * 1000) / 3).unref();
          return goes;
        },
      );
    } catch (error) {
      return { kind: 'unsendable', reply: (error as Error).message };
    } finally {
      clearInterval(renewal);
    }
  }
}

function isStopped({ signal }: DeliveryOptions): boolean {
  return signal?.aborted ?? false;
}

async function isSilent(handing: Promise<unknown>, afterMs: number): Promise<boolean> {
  let timer: NodeJS.Timeout | undefined;
  const silence = new Promise<true>((late) => {
    timer = setTimeout(() => late(true), afterMs);
  });
  try {
    return await Promise.race([handing.then(() => false as const), silence]);
  } finally {
    clearTimeout(timer);
  }
}
