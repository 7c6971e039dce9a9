import { Injectable } from '@nestjs/common';
import { IsNull, LessThan } from 'typeorm';
import { type Actor, PeopleService } from '../accounts/index.js';
import { InvalidValueError } from '../core/errors.js';
import { Database } from '../database/index.js';
import { Clock, instantFrom, instantText } from '../platform/clock.js';
import { type CompanyId, newId, type PersonId } from '../platform/ids.js';
import { CheckInEntity } from './check-in.entity.js';
import { CheckInNotFoundError } from './visits.errors.js';

/** A check-in time that has passed, and whom to call. */
export interface OverdueCheckIn {
  readonly checkIn: CheckInEntity;
  readonly name: string;
  readonly phone: string;
}

/** The working day of somebody who starts early. [h] */
const FARTHEST_HOURS = 16;

/**
 * Somebody who works alone sets a time by which they will have said that all is well; when it passes unsaid, the office
 * sees it. Nothing else is known of them: no place, no movement.
 */
@Injectable()
export class CheckIns {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly people: PeopleService,
  ) {}

  /** Sets the time, or another one in its place: a person has one at a time. @throws InvalidValueError */
  async set(actor: Actor, dueAt: string): Promise<CheckInEntity> {
    const due = instantText(instantFrom(dueAt));
    const latest = instantText(this.clock.now().plus({ hours: FARTHEST_HOURS }));
    const setAt = this.clock.instant();
    if (due <= setAt || due > latest) {
      throw new InvalidValueError('check-in time', dueAt, `Choose a time within the coming ${FARTHEST_HOURS} hours.`);
    }
    const row = {
      id: newId(this.clock.now().toMillis()),
      personId: actor.personId,
      dueAt: due,
      setAt,
      endedAt: null,
      endedBy: null,
    };
    await this.database.unitOfWork('set a check-in time', async () => {
      await this.end(actor.companyId, { personId: actor.personId }, actor.personId);
      await this.database.company(actor.companyId).insert(CheckInEntity, row);
    });
    return { ...row, companyId: actor.companyId };
  }

  /** All is well. Said without a time that runs, it changes nothing. */
  async allIsWell(actor: Actor): Promise<void> {
    await this.database.unitOfWork('say that all is well', () =>
      this.end(actor.companyId, { personId: actor.personId }, actor.personId),
    );
  }

  /** The office has reached the person. @throws CheckInNotFoundError */
  async settle(companyId: CompanyId, id: string, by: PersonId): Promise<void> {
    await this.database.unitOfWork('settle a check-in time', async () => {
      const ended = await this.end(companyId, { id }, by);
      if (ended === 0 && !(await this.database.company(companyId).findOne(CheckInEntity, { id }))) {
        throw new CheckInNotFoundError(id);
      }
    });
  }

  /** The time a person has set and not yet met. */
  running(companyId: CompanyId, personId: PersonId): Promise<CheckInEntity | null> {
    return this.database.company(companyId).findOne(CheckInEntity, { personId, endedAt: IsNull() });
  }

  /** Longest overdue first. */
  async overdue(companyId: CompanyId): Promise<OverdueCheckIn[]> {
    const late = await this.database.company(companyId).find(CheckInEntity, {
      where: { endedAt: IsNull(), dueAt: LessThan(this.clock.instant()) },
      order: { dueAt: 'ASC', id: 'ASC' },
    });
    const people = await this.people.byIds([...new Set(late.map(({ personId }) => personId))]);
    return late.map((checkIn) => {
      const person = people.get(checkIn.personId);
      return { checkIn, name: person?.name ?? '', phone: person?.phone ?? '' };
    });
  }

  private end(companyId: CompanyId, which: { id: string } | { personId: PersonId }, by: PersonId): Promise<number> {
    const mark = { endedAt: this.clock.instant(), endedBy: by };
    return this.database.company(companyId).update(CheckInEntity, { ...which, endedAt: IsNull() }, mark);
  }
}
