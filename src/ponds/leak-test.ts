import { z } from 'zod';
import type { SiteClimate } from '../core/climate/station.js';
import { siteEvaporationOnMmPerDay } from '../core/evaporation/site-evaporation.js';
import { pumpFlows } from '../core/hydraulics/pump-line.js';
import { addDays, type CivilDay } from '../core/units/civil-day.js';
import { type LeakVerdict, type LeakVerdictKind, leakVerdict } from '../core/water-loss/leak-finder.js';
import type { PlannedTest } from '../core/water-loss/measuring-time.js';
import { type LeakNextStep, leakNextStep } from '../core/water-loss/next-step.js';
import { civilDayIn, instantFrom } from '../platform/clock.js';
import type { PondRecord } from './pond-record.js';
import { numberWithin, oneOf } from './typed-fields.js';

/** A leak test as it is kept: levels under a mark, and what is known of the days between. */
export const LeakTestSchema = z.strictObject({
  levels: z
    .array(
      z.strictObject({
        /** Instant, ISO 8601 UTC. */
        at: z.string().regex(/^\d{4}-\d{2}-\d{2}T/, { error: 'taken: date and time are needed.' }),
        belowMarkMm: numberWithin('water below the mark', -2000, 5000, 'mm'),
        /** Since the level before. */
        rainMm: numberWithin('rain', 0, 1000, 'mm').default(0),
        addedL: numberWithin('water added', 0, 1_000_000, 'L').default(0),
      }),
    )
    .min(2, { error: 'levels: at least two, some days apart.' })
    .max(30, { error: 'levels: at most 30.' }),
  /** How far a bucket that stands in the pond fell over the whole test; null without one. */
  bucketFallMm: numberWithin('fall in the bucket', -500, 500, 'mm').nullable().default(null),
  pumps: oneOf('pumps', ['on', 'off']),
  /** Spray visibly leaves the basin. */
  spray: z.boolean({ error: 'spray: yes or no.' }).default(false),
});
export type LeakTest = z.output<typeof LeakTestSchema>;

export interface JudgedLeakTest {
  /** Of the event under which it is kept; null while it is only looked at. */
  readonly eventId: string | null;
  readonly test: LeakTest;
  readonly verdict: LeakVerdict;
  /** From the climate, or from the bucket. */
  readonly evaporationMmPerDay: number;
  readonly next: LeakNextStep;
}

/**
 * What a test says of a pond.
 * @param other Verdict of the newest other test with the pumps the other way.
 * @throws OutOfRangeError, InvalidValueError for levels that cannot be.
 */
export function judgeLeakTest(
  record: Pick<PondRecord, 'pond' | 'equipment'>,
  climate: SiteClimate,
  test: LeakTest,
  given: { readonly eventId?: string; readonly other?: LeakVerdictKind | null } = {},
): JudgedLeakTest {
  const { pond, equipment } = record;
  const start = instantFrom(test.levels[0]?.at ?? '').toMillis();
  const readings = test.levels.map(({ at, ...level }) => ({
    ...level,
    atDay: (instantFrom(at).toMillis() - start) / MS_PER_DAY,
  }));
  const fromClimate = meanEvaporationMmPerDay(climate, test, pond.timeZone);
  const isRunning = test.pumps === 'on';
  const flows = pumpFlows(equipment).map(({ flowLPerH }) => flowLPerH);
  const hasWaterfall = pond.waterfall && isRunning;
  const verdict = leakVerdict({
    readings,
    surfaceAreaM2: pond.surfaceAreaM2,
    evaporation:
      test.bucketFallMm === null
        ? { from: 'climate', mmPerDay: fromClimate }
        : { from: 'bucket', fallMm: test.bucketFallMm },
    hasWaterfall,
    sprayedFlowLPerH: test.spray && isRunning ? Math.max(0, ...flows) : 0,
  });
  const evaporationMmPerDay = test.bucketFallMm === null ? fromClimate : bucketMmPerDay(test, verdict.days);
  const planned: PlannedTest = {
    reference: test.bucketFallMm === null ? 'climate' : 'bucket',
    evaporationMmPerDay: Math.max(0, evaporationMmPerDay),
    hasWaterfall,
  };
  const next = leakNextStep({ verdict, pumps: test.pumps, other: given.other ?? null, planned });
  return { eventId: given.eventId ?? null, test, verdict, evaporationMmPerDay, next };
}

const MS_PER_DAY = 86_400_000;

function bucketMmPerDay(test: LeakTest, days: number): number {
  const rainMm = test.levels.slice(1).reduce((sum, level) => sum + level.rainMm, 0);
  return ((test.bucketFallMm ?? 0) + rainMm) / days;
}

/** Over the civil days of a test, the first and the last counted. */
function meanEvaporationMmPerDay(climate: SiteClimate, test: LeakTest, timeZone: string): number {
  const dayOf = (level: LeakTest['levels'][number] | undefined) => civilDayIn(instantFrom(level?.at ?? ''), timeZone);
  const [first, last] = [dayOf(test.levels[0]), dayOf(test.levels.at(-1))];
  // Levels out of order are refused by the leak finder, in its own words.
  const days = Math.max(1, Math.min(LONGEST_DAYS, last - first + 1));
  let sumMm = 0;
  for (let i = 0; i < days; i++) sumMm += siteEvaporationOnMmPerDay(climate, addDays(first, i) as CivilDay);
  return sumMm / days;
}

const LONGEST_DAYS = 61;
