import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { OutOfRangeError } from '../../../src/core/errors.js';
import {
  advanceModelError,
  correctByReadings,
  priorModelError,
  takeReading,
} from '../../../src/core/thermal/readings-correction.js';
import { addDays, civilDay } from '../../../src/core/units/civil-day.js';
import { expectWithin } from '../../support/expect-within.js';

const FIRST = civilDay('2026-04-01');
const flat = (days: number, value = 15) => Array.from({ length: days }, () => value);
const reading = (day: number, waterTemperatureC: number) => ({ on: addDays(FIRST, day), waterTemperatureC });

describe('correction by readings', () => {
  it('changes the days after a reading, not its own', () => {
    const { correctedC } = correctByReadings({ firstDay: FIRST, modelC: flat(20), readings: [reading(5, 17)] });
    expect(correctedC[5]).toBe(15);
    // Gain (4 + 1.21) / (4 + 1.21 + 0.64) on 2 °C, of which the fading part keeps exp(-1/8); worked by hand.
    const drifted = 4;
    const s = drifted + 1.21 + 0.64;
    expectWithin(correctedC[6]!, 15 + (2 * drifted) / s + ((2 * 1.21) / s) * Math.exp(-1 / 8), 1e-9);
  });

  it('forgets the fading part in weeks and keeps the offset', () => {
    const { correctedC } = correctByReadings({ firstDay: FIRST, modelC: flat(120), readings: [reading(5, 17)] });
    expectWithin(correctedC[119]!, 15 + (2 * 4) / 5.85, 1e-5);
  });

  it('learns a steady offset from six readings and becomes surer', () => {
    const readings = [10, 40, 70, 100, 130, 160].map((day) => reading(day, 18));
    const { correctedC, sdC, verdicts } = correctByReadings({ firstDay: FIRST, modelC: flat(200), readings });
    expect(verdicts.map((verdict) => verdict.verdict)).toEqual(Array(6).fill('used'));
    expectWithin(correctedC[199]!, 18, 0.4);
    expect(sdC[199]!).toBeLessThan(0.65 * sdC[0]!);
  });

  it('rejects a reading 10 °C off and is not moved by it', () => {
    const good = [10, 40, 70].map((day) => reading(day, 16));
    const clean = correctByReadings({ firstDay: FIRST, modelC: flat(120), readings: good });
    const spoilt = correctByReadings({ firstDay: FIRST, modelC: flat(120), readings: [...good, reading(80, 26)] });
    expect(spoilt.verdicts.at(-1)).toMatchObject({ verdict: 'rejected' });
    expect(Array.from(spoilt.correctedC)).toEqual(Array.from(clean.correctedC));
  });

  it('leaves the covariance a covariance, whatever the readings', () => {
    const step = fc.record({
      days: fc.integer({ min: 0, max: 60 }),
      innovationC: fc.double({ min: -5, max: 5, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), fc.double({ min: 0, max: 9, noNaN: true }), (steps, weather) => {
        const state = priorModelError(2);
        for (const { days, innovationC } of steps) {
          for (let i = 0; i < days; i++) advanceModelError(state);
          takeReading(state, reading(0, 15 + innovationC), 15, weather);
          expect(state.offsetVariance).toBeGreaterThan(0);
          expect(state.offsetVariance).toBeLessThanOrEqual(4);
          expect(state.fadingVariance).toBeGreaterThan(0);
          expect(state.covariance ** 2).toBeLessThan(state.offsetVariance * state.fadingVariance + 1e-9);
        }
      }),
    );
  });

  it('gives unknown weather its share of the surprise', () => {
    const state = priorModelError(2);
    const { weatherGain } = takeReading(state, reading(0, 18), 15, 6);
    expectWithin(weatherGain, 6 / (6 + 4 + 1.21 + 0.64), 1e-9);
  });

  it('refuses absurd readings and spreads', () => {
    expect(() => correctByReadings({ firstDay: FIRST, modelC: flat(9), readings: [reading(3, 99)] })).toThrow(
      OutOfRangeError,
    );
    expect(() => priorModelError(0)).toThrow(OutOfRangeError);
  });
});
