import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { bucketFlow, timedFillVolume } from '../../../src/core/hydraulics/bucket-flow.js';
import { energyCostMinor, energyKWh, hydraulicPowerW } from '../../../src/core/hydraulics/pump-energy.js';
import examples from '../../published/pump-and-weir-examples.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

describe('energy of a pump', () => {
  it('and its cost meet the published example (H14)', () => {
    const row = examples.rows.find(({ id }) => id === 'H14')!;
    const kWh = energyKWh({ powerW: row.powerW!, hoursPerDay: row.hoursPerDay!, days: row.days! });
    expectWithin(kWh, row.energyKWh!, 1e-9);
    expect(energyCostMinor({ energyKWh: kWh, priceMinorPerKWh: row.priceMinorPerKWh! })).toBe(row.costMinor);
  });

  it('of 120 W all year is 1,051.2 kWh, 178.70 at 0.17 (derived, H15)', () => {
    const kWh = energyKWh({ powerW: 120, hoursPerDay: 24, days: 365 });
    expectWithin(kWh, 1051.2, 1e-9);
    expect(energyCostMinor({ energyKWh: kWh, priceMinorPerKWh: 17 })).toBe(17_870);
  });

  it('costs whole minor units, never off by more than half of one', () => {
    const amount = fc.double({ min: 0, max: 10_000, noNaN: true });
    fc.assert(
      fc.property(amount, fc.double({ min: 0, max: 100, noNaN: true }), (kWh, priceMinorPerKWh) => {
        const cost = energyCostMinor({ energyKWh: kWh, priceMinorPerKWh });
        expect(Number.isInteger(cost)).toBe(true);
        expectWithin(cost, kWh * priceMinorPerKWh, 0.5 + 1e-6);
      }),
    );
    expect(energyCostMinor({ energyKWh: 0.5, priceMinorPerKWh: 1 })).toBe(1);
  });

  it('cannot be less than lifting the water takes: 40.9 W for 5 m³/h by 3 m (derived)', () => {
    expectWithin(hydraulicPowerW({ flowLPerH: 5000, headM: 3 }), 40.9, 0.1);
  });

  it.each([
    [{ powerW: -1 }, 'power, W: -1'],
    [{ hoursPerDay: 25 }, 'hours a day: 25'],
    [{ days: Number.NaN }, 'days: NaN'],
  ])('is refused for %j', (wrong, message) => {
    expect(() => energyKWh({ powerW: 100, hoursPerDay: 24, days: 365, ...wrong })).toThrow(message);
  });

  it('is not sold below nothing', () => {
    expect(() => energyCostMinor({ energyKWh: 1, priceMinorPerKWh: -1 })).toThrow('price, minor units per kWh: -1');
  });
});

describe('flow by the bucket', () => {
  it('of 20 L in 10 s is 7,200 L/h, its error the spread of the timings (common practice)', () => {
    expect(bucketFlow({ bucketL: 20, secondsPerBucket: [10] })).toEqual({ flowLPerH: 7200, sigmaPct: 5 });
    const three = bucketFlow({ bucketL: 20, secondsPerBucket: [9, 10, 11] });
    expectWithin(three.flowLPerH, 7200, 1e-9);
    expectWithin(three.sigmaPct, 10, 1e-9);
  });

  it('fills a volume over a time, with the drift of the mains in its error', () => {
    const filled = timedFillVolume({ flow: { flowLPerH: 1200, sigmaPct: 5 }, hours: 8 });
    expectWithin(filled.volumeL, 9600, 1e-9);
    expectWithinShare(filled.volumeSigmaPct, Math.sqrt(125), 1e-9);
  });

  it('is refused untimed', () => {
    expect(() => bucketFlow({ bucketL: 20, secondsPerBucket: [] })).toThrow('Time at least one bucket');
    expect(() => bucketFlow({ bucketL: 20, secondsPerBucket: [0] })).toThrow('seconds to fill the bucket: 0');
    expect(() => timedFillVolume({ flow: { flowLPerH: 1200, sigmaPct: 5 }, hours: 0 })).toThrow('hours of filling: 0');
  });
});
