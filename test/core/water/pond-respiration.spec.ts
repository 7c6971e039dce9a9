import { describe, expect, it } from '@jest/globals';
import { ammoniaLoadGNPerDay } from '../../../src/core/stock/ammonia-load.js';
import { oxygenSaturationMgPerL } from '../../../src/core/water/oxygen.js';
import {
  bottomLookOf,
  bottomRespirationGPerM2Day,
  nitrificationOxygenGPerDay,
  waterLookOf,
  waterRespirationMgPerLH,
} from '../../../src/core/water/pond-respiration.js';
import { expectWithin } from '../../support/expect-within.js';

describe('respiration of water and bottom', () => {
  it('is the figure of the table at 20 °C in water full of oxygen (from memory)', () => {
    const dissolvedOxygenMgPerL = oxygenSaturationMgPerL({ temperatureC: 20 });
    const bottom = { look: 'some-sludge', temperatureC: 20, dissolvedOxygenMgPerL } as const;
    expectWithin(bottomRespirationGPerM2Day(bottom), 1.5, 1e-12);
    expectWithin(waterRespirationMgPerLH({ look: 'green', temperatureC: 20 }), 0.25, 1e-12);
  });

  it('grows by 1.258 and 1.370 from 20 to 25 °C (derived)', () => {
    const water = (temperatureC: number) => waterRespirationMgPerLH({ look: 'tinted', temperatureC });
    const bottom = (temperatureC: number) =>
      bottomRespirationGPerM2Day({ look: 'clean', temperatureC, dissolvedOxygenMgPerL: 5 });
    expectWithin(water(25) / water(20), 1.258, 0.001);
    expectWithin(bottom(25) / bottom(20), 1.37, 0.001);
  });

  it('of the bottom falls with the oxygen over it, of both rises with temperature', () => {
    const bottom = { look: 'thick-sludge', temperatureC: 20, dissolvedOxygenMgPerL: 4 } as const;
    expectWithin(
      bottomRespirationGPerM2Day({ ...bottom, dissolvedOxygenMgPerL: 2 }),
      bottomRespirationGPerM2Day(bottom) / 2,
      1e-12,
    );
    expect(bottomRespirationGPerM2Day({ ...bottom, temperatureC: 25 })).toBeGreaterThan(
      bottomRespirationGPerM2Day(bottom),
    );
    expect(waterRespirationMgPerLH({ look: 'clear', temperatureC: 25 })).toBeGreaterThan(
      waterRespirationMgPerLH({ look: 'clear', temperatureC: 20 }),
    );
  });

  it('in a pond one metre deep is shared alike between clear water and a bottom with some sludge', () => {
    // Madenjian et al. 1987: water 42 %, bottom 50 % of the whole; ours within a factor of two.
    const dissolvedOxygenMgPerL = 6;
    const water = 24 * waterRespirationMgPerLH({ look: 'clear', temperatureC: 25 });
    const bottom = bottomRespirationGPerM2Day({ look: 'some-sludge', temperatureC: 25, dissolvedOxygenMgPerL });
    expect(bottom / water).toBeGreaterThan(50 / 42 / 2);
    expect(bottom / water).toBeLessThan((50 / 42) * 2);
  });

  it('is looked up by the depth of a white disc and of sludge (common practice)', () => {
    expect([29, 30, 59, 60].map((discDepthCm) => waterLookOf({ discDepthCm }))).toEqual([
      'green',
      'tinted',
      'tinted',
      'clear',
    ]);
    expect([5, 6, 25, 26].map((sludgeDepthMm) => bottomLookOf({ sludgeDepthMm }))).toEqual([
      'clean',
      'some-sludge',
      'some-sludge',
      'thick-sludge',
    ]);
    expect(() => waterLookOf({ discDepthCm: -1 })).toThrow('depth of the disc, cm: -1, outside 0 to 1000.');
    expect(() => bottomLookOf({ sludgeDepthMm: Number.NaN })).toThrow('depth of sludge, mm: NaN');
  });

  it('refuses water outside 0 to 40 °C', () => {
    expect(() => waterRespirationMgPerLH({ look: 'clear', temperatureC: 45 })).toThrow(
      'water temperature, °C: 45, outside 0 to 40.',
    );
  });
});

describe('oxygen for nitrification', () => {
  it('F-5: for 200 g of 35 % food is 29.4 g a day (derived)', () => {
    const load = ammoniaLoadGNPerDay({ feedGPerDay: 200, feedProteinShare: 0.35 });
    expectWithin(nitrificationOxygenGPerDay({ ammoniaLoadGNPerDay: load }), 29.4, 0.1);
  });
});
