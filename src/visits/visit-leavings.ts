import { Injectable } from '@nestjs/common';
import { In, IsNull, Not } from 'typeorm';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PersonId, PondId, VisitId } from '../platform/ids.js';
import type { IncomingClosing } from './closing-answer.js';
import { PartsShelf } from './parts/parts-shelf.service.js';
import { VisitPartEntity } from './parts/visit-part.entity.js';
import { VisitFollowUpEntity } from './visit-follow-up.entity.js';
import { FollowUpNotFoundError } from './visits.errors.js';

/** What closings leave behind beside outcomes and readings: parts taken from the shelf, and what is to be followed up. */
@Injectable()
export class VisitLeavings {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly shelf: PartsShelf,
  ) {}

  /** Keeps what a closing tells of, each once by its id. Inside the unit of work of the closing. */
  async keep({ visit, closing, actor, receivedAt }: IncomingClosing): Promise<void> {
    await this.keepParts(visit.companyId, visit.id, closing.parts ?? []);
    await this.keepFollowUps(visit.companyId, closing.followUps ?? [], {
      visitId: visit.id,
      pondId: visit.pondId,
      notedBy: actor.personId,
      notedAt: receivedAt,
      settledAt: null,
      settledBy: null,
    });
  }

  /** The closings of a visit are opened again: its parts go back on the shelf until it is closed anew. */
  async putBack(companyId: CompanyId, visitId: VisitId): Promise<void> {
    const store = this.database.company(companyId);
    const used = await store.find(VisitPartEntity, { where: { visitId, removedAt: IsNull() } });
    for (const part of used) if (part.partId !== null) await this.shelf.take(companyId, part.partId, -part.amount);
    await store.update(VisitPartEntity, { visitId, removedAt: IsNull() }, { removedAt: this.clock.instant() });
  }

  partsOf(companyId: CompanyId, visitIds: readonly VisitId[]): Promise<VisitPartEntity[]> {
    return this.database.company(companyId).find(VisitPartEntity, {
      where: { visitId: In([...visitIds]), removedAt: IsNull() },
      order: { name: 'ASC', id: 'ASC' },
    });
  }

  /** Of one pond, or of all; those that nobody has settled, the soonest wanted first. */
  async openFollowUps(companyId: CompanyId, pondId?: PondId): Promise<VisitFollowUpEntity[]> {
    const where = { settledAt: IsNull(), ...(pondId !== undefined && { pondId }) };
    const open = await this.database
      .company(companyId)
      .find(VisitFollowUpEntity, { where, order: { notedAt: 'ASC', id: 'ASC' } });
    const wanted = ({ untilOn }: VisitFollowUpEntity) => untilOn ?? '9999-12-31';
    return open.sort((a, b) => (wanted(a) === wanted(b) ? 0 : wanted(a) < wanted(b) ? -1 : 1));
  }

  followUpsOf(companyId: CompanyId, visitId: VisitId): Promise<VisitFollowUpEntity[]> {
    return this.database.company(companyId).find(VisitFollowUpEntity, { where: { visitId }, order: { id: 'ASC' } });
  }

  /** Said twice, the first time stays. @throws FollowUpNotFoundError */
  async settle(companyId: CompanyId, id: string, by: PersonId): Promise<void> {
    await this.mark(companyId, id, { settledAt: this.clock.instant(), settledBy: by }, { settledAt: IsNull() });
  }

  /** @throws FollowUpNotFoundError */
  async unsettle(companyId: CompanyId, id: string): Promise<void> {
    await this.mark(companyId, id, { settledAt: null, settledBy: null }, { settledAt: Not(IsNull()) });
  }

  private async mark(
    companyId: CompanyId,
    id: string,
    mark: Pick<VisitFollowUpEntity, 'settledAt' | 'settledBy'>,
    only: object,
  ): Promise<void> {
    await this.database.unitOfWork('settle a follow-up', async () => {
      const store = this.database.company(companyId);
      const changed = await store.update(VisitFollowUpEntity, { id, ...only }, mark);
      if (changed === 0 && !(await store.findOne(VisitFollowUpEntity, { id }))) throw new FollowUpNotFoundError(id);
    });
  }

  private async keepParts(
    companyId: CompanyId,
    visitId: VisitId,
    parts: NonNullable<IncomingClosing['closing']['parts']>,
  ): Promise<void> {
    const store = this.database.company(companyId);
    const known = await this.shelf.known(
      companyId,
      parts.flatMap(({ partId }) => partId ?? []),
    );
    for (const part of parts) {
      const { id, name, amount, unit, careTaskId, lot } = part;
      // A part that is on no shelf of ours is kept by its name.
      const partId = part.partId !== null && known.has(part.partId) ? part.partId : null;
      const values = { visitId, partId, name, amount, unit, careTaskId, lot, removedAt: null };
      const before = await store.findOne(VisitPartEntity, { id });
      if (before && (before.removedAt === null || before.visitId !== visitId)) continue;
      if (before) await store.update(VisitPartEntity, { id }, values);
      else await store.insert(VisitPartEntity, { id, ...values });
      if (partId !== null) await this.shelf.take(companyId, partId, amount);
    }
  }

  private async keepFollowUps(
    companyId: CompanyId,
    followUps: NonNullable<IncomingClosing['closing']['followUps']>,
    about: Omit<VisitFollowUpEntity, 'id' | 'companyId' | 'what' | 'untilOn' | 'careTaskId'>,
  ): Promise<void> {
    const store = this.database.company(companyId);
    for (const { id, what, untilOn, careTaskId } of followUps) {
      if (await store.findOne(VisitFollowUpEntity, { id })) continue;
      await store.insert(VisitFollowUpEntity, { id, what: what.trim(), untilOn, careTaskId, ...about });
    }
  }
}
