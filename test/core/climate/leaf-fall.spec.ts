import { describe, expect, it } from '@jest/globals';
import { firstFreezeOn, freezeDatesOf } from '../../../src/core/climate/freeze-dates.js';
import { leafNetDates } from '../../../src/core/climate/leaf-fall.js';
import { OutOfRangeError } from '../../../src/core/errors.js';
import { civilDay } from '../../../src/core/units/civil-day.js';
import { aClimate, CONTINENTAL, CONTINENTAL_SOUTH, TROPICAL, twelve } from '../../support/climates.js';

describe('leaf net', () => {
  it('goes up 21 days before the median first freeze where that is the earlier date', () => {
    const net = leafNetDates(CONTINENTAL, { year: 2026 });
    const freeze = firstFreezeOn(freezeDatesOf(CONTINENTAL), { year: 2026, probability: 0.5 })!;
    expect(net).toMatchObject({ none: null, netOn: freeze - 21, netOff: freeze - 21 + 56, windowDays: 14 });
  });

  it('goes up when the air falls below 12 °C where frost comes late', () => {
    const mild = aClimate(twelve(6, 6, 8, 10, 13, 16, 18, 18, 16, 13, 9, 7), { dailySdC: twelve(2), koeppen: 'Cfb' });
    const net = leafNetDates(mild, { year: 2026 });
    if (net.none !== null) throw new Error(net.none);
    expect(net.netOn).toBeGreaterThan(civilDay('2026-10-15'));
    expect(net.netOn).toBeLessThan(civilDay('2026-11-10'));
  });

  it('never goes up more than 21 days before the 12 °C date, however early the frost', () => {
    const desert = aClimate(twelve(8, 10, 14, 17, 21, 26, 29, 28, 25, 19, 14, 10), {
      minC: twelve(-9, -8, -5, -2, 2, 6, 9, 8, 4, -4, -8, -10),
      koeppen: 'BSk',
    });
    const net = leafNetDates(desert, { year: 2026 });
    if (net.none !== null) throw new Error(net.none);
    const freeze = firstFreezeOn(freezeDatesOf(desert), { year: 2026, probability: 0.5 })!;
    expect(freeze).toBeLessThan(civilDay('2026-10-15'));
    expect(net.netOn).toBeGreaterThan(civilDay('2026-10-15'));
  });

  it('belongs to the southern autumn in the south', () => {
    const net = leafNetDates(CONTINENTAL_SOUTH, { year: 2026 });
    if (net.none !== null) throw new Error(net.none);
    expect(net.netOn).toBeGreaterThan(civilDay('2026-02-15'));
    expect(net.netOn).toBeLessThan(civilDay('2026-05-15'));
    expect(net.halfFallenOn).not.toBeNull();
  });

  it('is not needed in the tropics, nor where the coldest month is above 15 °C', () => {
    expect(leafNetDates(TROPICAL, { year: 2026 })).toEqual({ none: 'leaves-fall-all-year' });
    const warm = aClimate(twelve(16, 17, 18, 20, 22, 25, 27, 27, 25, 22, 19, 17), { koeppen: 'Cfa' });
    expect(leafNetDates(warm, { year: 2026 })).toEqual({ none: 'leaves-fall-all-year' });
  });

  it('has no date where the autumn never cools, and says so', () => {
    const warm = aClimate(twelve(13, 14, 17, 20, 24, 28, 30, 30, 27, 22, 17, 14), {
      koeppen: 'BWh',
      dailySdC: twelve(2),
    });
    expect(leafNetDates(warm, { year: 2026 })).toEqual({ none: 'autumn-too-warm' });
  });

  it('refuses a year no one plans for', () => {
    expect(() => leafNetDates(CONTINENTAL, { year: 20260 })).toThrow(OutOfRangeError);
  });
});
