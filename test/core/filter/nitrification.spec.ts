import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import {
  mediaAreaM2,
  mediaAreaNeededM2,
  NITRIFICATION_THETA,
  nitrificationCapacityGNPerDay,
  nitrificationOxygenGPerDay,
  nitrificationRateGNPerM2Day,
  relativeNitrificationRate,
  thetaOfShare,
} from '../../../src/core/filter/nitrification.js';
import atOneDegree from '../../published/nitrification-at-1-c.json' with { type: 'json' };
import byTemperature from '../../published/nitrification-by-temperature.json' with { type: 'json' };
import thetas from '../../published/nitrification-theta.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

describe('nitrification', () => {
  it.each([
    [5, 0.109],
    [10, 0.153],
    [15, 0.214],
    [20, 0.3],
    [25, 0.421],
  ])('at %d °C keeps its rate of %d g/m² (derived)', (temperatureC, rate) => {
    expectWithin(nitrificationRateGNPerM2Day({ temperatureC }), rate, 0.002);
  });

  it.each([
    [5, 352],
    [8, 434],
    [10, 499],
    [15, 706],
    [25, 1416],
  ])(
    'with the published 1.072 is at %d °C %d thousandths of that at 20 (F04, derived)',
    (temperatureC, thousandths) => {
      expectWithin(relativeNitrificationRate({ temperatureC, theta: 1.072 }), thousandths / 1000, 0.001);
    },
  );

  it('tells its growth per °C from a share: 18 %% at 1 °C is 1.0945 (F05, derived)', () => {
    expectWithin(thetaOfShare({ temperatureC: 1, shareOf20C: 0.18 }), 1.0945, 0.0005);
    expect(() => thetaOfShare({ temperatureC: 20, shareOf20C: 1 })).toThrow('Take one at least 1 °C from 20.');
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 18, noNaN: true }),
        fc.double({ min: 1.01, max: 1.15, noNaN: true }),
        (temperatureC, theta) => {
          const shareOf20C = relativeNitrificationRate({ temperatureC, theta });
          expectWithin(thetaOfShare({ temperatureC, shareOf20C }), theta, 1e-9);
        },
      ),
    );
  });

  it('grows faster than a thin film does, and as fast as free cells', () => {
    const [free, ...films] = thetas.rows;
    expectWithin(NITRIFICATION_THETA, free!.theta, 0.005);
    for (const film of films) expect(NITRIFICATION_THETA).toBeGreaterThan(film.theta);
  });

  it('of 6.44 g N a day takes 29.4 g of oxygen (F-5, derived)', () => {
    expectWithin(nitrificationOxygenGPerDay({ ammoniaLoadGNPerDay: 6.44 }), 29.4, 0.1);
    expect(() => nitrificationOxygenGPerDay({ ammoniaLoadGNPerDay: -1 })).toThrow('ammonia load, g N/day: -1');
  });

  it('grows with temperature as the published guideline does up to 20 °C', () => {
    const points = byTemperature.rows.filter((row) => row.temperatureC <= 20);
    expectWithin(
      NITRIFICATION_THETA,
      Math.exp(slope(points.map((p) => [p.temperatureC, Math.log(p.rateGNPerM2Day)]))),
      0.01,
    );
  });

  it.each(byTemperature.rows)('promises less than a well designed filter does at $temperatureC °C', (row) => {
    const rate = nitrificationRateGNPerM2Day(row);
    expect(rate).toBeLessThan(0.5 * row.rateGNPerM2Day);
    expect(rate).toBeGreaterThan(0.25 * row.rateGNPerM2Day);
  });

  it.each(atOneDegree.rows)('goes on at $temperatureC °C, though faster than the biofilm measured there', (row) => {
    const share = nitrificationRateGNPerM2Day(row) / nitrificationRateGNPerM2Day({ temperatureC: 20 });
    expect(share).toBeGreaterThan(row.shareOf20C - row.sd);
    expect(share).toBeLessThan(row.shareOf20C + 2 * row.sd);
  });

  it('of a load of 6.44 g at 20 °C takes 21.5 m²: 43 L at 500, 72 L at 300 m²/m³ (derived)', () => {
    const area = mediaAreaNeededM2({ ammoniaLoadGNPerDay: 6.44, temperatureC: 20 });
    expectWithinShare(area, 21.5, 0.01);
    expectWithinShare(mediaAreaM2({ mediaVolumeL: 43, mediaAreaM2PerM3: 500 }), area, 0.01);
    expectWithinShare(mediaAreaM2({ mediaVolumeL: 72, mediaAreaM2PerM3: 300 }), area, 0.01);
  });

  it('rises with temperature to 28 °C and stays there; rises with area and ripeness', () => {
    const temperature = fc.double({ min: 0, max: 40, noNaN: true });
    fc.assert(
      fc.property(temperature, temperature, fc.double({ min: 0, max: 1, noNaN: true }), (t1, t2, maturityShare) => {
        const at = (temperatureC: number, mediaAreaM2Here = 20) =>
          nitrificationCapacityGNPerDay({ mediaAreaM2: mediaAreaM2Here, temperatureC, maturityShare });
        expect(at(Math.max(t1, t2))).toBeGreaterThanOrEqual(at(Math.min(t1, t2)));
        expect(at(Math.max(28, t1))).toBe(at(28));
        expectWithin(at(t1, 40), 2 * at(t1), 1e-9);
        expect(at(t1)).toBeLessThanOrEqual(
          nitrificationCapacityGNPerDay({ mediaAreaM2: 20, temperatureC: t1, maturityShare: 1 }),
        );
      }),
    );
  });

  it.each([
    [{ mediaAreaM2: -1 }, 'media area, m²: -1'],
    [{ temperatureC: Number.NaN }, 'water temperature, °C: NaN'],
    [{ maturityShare: 1.1 }, 'maturity, share: 1.1, outside 0 to 1.'],
  ])('refuses %j', (wrong, message) => {
    const right = { mediaAreaM2: 20, temperatureC: 20, maturityShare: 1 };
    expect(() => nitrificationCapacityGNPerDay({ ...right, ...wrong })).toThrow(message);
  });
});

/** Slope of the least-squares line through points. */
function slope(points: readonly (readonly [number, number])[]): number {
  const meanX = points.reduce((sum, [x]) => sum + x, 0) / points.length;
  const meanY = points.reduce((sum, [, y]) => sum + y, 0) / points.length;
  const covariance = points.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0);
  return covariance / points.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0);
}
