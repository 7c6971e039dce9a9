import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { dailyCurve } from '../../../src/core/climate/daily-curve.js';
import { EnsembleNoise, weatherSpreadOf } from '../../../src/core/thermal/ensemble-noise.js';
import { addDays, type CivilDay, civilDay, monthOf, yearOf } from '../../../src/core/units/civil-day.js';
import { aClimate, twelve } from '../../support/climates.js';
import { expectWithin } from '../../support/expect-within.js';

const KEEP = Math.exp(-1 / 8);
const monthNumber = (day: CivilDay) => yearOf(day) * 12 + monthOf(day);

function noiseOn(seed: number, traces: number, start: CivilDay, days: number): EnsembleNoise {
  const noise = new EnsembleNoise(seed, traces, addDays(start, -1), KEEP);
  for (let day = start; day < start + days; day = addDays(day, 1)) noise.advance(day, monthNumber(day));
  return noise;
}

describe('noise of an ensemble', () => {
  it('of a calendar day is the same whatever the day the run began on', () => {
    const target = civilDay('2027-04-17');
    fc.assert(
      fc.property(fc.integer(), fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 300 }), (seed, a, b) => {
        const one = noiseOn(seed, 6, addDays(target, -a + 1), a);
        const other = noiseOn(seed, 6, addDays(target, -b + 1), b);
        for (let trace = 0; trace < 6; trace++) {
          expectWithin(one.weather[trace]!, other.weather[trace]!, 1e-9);
          expectWithin(one.fading[trace]!, other.fading[trace]!, 1e-5);
          expect(one.month[trace]).toBe(other.month[trace]);
          expect(one.offset[trace]).toBe(other.offset[trace]);
        }
      }),
      { numRuns: 30 },
    );
  });

  it('of a trace is the same whatever the number of traces, but for the spread offsets', () => {
    const few = noiseOn(5, 4, civilDay('2026-01-01'), 10);
    const many = noiseOn(5, 40, civilDay('2026-01-01'), 10);
    expect(Array.from(many.weather.subarray(0, 4))).toEqual(Array.from(few.weather));
  });

  it('comes in pairs of opposite sign, so that its middle is zero', () => {
    const noise = noiseOn(11, 40, civilDay('2026-03-01'), 5);
    for (let trace = 0; trace < 40; trace += 2) {
      expect(noise.weather[trace + 1]).toBe(-noise.weather[trace]!);
      expect(noise.offset[trace + 1]).toBe(-noise.offset[trace]!);
    }
  });

  it('has unit variance and the memory of 0.8 from day to day', () => {
    const noise = new EnsembleNoise(3, 20, civilDay('2020-01-01'), KEEP);
    let squares = 0;
    let products = 0;
    const days = 3000;
    const before = new Float64Array(20);
    for (let i = 1; i <= days; i++) {
      const day = addDays(civilDay('2020-01-01'), i);
      before.set(noise.weather);
      noise.advance(day, monthNumber(day));
      for (let trace = 0; trace < 20; trace += 2) {
        squares += noise.weather[trace]! ** 2;
        products += noise.weather[trace]! * before[trace]!;
      }
    }
    expectWithin(squares / (days * 10), 1, 0.05);
    expectWithin(products / squares, 0.8, 0.02);
  });

  it('spreads the offsets of any number of traces like a normal distribution', () => {
    const { offset } = noiseOn(9, 40, civilDay('2026-01-01'), 1);
    const variance = offset.reduce((sum, value) => sum + value * value, 0) / 40;
    expectWithin(variance, 1, 0.08);
  });
});

describe('spread of the weather', () => {
  it('counts nothing twice: days inside a month and months between years come out as put in', () => {
    const climate = aClimate(twelve(-6, -4, 2, 9, 15, 20, 23, 22, 17, 11, 3, -4));
    const { daySdC, monthSdC } = weatherSpreadOf(climate);
    const normal = dailyCurve(climate.meanC);
    const januaryMeans: number[] = [];
    let within = 0;
    let months = 0;
    for (let seed = 0; seed < 150; seed++) {
      const noise = new EnsembleNoise(seed, 20, civilDay('2025-12-31'), KEEP);
      const sums = new Float64Array(20);
      const squares = new Float64Array(20);
      for (let i = 0; i < 31; i++) {
        const day = addDays(civilDay('2026-01-01'), i);
        noise.advance(day, monthNumber(day));
        for (let trace = 0; trace < 20; trace++) {
          const airC = normal[i]! + monthSdC[i]! * noise.month[trace]! + daySdC[i]! * noise.weather[trace]!;
          sums[trace]! += airC;
          squares[trace]! += airC * airC;
        }
      }
      for (let trace = 0; trace < 20; trace++) {
        januaryMeans.push(sums[trace]! / 31);
        within += squares[trace]! / 31 - (sums[trace]! / 31) ** 2;
        months++;
      }
    }
    const mean = januaryMeans.reduce((sum, value) => sum + value, 0) / months;
    const between = Math.sqrt(januaryMeans.reduce((sum, value) => sum + (value - mean) ** 2, 0) / months);
    expectWithin(mean, -6, 0.1);
    expectWithin(Math.sqrt(within / months), climate.dailySdC[0]!, 0.15);
    // Days of 5 °C with a memory of 0.8 alone make months vary by 2.9: more than the 2.5 put in, so nothing is added.
    expectWithin(between, 2.9, 0.15);
  });

  it('adds a monthly offset where days alone do not vary enough between years', () => {
    const climate = aClimate(twelve(10), { dailySdC: twelve(2), betweenYearsSdC: twelve(2) });
    const { daySdC, monthSdC } = weatherSpreadOf(climate);
    expectWithin(daySdC[100]!, 2 / Math.sqrt(0.744), 0.02);
    expectWithin(monthSdC[100]!, Math.sqrt(4 - 0.2556 * daySdC[100]! ** 2), 0.01);
  });
});
