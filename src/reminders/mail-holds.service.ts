import { Injectable } from '@nestjs/common';
import { In, Not } from 'typeorm';
import { CompaniesService } from '../accounts/index.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PersonId } from '../platform/ids.js';
import { type HoldReason, MailHoldEntity } from './mail-hold.entity.js';
import { MailOutboxEntity, type MailState } from './mail-outbox.entity.js';

/** Keeps when a restored copy was found, after its hold is released: what was due before may have gone out already. */
const RESTORED_MARK = 'restored';
const MAYBE_SENT = 'The database is a restored copy, so this mail may have gone out already.';
const UNSENT: MailState[] = ['due', 'deferred', 'claimed', 'handing_over'];

/** The scope of a hold over the mail of every company. */
export const WHOLE_SERVICE = 'service';

/**
 * The switch that stops mail, for one company or for all. Mails already claimed are taken away from their senders, so
 * after it only those whose text is just being handed over still arrive.
 */
@Injectable()
export class MailHolds {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly companies: CompaniesService,
  ) {}

  /** Holds mail; what is held already stays as it is. Answers whether it was not held before. */
  async hold(
    scope: CompanyId | typeof WHOLE_SERVICE,
    because: HoldReason,
    by: PersonId | null = null,
  ): Promise<boolean> {
    const heldAt = this.clock.instant();
    return this.database.unitOfWork('hold mail', async () => {
      const shared = this.database.shared();
      if ((await shared.count(MailHoldEntity, { scope })) > 0) return false;
      await shared.insert(MailHoldEntity, { scope, because, heldAt, heldBy: by });
      const companies = scope === WHOLE_SERVICE ? (await this.companies.all()).map(({ id }) => id) : [scope];
      for (const companyId of companies) await this.takeClaimsAway(companyId);
      return true;
    });
  }

  /**
   * Holds all mail because the database is an older copy. What it has as due is in doubt from now on, for a person to
   * look at, and no weekly mail of a moment before is written any more.
   */
  async holdRestored(): Promise<boolean> {
    const heldAt = this.clock.instant();
    return this.database.unitOfWork('hold mail of a restored copy', async () => {
      if (!(await this.hold(WHOLE_SERVICE, 'restored'))) return false;
      const shared = this.database.shared();
      await shared.remove(MailHoldEntity, { scope: RESTORED_MARK });
      await shared.insert(MailHoldEntity, { scope: RESTORED_MARK, because: 'restored', heldAt, heldBy: null });
      for (const { id: companyId } of await this.companies.all()) await this.doubtUnsent(companyId, heldAt);
      return true;
    });
  }

  /** When the database was last found to be a restored copy, or null. Instant. */
  async restoredAt(): Promise<string | null> {
    return (await this.database.shared().findOne(MailHoldEntity, { scope: RESTORED_MARK }))?.heldAt ?? null;
  }

  /** Lets mail go again. What is of no use any more expires; weekly mails are written anew. */
  async release(scope: CompanyId | typeof WHOLE_SERVICE): Promise<boolean> {
    return this.database.unitOfWork('release mail', async () => {
      return (await this.database.shared().remove(MailHoldEntity, { scope })) > 0;
    });
  }

  /** What holds the mail of a company: its own hold, that of all, both or none. */
  standing(companyId: CompanyId): Promise<MailHoldEntity[]> {
    return this.database.shared().find(MailHoldEntity, { scope: In([companyId, WHOLE_SERVICE]) });
  }

  async isHeld(companyId: CompanyId): Promise<boolean> {
    return (await this.standing(companyId)).length > 0;
  }

  /** Every hold there is. */
  all(): Promise<MailHoldEntity[]> {
    return this.database.shared().find(MailHoldEntity, { scope: Not(RESTORED_MARK) }, { heldAt: 'ASC' });
  }

  private async doubtUnsent(companyId: CompanyId, heldAt: string): Promise<void> {
    const store = this.database.company(companyId);
    for (const { id, leaseNumber, sentAt } of await store.find(MailOutboxEntity, { where: { state: In(UNSENT) } })) {
      await store.update(
        MailOutboxEntity,
        { id, leaseNumber },
        { state: 'in_doubt', leaseNumber: leaseNumber + 1, sentAt: sentAt ?? heldAt, lastReply: MAYBE_SENT },
      );
    }
  }

  /** A sender whose claim was taken away finds out before it hands over the text. */
  private async takeClaimsAway(companyId: CompanyId): Promise<void> {
    const store = this.database.company(companyId);
    for (const { id, leaseNumber, attempts } of await store.find(MailOutboxEntity, { where: { state: 'claimed' } })) {
      await store.update(
        MailOutboxEntity,
        { id, leaseNumber, state: 'claimed' },
        { state: 'due', leaseNumber: leaseNumber + 1, attempts: attempts - 1, leasedUntil: null },
      );
    }
  }
}
