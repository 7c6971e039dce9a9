import { Injectable } from '@nestjs/common';
import { In, Like, MoreThan } from 'typeorm';
import { Database } from '../database/index.js';
import { Clock, instantText } from '../platform/clock.js';
import type { CompanyId, PondId, VisitId } from '../platform/ids.js';
import { VisitSettings } from '../visits/index.js';
import { MailOutboxEntity } from './mail-outbox.entity.js';

/** A report that waits for the office before it leaves. */
export interface HeldReport {
  readonly visitId: VisitId;
  readonly pondId: PondId | null;
  readonly toName: string;
  /** Instant at which it leaves by itself. */
  readonly leavesAt: string;
}

const MOST_SHOWN = 20;
const REPLACED = 'Replaced by a corrected report before it left.';

/** The pause between a closed visit and its report, in which the office may look at it. */
@Injectable()
export class ReportHolds {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly settings: VisitSettings,
  ) {}

  /** The instant before which a report written now must not leave; undefined where the company wishes no pause. */
  async heldUntil(companyId: CompanyId): Promise<string | undefined> {
    const { reportHoldHours } = await this.settings.of(companyId);
    return reportHoldHours === 0 ? undefined : instantText(this.clock.now().plus({ hours: reportHoldHours }));
  }

  /** Reports that still wait, the first to leave first. */
  async held(companyId: CompanyId): Promise<HeldReport[]> {
    const mails = await this.database.company(companyId).find(MailOutboxEntity, {
      where: { kind: 'visit-report', state: 'due', notBefore: MoreThan(this.clock.instant()) },
      order: { notBefore: 'ASC', id: 'ASC' },
      take: MOST_SHOWN,
    });
    return mails.map(({ dedupeKey, toName, pondId, notBefore }) => ({
      visitId: dedupeKey.split(':')[1] ?? '',
      pondId,
      toName,
      leavesAt: notBefore,
    }));
  }

  /** Lets the reports of a visit leave now; answers how many there were. */
  release(companyId: CompanyId, visitId: VisitId): Promise<number> {
    return this.database.unitOfWork('release a report', () =>
      this.database
        .company(companyId)
        .update(MailOutboxEntity, this.waiting(visitId), { notBefore: this.clock.instant() }),
    );
  }

  /** Reports of a visit that have not left yet give way to a newer one. Inside the unit of work that writes it. */
  async withdraw(companyId: CompanyId, visitId: VisitId): Promise<void> {
    const change = { state: 'expired' as const, lastReply: REPLACED };
    await this.database.company(companyId).update(MailOutboxEntity, this.waiting(visitId), change);
  }

  /** Whether an earlier report of this visit has left, or may have. */
  async hasLeft(companyId: CompanyId, visitId: VisitId): Promise<boolean> {
    const where = { ...this.ofVisit(visitId), state: In(['kept', 'sent', 'in_doubt', 'handing_over', 'claimed']) };
    return (await this.database.company(companyId).count(MailOutboxEntity, where)) > 0;
  }

  private waiting(visitId: VisitId) {
    return { ...this.ofVisit(visitId), state: In(['due']), notBefore: MoreThan(this.clock.instant()) };
  }

  private ofVisit(visitId: VisitId) {
    return { kind: 'visit-report' as const, dedupeKey: Like(`visit-report:${visitId}:%`) };
  }
}
