import { Injectable } from '@nestjs/common';
import { InvalidValueError, requireWithin } from '../core/errors.js';
import { civilDay } from '../core/units/civil-day.js';
import type { UnitSystem } from '../core/units/show.js';
import type { CompanyId, PersonId } from '../platform/ids.js';
import { PondContactsService } from '../ponds/index.js';

export interface MailWishes {
  /** ISO: 1 Monday to 7 Sunday. */
  readonly weekday: number;
  /** Local hour, 6 to 21. */
  readonly hour: number;
  readonly units: UnitSystem;
  /** First and last day without a weekly mail, civil dates; null for none. */
  readonly quiet: { readonly from: string; readonly until: string } | null;
}

/** Longer than this it is no holiday: mail is stopped instead. [days] */
export const LONGEST_QUIET_DAYS = 92;

/** Hours at which a mail is no nuisance. */
export const DIGEST_HOURS = { min: 6, max: 21 } as const;

/** What a homeowner wants of our mail, for all their ponds in one company. */
@Injectable()
export class MailWishesService {
  constructor(private readonly contacts: PondContactsService) {}

  async set(companyId: CompanyId, personId: PersonId, wishes: MailWishes): Promise<void> {
    requireWithin('weekday, 1 Monday to 7 Sunday', wishes.weekday, { min: 1, max: 7 });
    requireWithin('hour', wishes.hour, DIGEST_HOURS);
    if (wishes.quiet !== null) requireQuiet(wishes.quiet);
    await this.contacts.setMail(companyId, personId, {
      digestWeekday: wishes.weekday,
      digestHour: wishes.hour,
      units: wishes.units,
      quietFrom: wishes.quiet?.from ?? null,
      quietUntil: wishes.quiet?.until ?? null,
    });
  }

  /** Ends all mail. Stopping twice is stopping once; answers whether this was the first time. */
  async stop(companyId: CompanyId, personId: PersonId): Promise<boolean> {
    return this.contacts.stopMailTo(companyId, personId);
  }

  /** Takes a stop back. */
  async resume(companyId: CompanyId, personId: PersonId): Promise<void> {
    await this.contacts.resumeMailTo(companyId, personId);
  }
}

function requireQuiet({ from, until }: { readonly from: string; readonly until: string }): void {
  const days = civilDay(until) - civilDay(from);
  if (days < 0) {
    throw new InvalidValueError('last quiet day', until, `Choose ${from} or a later day.`);
  }
  if (days > LONGEST_QUIET_DAYS) {
    throw new InvalidValueError('last quiet day', until, 'Choose at most three months. To end our mail, stop it.');
  }
}
