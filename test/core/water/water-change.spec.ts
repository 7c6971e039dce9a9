import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { mgPerLFromN } from '../../../src/core/units/nitrogen-species.js';
import {
  NITRATE_LIMIT_MG_N_PER_L,
  NITRATE_TARGET_MG_N_PER_L,
  nitrateBeforeChangeMgNPerL,
} from '../../../src/core/water/nitrate.js';
import {
  largestChangeShareByTemperature,
  mixedTemperatureC,
  waterChangeFor,
} from '../../../src/core/water/water-change.js';
import { expectWithin } from '../../support/expect-within.js';

/** 200 g of 35 % food a day in 15 m³, changed weekly with water of 2 mg/L N. */
const fedPond = { productionMgNPerLDay: 0.4293, sourceNitrateMgNPerL: 2, intervalDays: 7 };
const warm = { pondTemperatureC: 22, sourceTemperatureC: 21 };

describe('temperature of a change', () => {
  it.each([
    [22, 12, 0.2],
    [22, 21, 1],
    [10, 20, 0.1],
    [12, 22, 0.2],
    [5, 5, 1],
  ])(
    'of a pond of %d °C with water of %d °C allows %d (common practice)',
    (pondTemperatureC, sourceTemperatureC, share) => {
      expectWithin(largestChangeShareByTemperature({ pondTemperatureC, sourceTemperatureC }), share, 1e-12);
    },
  );

  it('never moves the pond by more than the step, and moves it by all of it when it limits', () => {
    const temperature = fc.double({ min: 0, max: 40, noNaN: true });
    fc.assert(
      fc.property(temperature, temperature, (pondTemperatureC, sourceTemperatureC) => {
        const changeShare = largestChangeShareByTemperature({ pondTemperatureC, sourceTemperatureC });
        const mixedC = mixedTemperatureC({ pondTemperatureC, sourceTemperatureC, changeShare });
        const stepC = pondTemperatureC < 12 ? 1 : 2;
        if (changeShare < 1) expectWithin(Math.abs(mixedC - pondTemperatureC), stepC, 1e-9);
        else expect(Math.abs(mixedC - pondTemperatureC)).toBeLessThanOrEqual(stepC);
      }),
    );
  });
});

describe('size of the regular change (common practice)', () => {
  it('starts at a tenth a week for heavy stock', () => {
    const change = waterChangeFor({ ...fedPond, productionMgNPerLDay: 0.05, heavyStock: true, ...warm });
    expectWithin(change.changeShare, 0.1, 1e-12);
    expect(change).toMatchObject({
      limitedBy: 'start-share',
      targetMgNPerL: NITRATE_TARGET_MG_N_PER_L,
      isTargetHeld: true,
    });
    expectWithin(change.expectedNitrateMgNPerL, 5.5, 1e-9);
  });

  it('starts at a fifth a month for light stock', () => {
    const regular = { productionMgNPerLDay: 0.02, sourceNitrateMgNPerL: 2, intervalDays: 30 };
    const change = waterChangeFor({ ...regular, heavyStock: false, ...warm });
    expectWithin(change.changeShare, 0.2, 1e-12);
    expect(change.limitedBy).toBe('start-share');
  });

  it('grows until nitrate stays at 40 mg/L as NO3', () => {
    const change = waterChangeFor({ ...fedPond, productionMgNPerLDay: 0.2, heavyStock: true, ...warm });
    expect(change.limitedBy).toBe('nitrate');
    expectWithin(change.expectedNitrateMgNPerL, NITRATE_TARGET_MG_N_PER_L, 1e-9);
    expectWithin(mgPerLFromN({ mgNPerL: change.expectedNitrateMgNPerL, basis: 'no3' }), 40, 1e-9);
    expectWithin(change.changeShare, 0.199, 0.001);
  });

  it('still aims at 40 with new water a little below it', () => {
    const regular = { productionMgNPerLDay: 0.01, sourceNitrateMgNPerL: 8.5, intervalDays: 7 };
    const change = waterChangeFor({ ...regular, heavyStock: true, ...warm });
    expect(change).toMatchObject({
      limitedBy: 'nitrate',
      targetMgNPerL: NITRATE_TARGET_MG_N_PER_L,
      isTargetHeld: true,
    });
  });

  it('aims at 80 where 40 would take more than a quarter, and says so', () => {
    const change = waterChangeFor({ ...fedPond, heavyStock: true, ...warm });
    expect(change).toMatchObject({ limitedBy: 'nitrate', targetMgNPerL: NITRATE_LIMIT_MG_N_PER_L, isTargetHeld: true });
    expectWithin(change.changeShare, 0.187, 0.001);
  });

  it('stops at a quarter and admits what that leaves', () => {
    const change = waterChangeFor({ ...fedPond, productionMgNPerLDay: 1, heavyStock: true, ...warm });
    expect(change).toMatchObject({ changeShare: 0.25, limitedBy: 'visit-cap', isTargetHeld: false });
    expectWithin(change.expectedNitrateMgNPerL, 2 + 28, 1e-9);
  });

  it('stops at the temperature step, the tighter of the two', () => {
    const cold = { pondTemperatureC: 22, sourceTemperatureC: 2 };
    const change = waterChangeFor({ ...fedPond, heavyStock: true, ...cold });
    expect(change.limitedBy).toBe('temperature-step');
    expectWithin(change.changeShare, 0.1, 1e-12);
    expect(change.isTargetHeld).toBe(false);
  });

  it('does not pretend to hold a target that the new water itself misses', () => {
    const change = waterChangeFor({ ...fedPond, sourceNitrateMgNPerL: 20, heavyStock: true, ...warm });
    expect(change).toMatchObject({ limitedBy: 'visit-cap', changeShare: 0.25, isTargetHeld: false });
  });

  it('never passes a quarter, nor the temperature step, and tells the nitrate it leads to', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.double({ min: 0, max: 25, noNaN: true }),
        fc.integer({ min: 3, max: 60 }),
        fc.boolean(),
        fc.double({ min: 0, max: 35, noNaN: true }),
        fc.double({ min: 0, max: 35, noNaN: true }),
        (
          productionMgNPerLDay,
          sourceNitrateMgNPerL,
          intervalDays,
          heavyStock,
          pondTemperatureC,
          sourceTemperatureC,
        ) => {
          const regular = { productionMgNPerLDay, sourceNitrateMgNPerL, intervalDays };
          const change = waterChangeFor({ ...regular, heavyStock, pondTemperatureC, sourceTemperatureC });
          const byTemperature = largestChangeShareByTemperature({ pondTemperatureC, sourceTemperatureC });
          expect(change.changeShare).toBeGreaterThan(0);
          expect(change.changeShare).toBeLessThanOrEqual(Math.min(0.25, byTemperature));
          const settled = nitrateBeforeChangeMgNPerL({ ...regular, changeShare: change.changeShare });
          expect(change.expectedNitrateMgNPerL).toBe(settled);
          expect(change.isTargetHeld).toBe(settled <= change.targetMgNPerL + 1e-9);
        },
      ),
    );
  });

  it.each([
    [{ productionMgNPerLDay: -1 }, 'nitrate made, mg/L N per day: -1'],
    [{ intervalDays: 0 }, 'interval, days: 0'],
    [{ pondTemperatureC: Number.NaN }, 'pond temperature, °C: NaN'],
    [{ sourceTemperatureC: 60 }, 'temperature of the new water, °C: 60, outside -1 to 45.'],
  ])('refuses %j', (wrong, message) => {
    expect(() => waterChangeFor({ ...fedPond, heavyStock: true, ...warm, ...wrong })).toThrow(message);
  });
});
