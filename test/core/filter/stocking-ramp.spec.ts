import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { type StockingPlan, stockingRamp } from '../../../src/core/filter/stocking-ramp.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import staged from '../../published/staged-stocking.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';
import { sinusoidC } from '../../support/sinusoid-forecast.js';

const JUNE = civilDay('2026-06-01');
const warm: StockingPlan = { plannedKg: 10, capacityKg: 10, fedFrom: JUNE, waterTemperature7dMeanC: () => 20 };
const garden = (day: CivilDay) => sinusoidC({ meanC: 12, amplitudeC: 12, warmestDayOfYear: 205 }, day);
const days = (plan: StockingPlan) =>
  stockingRamp(plan).map(({ notBefore }) => (notBefore === null ? null : isoDateOf(notBefore)));

describe('the stocking of a new pond', () => {
  it('of 10 kg in a pond that carries 10 goes in fifths, the first after six weeks at 20 °C', () => {
    const ramp = stockingRamp(warm);
    expect(ramp.map(({ kg }) => Number(kg.toFixed(9)))).toEqual([2, 2, 2, 2, 2]);
    expect(days(warm)).toEqual(['2026-07-13', '2026-07-27', '2026-08-10', '2026-08-24', '2026-09-07']);
    const [{ firstShareOfCapacity, fromWeeks, toWeeks }] = staged.rows as [(typeof staged.rows)[number]];
    expectWithin(ramp[0]!.kg / warm.capacityKg, firstShareOfCapacity, 1e-12);
    expect(ramp[0]!.notBefore! - JUNE).toBeGreaterThanOrEqual(7 * fromWeeks);
    expect(ramp[0]!.notBefore! - JUNE).toBeLessThanOrEqual(7 * toWeeks);
    for (const { maturityShare } of ramp) expect(maturityShare).toBeGreaterThan(0.95);
  });

  it('takes more parts where the pond carries less than is planned', () => {
    expect(stockingRamp({ ...warm, plannedKg: 15 })).toHaveLength(8);
    expect(stockingRamp({ ...warm, plannedKg: 1 }).map(({ stage }) => stage)).toEqual([1, 2, 3, 4, 5]);
  });

  it('goes on from what is in already, a fortnight after the last part', () => {
    const done = { stockedKg: 4, lastOn: civilDay('2026-07-20') };
    expect(days({ ...warm, done })).toEqual(['2026-08-03', '2026-08-17', '2026-08-31']);
    expect(stockingRamp({ ...warm, done: { ...done, stockedKg: 10 } })).toEqual([]);
  });

  it('waits for the water: fed in September, the first fish go in in May', () => {
    // 15 °C rising on 9 May in this pond (trade handbook, section 8.6).
    const ramp = days({ ...warm, fedFrom: civilDay('2026-09-10'), waterTemperature7dMeanC: garden });
    expect(ramp[0]).toBe('2027-05-09');
    expect(ramp[4]).toBe('2027-07-04');
  });

  it('does not begin to run in below 10 °C', () => {
    const [first] = days({ ...warm, fedFrom: civilDay('2026-12-01'), waterTemperature7dMeanC: garden });
    // From 15 April, 10 °C rising; 42 days at the least.
    expect(first! > '2027-05-27').toBe(true);
  });

  it('has no days where the water never grows warm enough', () => {
    expect(days({ ...warm, waterTemperature7dMeanC: () => 12 })).toEqual([null, null, null, null, null]);
    expect(days({ ...warm, waterTemperature7dMeanC: () => 6 })).toEqual([null, null, null, null, null]);
  });

  it('puts all in, never more than a fifth of what the pond carries or is to hold at once, never sooner than a fortnight', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 60, noNaN: true }),
        fc.double({ min: 1, max: 60, noNaN: true }),
        fc.integer({ min: 0, max: 364 }),
        fc.double({ min: 0.05, max: 0.2, noNaN: true }),
        (plannedKg, capacityKg, start, stageShare) => {
          const plan = { plannedKg, capacityKg, stageShare, waterTemperature7dMeanC: garden };
          const ramp = stockingRamp({ ...plan, fedFrom: addDays(JUNE, start) });
          expectWithin(
            ramp.reduce((sum, { kg }) => sum + kg, 0),
            plannedKg,
            1e-9 * Math.max(1, plannedKg),
          );
          expectWithin(ramp.at(-1)!.stockedKg, plannedKg, 1e-9 * Math.max(1, plannedKg));
          ramp.forEach(({ kg, notBefore }, index) => {
            expect(kg).toBeLessThanOrEqual(0.2 * Math.min(capacityKg, plannedKg) + 1e-12);
            const before = index === 0 ? null : ramp[index - 1]!.notBefore;
            if (notBefore === null) return;
            expect(garden(notBefore)).toBeGreaterThanOrEqual(15);
            if (before !== null) expect(notBefore - before).toBeGreaterThanOrEqual(14);
          });
        },
      ),
      { numRuns: 40 },
    );
  });

  it.each([
    [{ plannedKg: 0 }, 'planned stock, kg: 0'],
    [{ capacityKg: Number.NaN }, 'what the pond carries, kg: NaN'],
    [{ stageShare: 0.5 }, 'part that goes in at once, share: 0.5, outside 0.05 to 0.2.'],
    [{ gapDays: 7 }, 'days between two parts: 7, outside 14 to 60.'],
    [{ waterTemperature7dMeanC: () => 80 }, '7-day mean of the water, °C: 80'],
  ])('refuses %j', (wrong, message) => {
    expect(() => stockingRamp({ ...warm, ...wrong })).toThrow(message);
  });
});
