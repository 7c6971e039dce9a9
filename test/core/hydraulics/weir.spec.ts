import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { rehbockFlowLPerH, sheetFlowLPerH, weirFlowLPerH, weirHeadM } from '../../../src/core/hydraulics/weir.js';
import { litresFromUsGal, usGalFromL } from '../../../src/core/units/volume-units.js';
import examples from '../../published/pump-and-weir-examples.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

const IN_M = 0.0254;
/** Over a crest of 1 m, as US gallons an hour to the inch. */
const perInch = (lPerHPerM: number) => usGalFromL(lPerHPerM * IN_M);

describe('weir', () => {
  it.each([
    [0.25, 22.5],
    [0.5, 63.56],
    [0.75, 116.8],
    [1, 179.8],
    [1.25, 251],
  ])('with %d in of head carries %d US gal/h to the inch (derived, H16)', (headIn, expected) => {
    expectWithinShare(perInch(weirFlowLPerH({ crestM: 1, headM: headIn * IN_M })), expected, 0.003);
  });

  it.each([
    [100, 0.676],
    [150, 0.89],
    [200, 1.07],
  ])('for %d US gal/h to the inch stands %d in high (derived, H18)', (gphPerInch, headIn) => {
    const headM = weirHeadM({ crestM: 1, flowLPerH: litresFromUsGal(gphPerInch) / IN_M });
    expectWithin(headM / IN_M, headIn, 0.008);
  });

  it('of Rehbock reproduces the published example (H17)', () => {
    const row = examples.rows.find(({ id }) => id === 'H17')!;
    const flowLPerH = rehbockFlowLPerH({ headM: row.headM!, heightM: row.heightM!, crestM: row.crestM! });
    expectWithin(flowLPerH / 3.6e6, row.flowM3PerS!, 1e-5);
  });

  it('and its head are each other’s inverse, and both formulas agree on a low head over a high weir to 6 %', () => {
    const crest = fc.double({ min: 0.3, max: 5, noNaN: true });
    fc.assert(
      fc.property(crest, fc.double({ min: 0.03, max: 0.3, noNaN: true }), (crestM, headM) => {
        const flowLPerH = weirFlowLPerH({ crestM, headM });
        expectWithinShare(
          weirHeadM({ crestM, flowLPerH: Math.min(flowLPerH, 1e6) }),
          Math.min(headM, weirHeadM({ crestM, flowLPerH: 1e6 })),
          1e-9,
        );
        expectWithinShare(rehbockFlowLPerH({ crestM, headM, heightM: 10 }), flowLPerH, 0.06);
        expect(weirFlowLPerH({ crestM, headM: headM * 1.1 })).toBeGreaterThan(flowLPerH);
      }),
    );
  });

  it('wants 14.9 m³/h a metre for a plain sheet, half for a thin one (common practice)', () => {
    expectWithinShare(sheetFlowLPerH({ crestM: 1, sheet: 'plain' }), 14_900, 0.001);
    expectWithinShare(perInch(sheetFlowLPerH({ crestM: 1, sheet: 'thin' })), 50, 0.001);
    expectWithinShare(perInch(sheetFlowLPerH({ crestM: 1, sheet: 'heavy' })), 175, 0.001);
  });

  it('refuses a dry crest, a flood, and a weir lower than its head', () => {
    expect(() => weirFlowLPerH({ crestM: 1, headM: 0 })).toThrow('head over the crest, m: 0');
    expect(() => weirFlowLPerH({ crestM: Number.NaN, headM: 0.02 })).toThrow('crest, m: NaN');
    expect(() => weirHeadM({ crestM: 1, flowLPerH: 0 })).toThrow('flow, L/h: 0');
    expect(() => rehbockFlowLPerH({ crestM: 1, headM: 0.5, heightM: 0.3 })).toThrow('height of the weir, m: 0.3');
  });
});
