import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  celsiusFromF,
  fahrenheitDifferenceFromC,
  fahrenheitFromC,
  kelvinFromC,
} from '../../../src/core/units/celsius-fahrenheit.js';
import { expectWithin } from '../../support/expect-within.js';

describe('degrees', () => {
  it.each([
    [10, 50],
    [0, 32],
    [100, 212],
    [-40, -40],
  ])('%d °C are %d °F, and back (exact by definition)', (temperatureC, temperatureF) => {
    expectWithin(fahrenheitFromC(temperatureC), temperatureF, 1e-12);
    expectWithin(celsiusFromF(temperatureF), temperatureC, 1e-12);
  });

  it('of a difference have no offset', () => {
    expect(fahrenheitDifferenceFromC(2)).toBe(3.6);
    expect(fahrenheitDifferenceFromC(0)).toBe(0);
  });

  it('absolute begin at 273.15 for 0 °C', () => {
    expect(kelvinFromC(0)).toBe(273.15);
  });

  it('come back from a round trip within 1e-9', () => {
    fc.assert(
      fc.property(fc.double({ min: -100, max: 200, noNaN: true }), (temperatureC) => {
        expectWithin(celsiusFromF(fahrenheitFromC(temperatureC)), temperatureC, 1e-9);
      }),
    );
  });
});
