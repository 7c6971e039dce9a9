import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { hazenWilliamsLoss } from '../../../src/core/hydraulics/hazen-williams.js';
import { atOtherSpeed, type PumpCurve, pumpHeadM } from '../../../src/core/hydraulics/pump-curve.js';
import { circuitFlow, lineHeadM, type PumpLine, pumpFlows } from '../../../src/core/hydraulics/pump-line.js';
import { workingPoint } from '../../../src/core/hydraulics/working-point.js';
import examples from '../../published/pump-and-weir-examples.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const RATED: PumpCurve = { kind: 'rated', freeFlowLPerH: 10_000, shutOffHeadM: 5 };
const LINE: PumpLine = {
  liftM: 1.5,
  lengthM: 8,
  insideDiameterMm: 40.9,
  wall: 'smooth-plastic',
  elbows: 3,
};

describe('working point', () => {
  it.each([
    [26.6, 10.394, 4.835, 3.831],
    [35.1, 11.159, 6.769, 2.709],
    [40.9, 11.681, 7.458, 2.219],
    [52.5, 12.725, 8.041, 1.767],
  ])(
    'in %d mm pipe of %d m is %d m³/h at %d m by Hazen and Williams (derived, P1 and H12)',
    (mm, lengthM, m3, head) => {
      const line = {
        headM: (flowLPerH: number) => 1.5 + hazenWilliamsLoss({ flowLPerH, lengthM, insideDiameterMm: mm }).headM,
      };
      const point = workingPoint(RATED, line);
      expectWithin(point.flowLPerH / 1000, m3, 0.002);
      expectWithin(point.headM, head, 0.002);
      expect(point.state).toBe('works');
    },
  );

  it('is where pump and line take the same head', () => {
    const metre = fc.double({ min: 0, max: 4, noNaN: true });
    fc.assert(
      fc.property(metre, fc.double({ min: 20, max: 80, noNaN: true }), (liftM, insideDiameterMm) => {
        const line = { ...LINE, liftM, insideDiameterMm };
        const point = workingPoint(RATED, { headM: (flow) => lineHeadM(line, flow) });
        expect(point.state).toBe('works');
        expectWithinShare(pumpHeadM(RATED, point.flowLPerH), lineHeadM(line, point.flowLPerH), 1e-6);
      }),
    );
  });

  it('moves less water with more lift, more bends or a narrower pipe', () => {
    const flow = (line: Partial<PumpLine>) =>
      circuitFlow({ flowLPerH: 10_000, maxHeadM: 5 }, { ...LINE, ...line })!.flowLPerH;
    const share = fc.double({ min: 0.3, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(share, (less) => {
        expect(flow({ liftM: 1.5 + less })).toBeLessThan(flow({}));
        expect(flow({ insideDiameterMm: 40.9 * less })).toBeLessThan(flow({}));
        expect(flow({ lengthM: 8 / less })).toBeLessThan(flow({}));
      }),
    );
    expect(flow({ elbows: 6 })).toBeLessThan(flow({}));
    expect(flow({ checkValves: 1 })).toBeLessThan(flow({}));
    expect(flow({ wall: 'ribbed-hose' })).toBeLessThan(flow({}));
    expect(flow({ filterHeadM: 1 })).toBeLessThan(flow({}));
  });

  it('is none where the pump does not reach the lift', () => {
    const point = workingPoint(RATED, { headM: () => 5 });
    expect(point).toMatchObject({ flowLPerH: 0, state: 'no-flow' });
  });

  it('is marked where the points of a curve end before or begin after it', () => {
    const points: PumpCurve = {
      kind: 'points',
      points: [
        { flowLPerH: 2000, headM: 4 },
        { flowLPerH: 4000, headM: 3 },
        { flowLPerH: 6000, headM: 1.5 },
      ],
    };
    expect(workingPoint(points, { headM: () => 1 })).toMatchObject({ flowLPerH: 6000, state: 'beyond-curve' });
    expect(workingPoint(points, { headM: () => 4.5 })).toMatchObject({ flowLPerH: 2000, state: 'before-curve' });
    const inside = workingPoint(points, { headM: () => 2.25 });
    expectWithin(inside.flowLPerH, 5000, 0.01);
    expect(inside.state).toBe('works');
  });

  it('refuses a curve that rises, too few points, and a line without a head', () => {
    const rising: PumpCurve = {
      kind: 'points',
      points: [
        { flowLPerH: 0, headM: 3 },
        { flowLPerH: 1000, headM: 4 },
        { flowLPerH: 2000, headM: 1 },
      ],
    };
    expect(() => workingPoint(rising, { headM: () => 1 })).toThrow('the flow must rise and the head fall');
    expect(() => workingPoint({ kind: 'points', points: [] }, { headM: () => 1 })).toThrow('at least three points');
    expect(() => workingPoint(RATED, { headM: () => Number.NaN })).toThrow('The line must answer a number');
    const empty: PumpCurve = { kind: 'rated', freeFlowLPerH: 0, shutOffHeadM: 5 };
    expect(() => workingPoint(empty, { headM: () => 1 })).toThrow('flow without head, L/h: 0');
  });
});

describe('flow of a circuit', () => {
  it('is the plate’s until lift and line are known, and says so', () => {
    expect(circuitFlow({}, LINE)).toBeNull();
    expect(circuitFlow({ flowLPerH: 8000 }, LINE)).toEqual({ flowLPerH: 8000, basis: 'rated', point: null });
    expect(circuitFlow({ flowLPerH: 8000, maxHeadM: 4 }, undefined)?.basis).toBe('rated');
  });

  it('is less than the plate’s once they are, with the speed in the pipe', () => {
    const flow = circuitFlow({ flowLPerH: 10_000, maxHeadM: 5 }, LINE)!;
    expect(flow.basis).toBe('working-point');
    // The outlet takes one velocity head more than the worked example, which leaves it out.
    expectWithin(flow.flowLPerH, 7300, 150);
    expect(flow.point?.isFast).toBe(false);
    const narrow = circuitFlow({ flowLPerH: 10_000, maxHeadM: 5 }, { ...LINE, insideDiameterMm: 25 })!;
    expect(narrow.point?.velocityMPerS).toBeGreaterThan(2);
  });

  it('is found for each pump of a register of which it is known, and for nothing else', () => {
    const register = [
      { kind: 'pump', rated: { flowLPerH: 10_000, maxHeadM: 5, line: LINE } },
      { kind: 'pump', rated: { powerW: 40 } },
      { kind: 'pump', rated: { flowLPerH: 3000 } },
      { kind: 'uv-lamp', rated: { flowLPerH: 3000 } },
    ];
    expect(pumpFlows(register).map(({ basis }) => basis)).toEqual(['working-point', 'rated']);
  });

  it('is refused for a line that cannot be', () => {
    const plate = { flowLPerH: 10_000, maxHeadM: 5 };
    expect(() => circuitFlow(plate, { ...LINE, liftM: -1 })).toThrow('lift, m: -1');
    expect(() => circuitFlow(plate, { ...LINE, filterHeadM: Number.NaN })).toThrow('head taken by the filter, m: NaN');
  });
});

describe('pump at another speed', () => {
  it('follows the affinity laws of the published problem (H13)', () => {
    const row = examples.rows.find(({ id }) => id === 'H13')!;
    const after = atOtherSpeed({
      flowLPerH: row.flow!,
      headM: 100,
      powerW: row.power!,
      speedShare: row.speedTo! / row.speedFrom!,
    });
    expectWithin(after.flowLPerH, row.flowAfter!, 0.01);
    expectWithin((after.headM * row.head!) / 100, row.headAfter!, 0.01);
    expectWithin(after.powerW, row.powerAfter!, 0.01);
    expect(() => atOtherSpeed({ flowLPerH: 1, headM: 1, powerW: 1, speedShare: 0 })).toThrow('speed, share: 0');
  });
});
