import { describe, expect, it } from '@jest/globals';
import { InvalidValueError, OutOfRangeError } from '../../../src/core/errors.js';
import { shadeShareFrom, windOverPond } from '../../../src/core/thermal/shade.js';
import { expectWithin } from '../../support/expect-within.js';

describe('shade', () => {
  it('is what direct sun leaves of the midsummer day', () => {
    // 15.4 h of daylight at 45°.
    expectWithin(shadeShareFrom({ directSunHours: 7.7, latitude: 45 }), 0.5, 0.01);
    expectWithin(shadeShareFrom({ directSunHours: 7.7, latitude: -45 }), 0.5, 0.01);
  });

  it('never falls under 0.1 nor rises over 0.9', () => {
    expect(shadeShareFrom({ directSunHours: 24, latitude: 45 })).toBe(0.1);
    expect(shadeShareFrom({ directSunHours: 0, latitude: 45 })).toBe(0.9);
  });

  it('refuses impossible hours', () => {
    expect(() => shadeShareFrom({ directSunHours: 25, latitude: 45 })).toThrow(OutOfRangeError);
    expect(() => shadeShareFrom({ directSunHours: 5, latitude: Number.NaN })).toThrow(OutOfRangeError);
  });
});

describe('wind over a pond', () => {
  it('has a typical value for each shelter (common practice)', () => {
    expect(windOverPond({ shelter: 'open' })).toBe(4);
    expect(windOverPond({ shelter: 'suburban' })).toBe(1.5);
    expect(windOverPond({ shelter: 'walled' })).toBe(0.8);
  });

  it('is reduced from 10 m in the open by height and shelter', () => {
    expectWithin(windOverPond({ shelter: 'open', openWindMPerS: 4 }), 2.992, 1e-9);
    expectWithin(windOverPond({ shelter: 'suburban', openWindMPerS: 4 }), 1.496, 1e-9);
    expectWithin(windOverPond({ shelter: 'walled', openWindMPerS: 4 }), 0.8976, 1e-9);
  });

  it('refuses storms and shelters it does not know', () => {
    expect(() => windOverPond({ shelter: 'open', openWindMPerS: 100 })).toThrow(OutOfRangeError);
    expect(() => windOverPond({ shelter: 'cave' as never })).toThrow(InvalidValueError);
  });
});
