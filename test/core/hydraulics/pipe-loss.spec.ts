import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { equivalentLengthM, type FittingKind, fittingK } from '../../../src/core/hydraulics/fittings.js';
import { frictionFactor } from '../../../src/core/hydraulics/friction-factor.js';
import { HAZEN_WILLIAMS_C, hazenWilliamsLoss } from '../../../src/core/hydraulics/hazen-williams.js';
import { type PipeRun, pipeLoss, pipeVelocityMPerS } from '../../../src/core/hydraulics/pipe-loss.js';
import { waterDensityKgPerM3, waterViscosityM2PerS } from '../../../src/core/hydraulics/water-viscosity.js';
import { ftFromM, metresFromFt } from '../../../src/core/units/length-units.js';
import { litresFromUsGal } from '../../../src/core/units/volume-units.js';
import c145 from '../../published/plastic-pipe-friction-c145.json' with { type: 'json' };
import c150 from '../../published/plastic-pipe-friction-c150.json' with { type: 'json' };
import fittings from '../../published/screwed-fittings-equivalent-length.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const lPerHFromGpm = (flowGpm: number) => litresFromUsGal(flowGpm) * 60;
const mmFromIn = (inches: number) => inches * 25.4;
const HUNDRED_FT_M = metresFromFt(100);
const smooth = (insideDiameterMm: number, lengthM: number): PipeRun => ({
  lengthM,
  insideDiameterMm,
  wall: 'smooth-plastic',
  fittings: [],
});

describe('water', () => {
  it.each([
    [10, 1.307],
    [15, 1.139],
    [20, 1.004],
    [25, 0.893],
  ])('at %d °C has a kinematic viscosity of %d mm²/s (from memory)', (temperatureC, mm2PerS) => {
    expectWithinShare(waterViscosityM2PerS({ temperatureC }) * 1e6, mm2PerS, 0.002);
  });

  it.each([
    [0, 999.84],
    [3.98, 999.97],
    [10, 999.7],
    [20, 998.21],
  ])('at %d °C weighs %d kg/m³ (from memory), most at 4 °C', (temperatureC, kgPerM3) => {
    expectWithin(waterDensityKgPerM3({ temperatureC }), kgPerM3, 0.04);
  });

  it('is not reckoned as ice or tea', () => {
    expect(() => waterViscosityM2PerS({ temperatureC: -1 })).toThrow('water temperature, °C: -1');
    expect(() => waterDensityKgPerM3({ temperatureC: 41 })).toThrow('water temperature, °C: 41');
  });
});

describe('loss by Hazen and Williams', () => {
  it.each(c150.rows)('meets $feetPer100 ft per 100 ft at $flowGpm gpm in $nominalIn in, C 150', (row) => {
    const { headM } = hazenWilliamsLoss({
      flowLPerH: lPerHFromGpm(row.flowGpm),
      lengthM: HUNDRED_FT_M,
      insideDiameterMm: mmFromIn(row.insideDiameterIn),
    });
    // Half of the last printed digit or 3 %, whichever is larger.
    expectWithin(ftFromM(headM), row.feetPer100, Math.max(0.0051, 0.03 * row.feetPer100));
  });

  it.each(c145.rows)('meets $feetPer100 ft per 100 ft at $flowGpm gpm in $nominalIn in, C 145', (row) => {
    const { headM } = hazenWilliamsLoss({
      flowLPerH: lPerHFromGpm(row.flowGpm),
      lengthM: HUNDRED_FT_M,
      insideDiameterMm: mmFromIn(row.insideDiameterIn),
      c: 145,
    });
    // The table is itself off by up to 3 %, and the SI constants by 0.5 %.
    expectWithin(ftFromM(headM), row.feetPer100, Math.max(0.051, 0.035 * row.feetPer100));
  });

  it('of 5 m³/h in 10 m of 40.9 mm is 0.294 m; slime adds two fifths (derived)', () => {
    const pipe = { flowLPerH: 5000, lengthM: 10, insideDiameterMm: 40.9 };
    expectWithin(hazenWilliamsLoss(pipe).headM, 0.294, 0.0005);
    const slimed = hazenWilliamsLoss({ ...pipe, c: HAZEN_WILLIAMS_C['slimed-plastic'] });
    expectWithinShare(slimed.headM / hazenWilliamsLoss(pipe).headM, (150 / 125) ** 1.852, 1e-9);
  });

  it('is marked above 3 m/s and refused in a pipe narrower than 15 mm', () => {
    expect(hazenWilliamsLoss({ flowLPerH: 6000, lengthM: 1, insideDiameterMm: 25 }).isInRange).toBe(false);
    expect(hazenWilliamsLoss({ flowLPerH: 5000, lengthM: 1, insideDiameterMm: 25 }).isInRange).toBe(true);
    expect(() => hazenWilliamsLoss({ flowLPerH: 500, lengthM: 1, insideDiameterMm: 13 })).toThrow(
      'inside diameter, mm: 13',
    );
  });
});

describe('loss by Darcy and Weisbach', () => {
  it.each([
    [1.049, 10, 5.77],
    [1.61, 20, 2.54],
    [1.61, 30, 5.23],
    [2.067, 30, 1.58],
    [2.067, 50, 3.93],
  ])('in smooth %d in pipe at %d gpm is %d ft per 100 ft (derived)', (insideIn, flowGpm, feetPer100) => {
    const { headM } = pipeLoss({
      flowLPerH: lPerHFromGpm(flowGpm),
      run: smooth(mmFromIn(insideIn), HUNDRED_FT_M),
      outletK: 0,
      waterTemperatureC: 20,
    });
    expectWithinShare(ftFromM(headM), feetPer100, 0.015);
  });

  it('lies within 9 % of the published table above 1 m/s, and higher below, where the table’s formula fails', () => {
    const pairs = c150.rows.map((row) => {
      const run = smooth(mmFromIn(row.insideDiameterIn), HUNDRED_FT_M);
      const loss = pipeLoss({ flowLPerH: lPerHFromGpm(row.flowGpm), run, outletK: 0 });
      return { ...loss, feet: ftFromM(loss.headM), printed: row.feetPer100 };
    });
    const fast = pairs.filter(({ velocityMPerS }) => velocityMPerS >= 1);
    expect(fast.length).toBeGreaterThan(6);
    for (const { feet, printed } of fast) expectWithinShare(feet, printed, 0.09);
    const slow = pairs.filter(({ velocityMPerS, printed }) => velocityMPerS < 1 && printed >= 0.5);
    expect(slow.length).toBeGreaterThan(3);
    for (const { feet, printed } of slow) expect(feet).toBeGreaterThan(printed);
  });

  it('of 5 m³/h in 10 m of 40.9 mm is 0.301 m at 20 °C (derived)', () => {
    const loss = pipeLoss({ flowLPerH: 5000, run: smooth(40.9, 10), outletK: 0, waterTemperatureC: 20 });
    expectWithin(loss.headM, 0.301, 0.003);
    expect(loss.regime).toBe('turbulent');
  });

  it.each([
    [1.049, 10, 10.2],
    [1.61, 20, 4.19],
    [1.61, 30, 9.27],
    [2.067, 30, 2.51],
    [2.067, 50, 6.81],
  ])('with 0.3 mm of roughness in %d in at %d gpm would be %d ft per 100 ft (derived)', (insideIn, flowGpm, feet) => {
    const insideDiameterMm = mmFromIn(insideIn);
    const velocityMPerS = pipeVelocityMPerS({ flowLPerH: lPerHFromGpm(flowGpm), insideDiameterMm });
    const reynolds = (velocityMPerS * insideDiameterMm) / 1000 / waterViscosityM2PerS({ temperatureC: 20 });
    const { factor } = frictionFactor({ reynolds, roughnessRatio: 0.3 / insideDiameterMm });
    const gradient = (factor / (insideDiameterMm / 1000)) * (velocityMPerS ** 2 / 19.6133);
    expectWithinShare(100 * gradient, feet, 0.02);
  });

  it('has the velocity of the US form, 0.4085 gpm / in² (published source: pipe friction reference)', () => {
    const velocityMPerS = pipeVelocityMPerS({ flowLPerH: lPerHFromGpm(20), insideDiameterMm: mmFromIn(1.61) });
    expectWithinShare(ftFromM(velocityMPerS), (0.4085 * 20) / 1.61 ** 2, 0.001);
  });

  it('in ribbed hose takes 1.5 to 2.5 times as much (common practice)', () => {
    for (const flowLPerH of [3000, 5000, 8000]) {
      const run = smooth(40.9, 10);
      const ribbed = pipeLoss({ flowLPerH, run: { ...run, wall: 'ribbed-hose' }, outletK: 0 }).headM;
      const ratio = ribbed / pipeLoss({ flowLPerH, run, outletK: 0 }).headM;
      expect(ratio).toBeGreaterThan(1.5);
      expect(ratio).toBeLessThan(2.5);
    }
  });

  it('takes no head without flow, and one velocity head at the outlet', () => {
    expect(pipeLoss({ flowLPerH: 0, run: smooth(40, 10) })).toMatchObject({ headM: 0, regime: 'still' });
    const { headM, velocityMPerS } = pipeLoss({ flowLPerH: 5000, run: smooth(40, 0) });
    expectWithin(headM, velocityMPerS ** 2 / 19.6133, 1e-9);
  });

  it('only rises with the flow, through the transition too, and only falls with a wider pipe', () => {
    const flow = fc.double({ min: 1, max: 20_000, noNaN: true });
    const wide = fc.double({ min: 15, max: 100, noNaN: true });
    fc.assert(
      fc.property(flow, wide, fc.constantFrom('smooth-plastic' as const, 'ribbed-hose' as const), (q, mm, wall) => {
        const run = { ...smooth(mm, 10), wall, fittings: [{ kind: 'elbow-90' as const, count: 3 }] };
        const here = pipeLoss({ flowLPerH: q, run }).headM;
        expect(pipeLoss({ flowLPerH: q * 1.01, run }).headM).toBeGreaterThan(here);
        expect(pipeLoss({ flowLPerH: q, run: { ...run, fittings: [] } }).headM).toBeLessThan(here);
      }),
    );
  });

  it.each([
    [{ flowLPerH: Number.NaN }, 'flow, L/h: NaN'],
    [{ flowLPerH: -1 }, 'flow, L/h: -1'],
    [{ run: smooth(5, 10) }, 'inside diameter, mm: 5'],
    [{ run: smooth(40, -1) }, 'pipe length, m: -1'],
    [{ outletK: -1 }, 'outlet loss, velocity heads: -1'],
  ])('refuses %j', (wrong, message) => {
    expect(() => pipeLoss({ flowLPerH: 5000, run: smooth(40, 10), ...wrong })).toThrow(message);
  });
});

describe('fittings', () => {
  it.each(fittings.rows)('$fitting of $insideDiameterIn in is as long as $feet ft of pipe', (row) => {
    const one = [{ kind: row.fitting as FittingKind, count: 1 }];
    const lengthM = equivalentLengthM({ insideDiameterMm: mmFromIn(row.insideDiameterIn), fittings: one });
    expectWithin(ftFromM(lengthM), row.feet, Math.max(0.0051, 0.005 * row.feet));
  });

  it('have K values of n f, and add up', () => {
    expectWithin(fittingK({ kind: 'elbow-90', frictionFactor: 0.02 }), 0.6, 1e-12);
    const many = [
      { kind: 'elbow-90' as const, count: 3 },
      { kind: 'swing-check' as const, count: 1 },
    ];
    expectWithin(equivalentLengthM({ insideDiameterMm: 40, fittings: many }), 190 * 0.04, 1e-12);
  });

  it('are refused when unknown or without number', () => {
    const wrong = [{ kind: 'trap' as FittingKind, count: 1 }];
    expect(() => equivalentLengthM({ insideDiameterMm: 40, fittings: wrong })).toThrow('Use one of: elbow-90');
    const many = [{ kind: 'elbow-90' as const, count: Number.NaN }];
    expect(() => equivalentLengthM({ insideDiameterMm: 40, fittings: many })).toThrow('fittings, elbow-90: NaN');
    expect(() => fittingK({ kind: 'elbow-90', frictionFactor: 1 })).toThrow('friction factor: 1');
  });
});
