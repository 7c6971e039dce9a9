import { describe, expect, it } from '@jest/globals';
import { OutOfRangeError } from '../../../src/core/errors.js';
import { waterfallExchangeWPerM2K, wetBulbC } from '../../../src/core/thermal/waterfall.js';
import { expectWithin } from '../../support/expect-within.js';

describe('waterfall', () => {
  it('cools toward the wet bulb: 13.7 °C at 20 °C and 50 % (Stull 2011, from memory)', () => {
    expectWithin(wetBulbC({ airTemperatureC: 20, relativeHumidityPct: 50 }), 13.7, 0.05);
  });

  it('exchanges rho c Q eta / A (derived)', () => {
    const exchange = waterfallExchangeWPerM2K({ waterfallFlowLPerH: 3600, surfaceAreaM2: 20 });
    expectWithin(exchange, (4.186e6 * 0.001 * 0.05) / 20, 1e-9);
    expect(waterfallExchangeWPerM2K({ waterfallFlowLPerH: 0, surfaceAreaM2: 20 })).toBe(0);
  });

  it('refuses what the formulas do not cover', () => {
    expect(() => wetBulbC({ airTemperatureC: -30, relativeHumidityPct: 50 })).toThrow(OutOfRangeError);
    expect(() => wetBulbC({ airTemperatureC: 20, relativeHumidityPct: 1 })).toThrow(OutOfRangeError);
    expect(() => waterfallExchangeWPerM2K({ waterfallFlowLPerH: -5, surfaceAreaM2: 20 })).toThrow(OutOfRangeError);
  });
});
