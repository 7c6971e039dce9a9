import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  CURVE_DAYS,
  curveIndex,
  dailyCurve,
  dayAtCurveIndex,
  harmonicCurve,
  harmonicFit,
  monthMeanOf,
} from '../../../src/core/climate/daily-curve.js';
import type { TwelveMonths } from '../../../src/core/climate/station.js';
import { InvalidValueError } from '../../../src/core/errors.js';
import { civilDay, dayFromParts } from '../../../src/core/units/civil-day.js';
import centralPark from '../../published/noaa-central-park-daily-normals.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

/** Check of the climate handbook, section 3 (derived). */
const CHECK = [0.6, 1.8, 5.6, 11.5, 16.9, 21.8, 25.0, 24.2, 20.2, 14.1, 8.4, 3.4] as unknown as TwelveMonths;

const centralParkDays = centralPark.rows.map(([date, meanC]) => ({
  place: curveIndex(civilDay(`2024-${date}`)),
  meanC: Number(meanC),
}));

/** Monthly means of the daily normals, 29 February among them. */
function monthsOf(days: readonly { place: number; meanC: number }[]): TwelveMonths {
  return Array.from({ length: 12 }, (_, month) => {
    const first = curveIndex(dayFromParts(2024, month + 1, 1));
    const end = month === 11 ? CURVE_DAYS : curveIndex(dayFromParts(2024, month + 2, 1));
    const inside = days.filter(({ place }) => place >= first && place < end);
    return inside.reduce((sum, { meanC }) => sum + meanC, 0) / inside.length;
  }) as unknown as TwelveMonths;
}

describe('daily curve', () => {
  it('has the coefficients of the handbook with one and with five harmonics (derived)', () => {
    const one = harmonicFit(CHECK, 1);
    expectWithin(one.constant, 12.853, 0.0006);
    expectWithin(one.cosine[0]!, -11.243, 0.0006);
    expectWithin(one.sine[0]!, -4.542, 0.0006);
    const five = harmonicFit(CHECK, 5);
    for (const [k, value] of [-11.246, -0.114, -0.001, -0.021, -0.18].entries()) {
      expectWithin(five.cosine[k]!, value, 0.0006);
    }
    // The handbook prints -4.540 for the first; an independent least-squares solution gives -4.5427.
    for (const [k, value] of [-4.5427, 0.14, -0.373, 0.023, -0.075].entries()) {
      expectWithin(five.sine[k]!, value, 0.0006);
    }
  });

  it('has the days of the handbook (derived)', () => {
    const curve = dailyCurve(CHECK);
    const on = (date: string) => curve[curveIndex(civilDay(date))]!;
    expectWithin(on('2025-01-01'), 1.24, 0.006);
    expectWithin(on('2025-07-15'), 25.17, 0.006);
    expectWithin(on('2025-12-31'), 1.34, 0.006);
    expectWithin(Math.max(...curve), 25.37, 0.006);
    expect(dayAtCurveIndex(curve.indexOf(Math.max(...curve)), 2025)).toBe(civilDay('2025-07-24'));
    expectWithin(Math.min(...curve), 0.38, 0.006);
    expect(dayAtCurveIndex(curve.indexOf(Math.min(...curve)), 2025)).toBe(civilDay('2025-01-19'));
  });

  it('has the days of the handbook with three harmonics (derived)', () => {
    const curve = harmonicCurve(harmonicFit(CHECK, 3));
    const on = (date: string) => curve[curveIndex(civilDay(date))]!;
    expectWithin(on('2025-01-01'), 1.45, 0.006);
    expectWithin(on('2025-07-15'), 25.02, 0.006);
    expectWithin(on('2025-12-31'), 1.54, 0.006);
    expectWithin(Math.max(...curve), 25.36, 0.006);
    expect(dayAtCurveIndex(curve.indexOf(Math.max(...curve)), 2025)).toBe(civilDay('2025-07-27'));
    expectWithin(Math.min(...curve), 0.41, 0.006);
    expect(dayAtCurveIndex(curve.indexOf(Math.min(...curve)), 2025)).toBe(civilDay('2025-01-23'));
  });

  it.each([
    [1, 0.468],
    [3, 0.173],
    [5, 0.008],
  ])('with %i harmonics misses the worst month by %f °C (derived)', (harmonics, worst) => {
    const curve = harmonicCurve(harmonicFit(CHECK, harmonics));
    const misses = CHECK.map((mean, month) => Math.abs(monthMeanOf(curve, month + 1) - mean));
    // The mean of the days' middles is not quite the mean of the days.
    expectWithin(Math.max(...misses), worst, 0.006);
  });

  it('keeps the mean of every month to 0.02', () => {
    for (let month = 1; month <= 12; month++) {
      expectWithin(monthMeanOf(dailyCurve(CHECK), month), CHECK[month - 1]!, 0.02);
    }
  });

  it('puts 29 February midway between its neighbours', () => {
    const curve = dailyCurve(CHECK);
    expect(curve).toHaveLength(CURVE_DAYS);
    expectWithin(curve[59]!, (curve[58]! + curve[60]!) / 2, 0.001);
    expect(curveIndex(civilDay('2024-02-29'))).toBe(59);
    expect(curveIndex(civilDay('2024-03-01'))).toBe(60);
    expect(curveIndex(civilDay('2025-03-01'))).toBe(60);
    expect(curveIndex(civilDay('2025-12-31'))).toBe(365);
    expect(dayAtCurveIndex(59, 2025)).toBe(civilDay('2025-02-28'));
  });

  it.each([
    [1, 0.37],
    [2, 0.35],
    [3, 0.21],
    [5, 0.1],
  ])('with %i harmonics agrees with the published daily normals of New York to %f °C', (harmonics, rmse) => {
    const curve = harmonicCurve(harmonicFit(monthsOf(centralParkDays), harmonics));
    const squares = centralParkDays.map(({ place, meanC }) => (curve[place]! - meanC) ** 2);
    expectWithin(Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / 366), rmse, 0.0061);
  });

  it('agrees with the published daily normals of New York to 0.10 °C, at most 0.18', () => {
    const curve = dailyCurve(monthsOf(centralParkDays));
    const errors = centralParkDays.map(({ place, meanC }) => curve[place]! - meanC);
    expect(errors).toHaveLength(366);
    expect(Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / 366)).toBeLessThan(0.105);
    expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.185);
  });

  it('moves with what it is made of: adding a constant adds it to every day', () => {
    const months = fc.array(fc.double({ min: -30, max: 35, noNaN: true }), { minLength: 12, maxLength: 12 });
    fc.assert(
      fc.property(months, fc.double({ min: -10, max: 10, noNaN: true }), (values, shift) => {
        const plain = dailyCurve(values as never);
        const shifted = dailyCurve(values.map((value) => value + shift) as never);
        for (let i = 0; i < CURVE_DAYS; i += 13) expectWithin(shifted[i]! - plain[i]!, shift, 1e-9);
      }),
    );
  });

  it('refuses what are not twelve numbers', () => {
    expect(() => dailyCurve([1, 2, 3] as never)).toThrow(InvalidValueError);
    expect(() => dailyCurve(CHECK.map(() => Number.NaN) as never)).toThrow(InvalidValueError);
    expect(() => harmonicFit(CHECK, 6)).toThrow(InvalidValueError);
  });
});
