import { describe, expect, it } from '@jest/globals';
import type { SeasonMark } from '../../../../src/core/care/care-rule.js';
import { planningContext } from '../../../../src/core/care/planning-context.js';
import type { Season } from '../../../../src/core/care/seasons.js';
import { seasonOutcome } from '../../../../src/core/care/triggers/season.js';
import { leafNetDates } from '../../../../src/core/climate/leaf-fall.js';
import type { TwelveMonths } from '../../../../src/core/climate/station.js';
import { civilDay, isoDateOf } from '../../../../src/core/units/civil-day.js';
import { aClimate, aPlanInput, aPond } from '../../../support/a-pond.js';
import { aParameter, aRule } from '../../../support/a-rule.js';
import { sinusoidForecast } from '../../../support/sinusoid-forecast.js';

const COLD = { meanC: 12, amplitudeC: 12, warmestDayOfYear: 205 };

function outcome(
  mark: SeasonMark,
  season: Season,
  given: { climate?: ReturnType<typeof aClimate>; probability?: number; warm?: boolean; today?: string } = {},
) {
  const { climate = aClimate(), probability = 0.5, warm = false, today = '2026-08-01' } = given;
  const rule = aRule({
    cycle: season.half,
    anyOf: [{ kind: 'season', mark, probability, earlyDays: 'early', lateDays: 'late' }],
    parameters: { early: aParameter(14), late: aParameter(7) },
  });
  const forecast = sinusoidForecast({ ...COLD, meanC: warm ? 20 : 12, firstDay: civilDay(today), spreadDays: 10 });
  const pond = aPond({ latitude: climate.latitude });
  const trigger = rule.anyOf[0];
  if (trigger?.kind !== 'season') throw new Error('no season');
  return seasonOutcome(trigger, rule, planningContext(aPlanInput({ forecast, rules: [rule], climate, pond })), season);
}

function due(result: ReturnType<typeof outcome>): string {
  if (!result.fires) throw new Error(result.because);
  return isoDateOf(result.window.due);
}

const AUTUMN = { half: 'cooling', year: 2026 } as const;

function shiftedHalfAYear(values: TwelveMonths): TwelveMonths {
  return values.map((_, month) => values[(month + 6) % 12]) as unknown as TwelveMonths;
}

describe('a date of the climate', () => {
  it('for the leaf net is the one of the leaf fall rule', () => {
    const dates = leafNetDates(aClimate(), { year: 2026 });
    expect(due(outcome('leaf-fall', AUTUMN))).toBe(dates.none === null ? isoDateOf(dates.netOn) : 'none');
  });

  it('for the leaf net comes earlier where one year in five is to be enough, later for four in five', () => {
    const at = (probability: number) => civilDay(due(outcome('leaf-fall', AUTUMN, { probability })));
    expect(at(0.2)).toBeLessThan(at(0.5));
    expect(at(0.8)).toBeGreaterThan(at(0.5));
    expect(at(0.8) - at(0.2)).toBeLessThan(40);
  });

  it('for the leaf net is at most 21 days before the 10-day air falls below 12 °C, and not after it', () => {
    // Ruling 35. In these normals (New York) the 10-day air passes 12 °C in the last days of October.
    const day = civilDay(due(outcome('leaf-fall', AUTUMN)));
    expect(day).toBeGreaterThanOrEqual(civilDay('2026-10-05'));
    expect(day).toBeLessThanOrEqual(civilDay('2026-11-02'));
  });

  it('has no leaf net where the coldest month is above 15 °C', () => {
    const warm = aClimate({ meanC: aClimate().meanC.map((value) => value + 15) as unknown as TwelveMonths });
    expect(outcome('leaf-fall', AUTUMN, { climate: warm })).toMatchObject({ fires: false, because: 'no-trees' });
  });

  it('comes half a year later in the south', () => {
    const { meanC, maxC, minC, ...rest } = aClimate();
    const south = aClimate({
      ...rest,
      latitude: -40.8,
      meanC: shiftedHalfAYear(meanC),
      maxC: shiftedHalfAYear(maxC),
      minC: shiftedHalfAYear(minC),
    });
    const north = civilDay(due(outcome('leaf-fall', AUTUMN)));
    const mirrored = civilDay(due(outcome('leaf-fall', AUTUMN, { climate: south })));
    expect(Math.abs(mirrored - north - 182)).toBeLessThanOrEqual(4);
  });

  it('for the first freeze lies near the published median of New York', () => {
    // NOAA normals as given in the climate handbook section 4: first freeze 20 November, ours within days (published source).
    const day = civilDay(due(outcome('first-freeze', AUTUMN)));
    expect(Math.abs(day - civilDay('2026-11-20'))).toBeLessThanOrEqual(14);
  });

  it('for the first ice is the day by which the share of traces asked for has some', () => {
    const early = civilDay(due(outcome('first-ice', AUTUMN, { probability: 0.2 })));
    const median = civilDay(due(outcome('first-ice', AUTUMN, { probability: 0.6 })));
    expect(median - early).toBe(10);
  });

  it('for ice is none where no trace freezes', () => {
    expect(outcome('first-ice', AUTUMN, { warm: true })).toMatchObject({ fires: false, because: 'no-frost-climate' });
  });

  it('is overtaken a month after its last day', () => {
    expect(outcome('leaf-fall', AUTUMN, { today: '2027-02-01' })).toMatchObject({ fires: false, because: 'overtaken' });
  });
});
