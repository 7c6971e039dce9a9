import type { CompanyEntity } from '../accounts/index.js';
import type { Database } from '../database/index.js';
import type { Clock } from '../platform/clock.js';
import type { MailLedger } from './mail-ledger.js';
import { quietUntil } from './mail-night.js';
import { MailOutboxEntity } from './mail-outbox.entity.js';
import { hostOf, type MailPace } from './mail-pace.js';

/** Claimed at one go for each sender: a claim costs a commit, and a dead process keeps these for the lease. */
const CLAIMED_PER_SENDER = 5;
const LOOK_AGAIN_MS = 1_000;

/**
 * Mails of one company claimed together and handed out one by one; parallel senders wait for the same claim. What tells
 * of one moment (urgent tasks, visits, sign-in) goes before the weekly mails.
 */
export class MailClaims {
  private claimed: MailOutboxEntity[] = [];
  private claiming: Promise<void> | null = null;
  private isDry = false;
  private hasMore = false;
  private noneFirstUntilMs = 0;

  constructor(
    private readonly company: CompanyEntity,
    private readonly senders: number,
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly ledger: MailLedger,
    private readonly pace: MailPace,
  ) {}

  async next(): Promise<MailOutboxEntity | null> {
    while (this.claimed.length === 0 && !this.isDry) {
      this.claiming ??= this.refill();
      await this.claiming;
    }
    return this.claimed.shift() ?? null;
  }

  /** Whether due mails were left only because the pace allowed no more. */
  get isPaced(): boolean {
    return this.hasMore;
  }

  /** Mails claimed and not begun: another may take them at once. */
  async giveBack(): Promise<void> {
    for (const mail of this.claimed.splice(0)) await this.ledger.giveBack(mail);
  }

  private async refill(): Promise<void> {
    try {
      this.claimed = await this.claim();
      this.isDry = this.claimed.length === 0;
    } finally {
      this.claiming = null;
    }
  }

  private async claim(): Promise<MailOutboxEntity[]> {
    const wanted = this.senders * CLAIMED_PER_SENDER;
    const allowed = Math.min(wanted, this.pace.allowedFor(this.company.id));
    return this.database.unitOfWork('claim mails', async () => {
      this.hasMore = false;
      if (await this.ledger.isHeld(this.company.id)) return [];
      const due = await this.due(wanted);
      const claimed: MailOutboxEntity[] = [];
      for (const mail of due) {
        if (claimed.length >= allowed || !this.pace.allowsHost(hostOf(mail.toAddress))) {
          this.hasMore = true;
          continue;
        }
        const morning = quietUntil(mail, this.clock.now());
        if (morning !== null) await this.ledger.waitForMorning(mail, morning);
        else {
          const mine = await this.ledger.claim(mail);
          if (mine === null) continue;
          this.pace.spend(this.company.id, hostOf(mail.toAddress));
          claimed.push(mine);
        }
      }
      // Mails to hosts that get no more for now were not even looked at.
      if (claimed.length === 0 && this.pace.fullHosts().length > 0 && (await this.anyDue())) this.hasMore = true;
      return claimed;
    });
  }

  private async due(atMost: number): Promise<MailOutboxEntity[]> {
    const first = await this.dueFirst(atMost);
    if (first.length >= atMost) return first;
    return [
      ...first,
      ...(await this.select("mail.kind = 'digest'")
        .page(0, atMost - first.length)
        .rows()),
    ];
  }

  /** What cannot wait. Where there was none a moment ago a backlog of weekly mails is not searched for it again. */
  private async dueFirst(atMost: number): Promise<MailOutboxEntity[]> {
    const nowMs = performance.now();
    if (nowMs < this.noneFirstUntilMs) return [];
    const first = await this.select("mail.kind <> 'digest'").page(0, atMost).rows();
    if (first.length < atMost) this.noneFirstUntilMs = nowMs + LOOK_AGAIN_MS;
    return first;
  }

  private select(kinds: string) {
    const select = this.allDue().and(kinds);
    for (const [index, host] of this.pace.fullHosts().entries()) {
      select.and(`LOWER(mail.toAddress) NOT LIKE :host${index} ESCAPE '!'`, {
        [`host${index}`]: `%@${host.replace(/[!%_]/g, '!$&')}`,
      });
    }
    return select.orderBy('notBefore').orderBy('id');
  }

  private async anyDue(): Promise<boolean> {
    return (await this.allDue().count()) > 0;
  }

  private allDue() {
    const now = this.clock.instant();
    return this.database
      .company(this.company.id)
      .select(MailOutboxEntity, 'mail')
      .and("mail.state IN ('due', 'deferred') OR (mail.state = 'claimed' AND mail.leasedUntil < :now)", { now })
      .and('mail.notBefore <= :now', { now });
  }
}
