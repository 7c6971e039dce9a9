import { Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import { requireWithin } from '../core/errors.js';
import type { UnitSystem } from '../core/units/show.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PersonId } from '../platform/ids.js';
import { PondContactEntity } from '../ponds/index.js';

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
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async set(companyId: CompanyId, personId: PersonId, wishes: MailWishes): Promise<void> {
    requireWithin('weekday, 1 Monday to 7 Sunday', wishes.weekday, { min: 1, max: 7 });
    requireWithin('hour', wishes.hour, DIGEST_HOURS);
    await this.change(companyId, personId, {
      digestWeekday: wishes.weekday,
      digestHour: wishes.hour,
      units: wishes.units,
    });
  }

  /** Ends all mail. Stopping twice is stopping once; answers whether this was the first time. */
  async stop(companyId: CompanyId, personId: PersonId): Promise<boolean> {
    return this.database.unitOfWork('stop mail', async () => {
      const stopped = await this.database
        .company(companyId)
        .update(
          PondContactEntity,
          { personId, endedOn: IsNull(), mailStoppedAt: IsNull() },
          { mailStoppedAt: this.clock.instant(), getsMail: false },
        );
      return stopped > 0;
    });
  }

  /** Takes a stop back. */
  async resume(companyId: CompanyId, personId: PersonId): Promise<void> {
    await this.change(companyId, personId, { mailStoppedAt: null, getsMail: true });
  }

  private async change(companyId: CompanyId, personId: PersonId, change: Partial<PondContactEntity>): Promise<void> {
    await this.database.unitOfWork('change mail wishes', () =>
      this.database.company(companyId).update(PondContactEntity, { personId, endedOn: IsNull() }, change),
    );
  }
}
