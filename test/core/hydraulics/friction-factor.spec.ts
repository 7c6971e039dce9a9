import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { frictionFactor, swameeJainFactor } from '../../../src/core/hydraulics/friction-factor.js';
import published from '../../published/friction-factors.json' with { type: 'json' };
import examples from '../../published/pump-and-weir-examples.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

describe('friction factor', () => {
  it.each(published.rows)('agrees with $formula of $address at Re $reynolds, ratio $roughnessRatio ($id)', (row) => {
    const computed = row.formula === 'colebrook' ? frictionFactor(row).factor : swameeJainFactor(row);
    expectWithin(computed, row.factor, row.tolerance);
  });

  it('of a smooth pipe at Re 10,000 is that of Blasius to 3 %', () => {
    const row = examples.rows.find(({ id }) => id === 'blasius')!;
    expectWithinShare(frictionFactor({ reynolds: row.reynolds!, roughnessRatio: 0 }).factor, row.factor!, 0.03);
  });

  it('is Poiseuille’s when laminar, and says so when it is neither', () => {
    expect(frictionFactor({ reynolds: 0, roughnessRatio: 0 })).toEqual({ factor: 0, regime: 'still' });
    expect(frictionFactor({ reynolds: 1000, roughnessRatio: 0.01 })).toEqual({ factor: 0.064, regime: 'laminar' });
    expect(frictionFactor({ reynolds: 3000, roughnessRatio: 0 }).regime).toBe('transitional');
    expect(frictionFactor({ reynolds: 4000, roughnessRatio: 0 }).regime).toBe('turbulent');
  });

  it('has no jump at the ends of the transition', () => {
    for (const reynolds of [2000, 4000]) {
      const before = frictionFactor({ reynolds: reynolds - 0.001, roughnessRatio: 0.002 }).factor;
      expectWithinShare(frictionFactor({ reynolds, roughnessRatio: 0.002 }).factor, before, 1e-5);
    }
  });

  it('satisfies Colebrook’s equation, grows with roughness, and lies within 3 % of Swamee and Jain', () => {
    const reynolds = fc.double({ min: 5000, max: 1e8, noNaN: true });
    const ratio = fc.double({ min: 1e-6, max: 0.049, noNaN: true });
    fc.assert(
      fc.property(reynolds, ratio, (re, roughnessRatio) => {
        const { factor } = frictionFactor({ reynolds: re, roughnessRatio });
        const root = Math.sqrt(factor);
        expectWithin(1 / root, -2 * Math.log10(roughnessRatio / 3.7 + 2.51 / (re * root)), 1e-9);
        expect(frictionFactor({ reynolds: re, roughnessRatio: roughnessRatio + 0.001 }).factor).toBeGreaterThan(factor);
        expectWithinShare(swameeJainFactor({ reynolds: re, roughnessRatio }), factor, 0.035);
      }),
    );
  });

  it.each([
    [{ reynolds: Number.NaN, roughnessRatio: 0 }, 'Reynolds number: NaN'],
    [{ reynolds: -1, roughnessRatio: 0 }, 'Reynolds number: -1'],
    [{ reynolds: 1e9, roughnessRatio: 0 }, 'Reynolds number: 1000000000'],
    [{ reynolds: 1e5, roughnessRatio: 0.06 }, 'roughness over diameter: 0.06'],
  ])('refuses %j', (wrong, message) => {
    expect(() => frictionFactor(wrong)).toThrow(message);
    expect(() => swameeJainFactor(wrong)).toThrow(message);
  });

  it('is refused by Swamee and Jain below Re 5,000 and for a perfectly smooth pipe', () => {
    expect(() => swameeJainFactor({ reynolds: 4999, roughnessRatio: 0.001 })).toThrow('Reynolds number: 4999');
    expect(() => swameeJainFactor({ reynolds: 1e5, roughnessRatio: 0 })).toThrow('roughness over diameter: 0');
  });
});
