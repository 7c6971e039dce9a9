import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { largestInflowLPerH, safeChange, temperatureStep } from '../../../src/core/water/safe-change.js';
import { expectWithin } from '../../support/expect-within.js';

const summer = { pondTemperatureC: 22, sourceTemperatureC: 12 };

describe('temperature of one change', () => {
  it('P-20: a fifth of 12 °C into 22 °C gives 20.0 °C and just passes; P-21: a quarter does not (common practice)', () => {
    const fifth = temperatureStep({ ...summer, changeShare: 0.2 });
    expect(fifth).toMatchObject({ isAllowed: true, changes: 1, largestStepC: 2 });
    expectWithin(fifth.mixedTemperatureC, 20, 1e-9);
    expect(temperatureStep({ ...summer, changeShare: 0.25 })).toMatchObject({ isAllowed: false, changes: 2 });
  });

  it('halves the step below 12 °C, warmer water included', () => {
    const spring = { pondTemperatureC: 10, sourceTemperatureC: 16, changeShare: 0.25 };
    expect(temperatureStep(spring)).toMatchObject({ stepC: 1.5, largestStepC: 1, isAllowed: false, changes: 2 });
  });

  it('allows each of the parts it would split a change into', () => {
    const celsius = fc.double({ min: 0, max: 35, noNaN: true });
    fc.assert(
      fc.property(celsius, celsius, fc.double({ min: 0.01, max: 1, noNaN: true }), (pondC, sourceC, changeShare) => {
        const water = { pondTemperatureC: pondC, sourceTemperatureC: sourceC };
        const { changes } = temperatureStep({ ...water, changeShare });
        expect(temperatureStep({ ...water, changeShare: changeShare / changes }).isAllowed).toBe(true);
      }),
    );
  });

  it('refuses what cannot be', () => {
    expect(() => temperatureStep({ ...summer, changeShare: 1.2 })).toThrow('change, share: 1.2, outside 0 to 1.');
    expect(() => temperatureStep({ ...summer, sourceTemperatureC: 60, changeShare: 0.1 })).toThrow(
      'temperature of the new water, °C: 60',
    );
  });
});

describe('inflow', () => {
  it('of water 10 °C colder into 10 m³ may be 1,000 L/h (common practice)', () => {
    expectWithin(largestInflowLPerH({ ...summer, volumeL: 10_000 }), 1000, 1e-9);
    const alike = { pondTemperatureC: 18, sourceTemperatureC: 18, volumeL: 10_000 };
    expect(largestInflowLPerH(alike)).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('the largest gentle change', () => {
  const pond = { temperatureC: 22, ph: 8.2, alkalinityMgCaCO3PerL: 100 };
  const like = { temperatureC: 21, ph: 8.1, alkalinityMgCaCO3PerL: 90 };

  it('is a quarter with water much like the pond', () => {
    expect(safeChange({ volumeL: 12_000, pond, source: like })).toMatchObject({
      changeShare: 0.25,
      limitedBy: 'visit-cap',
    });
  });

  it('is held back by cold water, and by water of another pH', () => {
    const cold = safeChange({ volumeL: 12_000, pond, source: { ...like, temperatureC: 9 } });
    expect(cold.limitedBy).toBe('temperature-step');
    expectWithin(cold.changeShare, 2 / 13, 1e-9);
    expectWithin(cold.shortestFillH, 2, 1e-9);

    const acid = safeChange({ volumeL: 12_000, pond, source: { ...like, ph: 6.8 } });
    expect(acid.limitedBy).toBe('ph-step');
    expectWithin(acid.after.phStep, -0.3, 1e-6);
  });

  it('passes no limit for any two waters', () => {
    const water = fc.record({
      temperatureC: fc.double({ min: 1, max: 32, noNaN: true }),
      ph: fc.double({ min: 6.2, max: 9.3, noNaN: true }),
      alkalinityMgCaCO3PerL: fc.double({ min: 20, max: 250, noNaN: true }),
    });
    fc.assert(
      fc.property(water, water, (any, other) => {
        const change = safeChange({ volumeL: 10_000, pond: any, source: other });
        expect(change.changeShare).toBeLessThanOrEqual(0.25);
        expect(Math.abs(change.after.phStep)).toBeLessThanOrEqual(0.3 + 1e-9);
        const stepC = Math.abs(change.after.temperatureC - any.temperatureC);
        expect(stepC).toBeLessThanOrEqual((any.temperatureC < 12 ? 1 : 2) + 1e-9);
        expectWithin(stepC, change.shortestFillH * 1, 1e-9);
      }),
      { numRuns: 50 },
    );
  });
});
