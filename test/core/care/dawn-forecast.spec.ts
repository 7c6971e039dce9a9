import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { PondReading } from '../../../src/core/care/care-plan.js';
import type { ReadingQuantity } from '../../../src/core/care/care-rule.js';
import { dawnForecast } from '../../../src/core/care/dawn-forecast.js';
import { planningContext } from '../../../src/core/care/planning-context.js';
import type { PondFacts } from '../../../src/core/care/pond-facts.js';
import { addDays, civilDay } from '../../../src/core/units/civil-day.js';
import { oxygenSaturationMgPerL } from '../../../src/core/water/oxygen.js';
import { aMachine, aPlanInput, aPond, NO_HISTORY } from '../../support/a-pond.js';
import { expectWithin } from '../../support/expect-within.js';
import { shippedRules } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const TODAY = civilDay('2026-07-01');

function dawnOf(changes: Partial<PondFacts>, meanC = 24, readings: readonly PondReading[] = []) {
  const forecast = sinusoidForecast({ meanC, amplitudeC: 0, warmestDayOfYear: 205, firstDay: TODAY });
  const plan = planningContext(
    aPlanInput({
      pond: aPond(changes),
      forecast,
      rules: shippedRules(),
      today: TODAY,
      history: { ...NO_HISTORY, readings },
    }),
  );
  return dawnForecast(plan, addDays(TODAY, 5));
}

function readingOf(quantity: ReadingQuantity, value: number, daysAgo: number): PondReading {
  const on = addDays(TODAY, -daysAgo);
  return { id: `${quantity} ${daysAgo}`, quantity, value, on, atMs: on * 86_400_000 };
}

const machines = aPond().equipment.filter(({ kind }) => kind !== 'aerator');
const crowd = [{ species: 'koi', count: 25, lengthCm: 50 }] as const;

describe('oxygen to expect at dawn', () => {
  it('lies below that of dusk, which is full, and its parts add up', () => {
    const { dawn, range } = dawnOf({})!;
    expectWithin(dawn.balance.startG, 12 * oxygenSaturationMgPerL({ temperatureC: 24, elevationM: 40 }), 1e-6);
    expect(dawn.dawnMgPerL).toBeLessThan(dawn.balance.startG / 12);
    expect(range.lowMgPerL).toBeLessThan(dawn.dawnMgPerL);
    expect(range.highMgPerL).toBeGreaterThan(dawn.dawnMgPerL);
    const { startG, endG, fishG, filterG, waterG, bottomG, aeratorG, waterfallG, surfaceG } = dawn.balance;
    expectWithin(startG - fishG - filterG - waterG - bottomG + aeratorG + waterfallG + surfaceG, endG, 1e-9 * startG);
  });

  it('falls with more fish, warmer water and height, and rises with air', () => {
    const few = dawnOf({ equipment: machines })!.dawn.dawnMgPerL;
    expect(dawnOf({ equipment: machines, stock: crowd })!.dawn.dawnMgPerL).toBeLessThan(few);
    expect(dawnOf({ equipment: machines }, 28)!.dawn.dawnMgPerL).toBeLessThan(few);
    expect(dawnOf({ equipment: machines, elevationM: 1800 })!.dawn.dawnMgPerL).toBeLessThan(few);
    const aired = [...machines, aMachine('aerator', { flowLPerH: 3600 })];
    expect(dawnOf({ equipment: aired })!.dawn.dawnMgPerL).toBeGreaterThan(few);
  });

  it('takes clarity and sludge from the last readings, while they hold', () => {
    const unread = dawnOf({})!.dawn.dawnMgPerL;
    expect(dawnOf({}, 24, [readingOf('clarity', 20, 3)])!.dawn.dawnMgPerL).toBeLessThan(unread);
    expect(dawnOf({}, 24, [readingOf('clarity', 20, 40)])!.dawn.dawnMgPerL).toBe(unread);
    expect(dawnOf({}, 24, [readingOf('sludge-depth', 60, 200)])!.dawn.dawnMgPerL).toBeLessThan(unread);
    expect(dawnOf({}, 24, [readingOf('sludge-depth', 2, 200)])!.dawn.dawnMgPerL).toBeGreaterThan(unread);
    expect(dawnOf({}, 24, [readingOf('sludge-depth', 2, 400)])!.dawn.dawnMgPerL).toBe(unread);
  });

  it('tells a crowded pond that the power must not fail', () => {
    const { hoursWithoutPower, dawn } = dawnOf({ stock: crowd }, 26)!;
    expect(dawn.level).toBe('emergency');
    expect(hoursWithoutPower).toBeGreaterThan(0.5);
    expect(hoursWithoutPower).toBeLessThan(6);
  });

  it('says when a fall or a pump brings in more than is counted', () => {
    expect(dawnOf({})!.isAtLeast).toBe(true);
    expect(dawnOf({ waterfall: false, equipment: [] })!.isAtLeast).toBe(false);
  });

  it('is of no pond without fish', () => {
    expect(dawnOf({ stock: [] })).toBeNull();
    expect(dawnOf({ stock: [{ species: 'slider-turtle', count: 2, lengthCm: 20 }] })).toBeNull();
    expect(dawnOf({ commissionedOn: TODAY, stockedOn: null })).toBeNull();
  });

  it('is a number of the right size for any pond a record can hold', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 300, max: 500_000, noNaN: true }),
        fc.double({ min: -66, max: 66, noNaN: true }),
        fc.integer({ min: 1, max: 200 }),
        fc.double({ min: -0.5, max: 34, noNaN: true }),
        (volumeL, latitude, count, meanC) => {
          const stock = [{ species: 'goldfish', count, lengthCm: 15 }] as const;
          const { dawn } = dawnOf({ volumeL, surfaceAreaM2: volumeL / 1000, latitude, stock }, meanC)!;
          expect(dawn.dawnMgPerL).toBeGreaterThanOrEqual(0);
          expect(dawn.dawnMgPerL).toBeLessThan(15);
        },
      ),
      { numRuns: 40 },
    );
  });
});
