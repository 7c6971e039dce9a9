import { Injectable } from '@nestjs/common';
import { requireWithin } from '../core/errors.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId } from '../platform/ids.js';
import { VisitSettingEntity } from './visit-setting.entity.js';

/** What a company wishes of its visits. */
export interface VisitWishes {
  /** How long a report waits for the office before it is mailed; 0: not at all. [h] */
  readonly reportHoldHours: number;
}

const AS_IT_COMES: VisitWishes = { reportHoldHours: 0 };
/** At most a week: after that the report is no news. [h] */
const HOLD_HOURS = { min: 0, max: 168 } as const;

@Injectable()
export class VisitSettings {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async of(companyId: CompanyId): Promise<VisitWishes> {
    return (await this.database.company(companyId).findOne(VisitSettingEntity, {})) ?? AS_IT_COMES;
  }

  /** @throws OutOfRangeError */
  async change(companyId: CompanyId, wishes: VisitWishes): Promise<void> {
    requireWithin('reportHoldHours', wishes.reportHoldHours, HOLD_HOURS);
    const row = { reportHoldHours: Math.round(wishes.reportHoldHours) };
    await this.database.unitOfWork('change the wishes for visits', async () => {
      const store = this.database.company(companyId);
      if ((await store.update(VisitSettingEntity, {}, row)) > 0) return;
      await store.insert(VisitSettingEntity, { id: newId(this.clock.now().toMillis()), ...row });
    });
  }
}
