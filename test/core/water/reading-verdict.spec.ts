import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { ReadingQuantity } from '../../../src/core/care/care-rule.js';
import { unionisedAmmoniaMgNPerL } from '../../../src/core/water/ammonia.js';
import { inOrderRange, plausibleRange, readingUnit, readingVerdict } from '../../../src/core/water/reading-verdict.js';
import { expectWithin } from '../../support/expect-within.js';

type Case = readonly [ReadingQuantity, number, string, number | null, 'above' | 'below' | null];

/** Every band, from both sides of its edge (common practice). */
const cases: readonly Case[] = [
  ['dissolved-oxygen', 6, 'in-order', null, null],
  ['dissolved-oxygen', 5.9, 'watch', 6, 'below'],
  ['dissolved-oxygen', 5, 'watch', 6, 'below'],
  ['dissolved-oxygen', 4.9, 'act', 5, 'below'],
  ['dissolved-oxygen', 4, 'act', 5, 'below'],
  ['dissolved-oxygen', 3.9, 'emergency', 4, 'below'],
  ['unionised-ammonia', 0.019, 'in-order', null, null],
  ['unionised-ammonia', 0.02, 'watch', 0.02, 'above'],
  ['unionised-ammonia', 0.05, 'act', 0.05, 'above'],
  ['unionised-ammonia', 0.2, 'emergency', 0.2, 'above'],
  ['total-ammonia', 1, 'in-order', null, null],
  ['total-ammonia', 1.1, 'watch', 1, 'above'],
  ['total-ammonia', 3, 'watch', 1, 'above'],
  ['total-ammonia', 3.1, 'act', 3, 'above'],
  ['nitrite', 0.09, 'in-order', null, null],
  ['nitrite', 0.1, 'watch', 0.1, 'above'],
  ['nitrite', 0.3, 'act', 0.3, 'above'],
  ['nitrite', 1, 'emergency', 1, 'above'],
  ['nitrate', 9.03, 'in-order', null, null],
  ['nitrate', 9.04, 'watch', 40 / 4.4268, 'above'],
  ['nitrate', 18.07, 'watch', 40 / 4.4268, 'above'],
  ['nitrate', 18.08, 'act', 80 / 4.4268, 'above'],
  ['alkalinity', 80, 'in-order', null, null],
  ['alkalinity', 79, 'watch', 80, 'below'],
  ['alkalinity', 49, 'act', 50, 'below'],
  ['ph', 7, 'in-order', null, null],
  ['ph', 8.5, 'in-order', null, null],
  ['ph', 6.9, 'watch', 7, 'below'],
  ['ph', 8.6, 'watch', 8.5, 'above'],
  ['ph', 6.4, 'act', 6.5, 'below'],
  ['ph', 9.1, 'act', 9, 'above'],
  ['water-temperature', 4, 'in-order', null, null],
  ['water-temperature', 3.9, 'watch', 4, 'below'],
  ['water-temperature', 27.9, 'in-order', null, null],
  ['water-temperature', 28, 'watch', 28, 'above'],
  ['water-temperature', 30, 'act', 30, 'above'],
  ['water-temperature', 33, 'emergency', 33, 'above'],
  ['total-chlorine', 0.019, 'in-order', null, null],
  ['total-chlorine', 0.02, 'act', 0.02, 'above'],
  ['total-chlorine', 0.1, 'emergency', 0.1, 'above'],
  ['hardness', 900, 'in-order', null, null],
  ['salinity', 5, 'in-order', null, null],
  ['pump-flow', 10, 'in-order', null, null],
];

describe('verdict on a reading', () => {
  it.each(cases)('of %s %d is %s', (quantity, value, level, limit, direction) => {
    expect(readingVerdict({ quantity, value })).toEqual({ level, limit, direction, unit: readingUnit(quantity) });
  });

  it('of total ammonia counts the un-ionised part where temperature and pH are known', () => {
    const reading = { quantity: 'total-ammonia', value: 0.8 } as const;
    expect(readingVerdict(reading).level).toBe('in-order');
    expect(readingVerdict({ ...reading, temperatureC: 25, ph: 7 }).level).toBe('in-order');
    expect(readingVerdict({ ...reading, temperatureC: 25, ph: 8 }).level).toBe('watch');
    expect(readingVerdict({ ...reading, temperatureC: 25, ph: 8.6 }).level).toBe('act');
    expect(readingVerdict({ ...reading, temperatureC: 25, ph: 9.2 }).level).toBe('emergency');
  });

  it('of total ammonia names as limit the total at which the un-ionised limit is reached', () => {
    const verdict = readingVerdict({ quantity: 'total-ammonia', value: 0.8, temperatureC: 25, ph: 8.6 });
    expect(verdict).toMatchObject({ level: 'act', direction: 'above', unit: 'mg/L N' });
    const atLimit = { totalAmmoniaMgNPerL: verdict.limit!, temperatureC: 25, ph: 8.6 };
    expectWithin(unionisedAmmoniaMgNPerL(atLimit), 0.05, 1e-12);
  });

  it('of total ammonia is never milder for a higher pH or warmer water', () => {
    const gravity = ['in-order', 'watch', 'act', 'emergency'];
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 35, noNaN: true }),
        fc.double({ min: 5, max: 10, noNaN: true }),
        (value, temperatureC, ph) => {
          const of = (t: number, p: number) =>
            gravity.indexOf(readingVerdict({ quantity: 'total-ammonia', value, temperatureC: t, ph: p }).level);
          expect(of(temperatureC, ph + 0.5)).toBeGreaterThanOrEqual(of(temperatureC, ph));
          expect(of(temperatureC + 3, ph)).toBeGreaterThanOrEqual(of(temperatureC, ph));
        },
      ),
    );
  });

  it('of oxygen tells the saturation at the height of the pond', () => {
    const reading = { quantity: 'dissolved-oxygen', value: 6, temperatureC: 28 } as const;
    expectWithin(readingVerdict(reading).saturationShare!, 0.766, 0.002);
    expect(readingVerdict({ ...reading, elevationM: 1600 }).saturationShare).toBeGreaterThan(0.9);
    expect(readingVerdict({ quantity: 'dissolved-oxygen', value: 6 })).not.toHaveProperty('saturationShare');
  });

  it('takes a reading under ice a little below zero', () => {
    const reading = { quantity: 'total-ammonia', value: 0.1, temperatureC: -0.3, ph: 7.5 } as const;
    expect(readingVerdict(reading).level).toBe('in-order');
    const oxygen = { quantity: 'dissolved-oxygen', value: 12 } as const;
    expect(readingVerdict({ ...oxygen, temperatureC: -0.3 })).toEqual(readingVerdict({ ...oxygen, temperatureC: 0 }));
    expectWithin(readingVerdict({ ...oxygen, temperatureC: -0.3 }).saturationShare!, 12 / 14.621, 0.0001);
  });

  it.each([
    ['water-temperature', -2, 'water-temperature, °C: -2, outside -1 to 40.'],
    ['ph', 12, 'ph, -: 12, outside 4 to 11.'],
    ['total-ammonia', 21, 'total-ammonia, mg/L N: 21, outside 0 to 20.'],
    ['nitrite', -0.1, 'nitrite, mg/L N: -0.1, outside 0 to 10.'],
    ['dissolved-oxygen', Number.NaN, 'dissolved-oxygen, mg/L: NaN, outside 0 to 20.'],
    ['alkalinity', 401, 'alkalinity, mg/L CaCO3: 401, outside 0 to 400.'],
  ] as const)('refuses an implausible %s of %d', (quantity, value, message) => {
    expect(() => readingVerdict({ quantity, value })).toThrow(message);
  });

  it('judges every value it calls plausible', () => {
    for (const quantity of new Set(cases.map(([of]) => of))) {
      const { min, max } = plausibleRange(quantity);
      for (const value of [min, (min + max) / 2, max]) {
        expect(readingVerdict({ quantity, value }).unit).toBe(readingUnit(quantity));
      }
    }
  });
});

describe('inOrderRange', () => {
  it('has both limits, one, or none', () => {
    expect(inOrderRange({ quantity: 'ph' })).toEqual({ min: 7, max: 8.5 });
    expect(inOrderRange({ quantity: 'nitrite' })).toEqual({ min: null, max: 0.1 });
    expect(inOrderRange({ quantity: 'alkalinity' })).toEqual({ min: 80, max: null });
    expect(inOrderRange({ quantity: 'salinity' })).toEqual({ min: null, max: null });
  });

  it('narrows total ammonia by the temperature and pH of the sample', () => {
    const { max } = inOrderRange({ quantity: 'total-ammonia', temperatureC: 20, ph: 8 });
    // 0.02 mg/L over a share of 0.0381 (UF/IFAS FA16) is 0.525.
    expect(max).toBeCloseTo(0.525, 2);
    expect(inOrderRange({ quantity: 'total-ammonia' }).max).toBe(1);
  });

  it('ends where the verdict turns', () => {
    for (const quantity of ['water-temperature', 'ph', 'nitrate', 'dissolved-oxygen', 'total-chlorine'] as const) {
      const { min, max } = inOrderRange({ quantity });
      if (max !== null) expect(readingVerdict({ quantity, value: max + 1e-6 }).level).not.toBe('in-order');
      if (max !== null) expect(readingVerdict({ quantity, value: max - 1e-6 }).level).toBe('in-order');
      if (min !== null) expect(readingVerdict({ quantity, value: min - 1e-6 }).level).not.toBe('in-order');
    }
  });
});
