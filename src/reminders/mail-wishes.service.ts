import { Injectable } from '@nestjs/common';
import { requireWithin } from '../core/errors.js';
import type { UnitSystem } from '../core/units/show.js';
import type { CompanyId, PersonId } from '../platform/ids.js';
import { PondContactsService } from '../ponds/index.js';

export interface MailWishes {
  /** ISO: 1 Monday to 7 Sunday. */
  readonly weekday: number;
  /** Local hour, 6 to 21. */
  readonly hour: number;
  readonly units: UnitSystem;
}

/** Hours at which a mail is no nuisance. */
export const DIGEST_HOURS = { min: 6, max: 21 } as const;

/** What a homeowner wants of our mail, for all their ponds in one company. */
@Injectable()
export class MailWishesService {
  constructor(private readonly contacts: PondContactsService) {}

  async set(companyId: CompanyId, personId: PersonId, wishes: MailWishes): Promise<void> {
    requireWithin('weekday, 1 Monday to 7 Sunday', wishes.weekday, { min: 1, max: 7 });
    requireWithin('hour', wishes.hour, DIGEST_HOURS);
    await this.contacts.setMail(companyId, personId, {
      digestWeekday: wishes.weekday,
      digestHour: wishes.hour,
      units: wishes.units,
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
