import { FORECAST_DAYS, HORIZON_DAYS } from '../../care-calendar/index.js';
import type { ClimateService } from '../../climate/index.js';
import { planCareCalendar } from '../../core/care/plan-care-calendar.js';
import { winterClassFor } from '../../core/climate/winter-class.js';
import { forecastWater } from '../../core/thermal/forecast-water.js';
import { ensembleSeed } from '../../core/thermal/seed.js';
import { type CivilDay, civilDay } from '../../core/units/civil-day.js';
import type { Foundation } from '../../foundation.js';
import { type PondRecord, pondFacts, pondHeat } from '../../ponds/index.js';

/** CPU of one pond, by what it is spent on. [ms] */
export interface PondParts {
  readonly winterMs: number;
  readonly forecastMs: number;
  readonly planMs: number;
}

/** The sums behind a replan by themselves, on this thread: mean CPU over some ponds. */
export function sampleParts(
  records: readonly PondRecord[],
  climates: ClimateService,
  { careRules, dechlorinators }: Pick<Foundation, 'careRules' | 'dechlorinators'>,
  today: CivilDay,
): PondParts {
  const sum = { winterMs: 0, forecastMs: 0, planMs: 0 };
  const timed = <T>(part: keyof typeof sum, work: () => T): T => {
    const cpu = process.cpuUsage();
    const value = work();
    const { user, system } = process.cpuUsage(cpu);
    sum[part] += (user + system) / 1000 / records.length;
    return value;
  };
  for (const record of records) {
    const { pond } = record;
    const climate = climates.siteFor(pond);
    const site = { climate, pond: pondHeat(record), seed: ensembleSeed(pond.id, climate.stations[0]?.id ?? '') };
    const { winterClass } = timed('winterMs', () => winterClassFor({ ...site, maxDepthM: pond.maxDepthM }));
    const forecast = timed('forecastMs', () =>
      forecastWater({ ...site, firstDay: today, days: FORECAST_DAYS, readings: [], air: [] }),
    );
    timed('planMs', () =>
      planCareCalendar({
        pond: pondFacts(record, { winterClass }),
        today,
        horizonDays: HORIZON_DAYS,
        forecast,
        climate,
        rules: careRules,
        history: { finished: [], readings: [], events: [] },
        dechlorinator: dechlorinators.preset,
        careSince: civilDay(pond.careSince),
        defaultDoneBy: 'company',
      }),
    );
  }
  return sum;
}
