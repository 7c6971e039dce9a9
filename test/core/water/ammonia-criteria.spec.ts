import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { OutOfRangeError } from '../../../src/core/errors.js';
import { ammoniaCriteria } from '../../../src/core/water/ammonia-criteria.js';
import epa from '../../published/epa-2013-ammonia-criteria.json' with { type: 'json' };
import summary from '../../published/epa-2013-ammonia-summary.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const PHS = [6.5, 7, 7.5, 8, 8.5, 9];
const twoDigits = (value: number) => Number(value.toPrecision(2));

describe('ammonia a natural water may carry', () => {
  it.each(epa.rows)('agrees with the EPA: $id, $criterion at $temperatureC °C', (row) => {
    const computed = PHS.map((ph) => {
      const criteria = ammoniaCriteria({ temperatureC: row.temperatureC, ph });
      return twoDigits(row.criterion === 'acute' ? criteria.acuteMgNPerL : criteria.chronicMgNPerL);
    });
    expect(computed).toEqual(row.mgNPerL);
  });

  it.each(summary.rows)('is as the notice sums it up at pH $ph and $temperatureC °C', (row) => {
    const criteria = ammoniaCriteria(row);
    expect(twoDigits(criteria.acuteMgNPerL)).toBe(row.acuteMgNPerL);
    expect(twoDigits(criteria.chronicMgNPerL)).toBe(row.chronicMgNPerL);
    expectWithin(criteria.fourDayMgNPerL / criteria.chronicMgNPerL, row.fourDayFactor, 1e-12);
  });

  it('falls with pH and never rises with temperature, the chronic below the acute', () => {
    const ph = fc.double({ min: 6.5, max: 8.9, noNaN: true });
    fc.assert(
      fc.property(ph, fc.double({ min: 0, max: 29, noNaN: true }), (phHere, temperatureC) => {
        const here = ammoniaCriteria({ temperatureC, ph: phHere });
        const higher = ammoniaCriteria({ temperatureC, ph: phHere + 0.1 });
        const warmer = ammoniaCriteria({ temperatureC: temperatureC + 1, ph: phHere });
        for (const which of ['acuteMgNPerL', 'chronicMgNPerL'] as const) {
          expect(higher[which]).toBeLessThan(here[which]);
          expect(warmer[which]).toBeLessThanOrEqual(here[which]);
        }
        expect(here.chronicMgNPerL).toBeLessThan(here.acuteMgNPerL);
      }),
    );
  });

  it.each([
    [{ temperatureC: 31, ph: 8 }, 'water temperature, °C: 31, outside 0 to 30.'],
    [{ temperatureC: 20, ph: 9.1 }, 'pH: 9.1, outside 6.5 to 9.'],
    [{ temperatureC: 20, ph: Number.NaN }, 'pH: NaN'],
  ])('refuses %j', (sample, message) => {
    expect(() => ammoniaCriteria(sample)).toThrow(message);
    expect(() => ammoniaCriteria(sample)).toThrow(OutOfRangeError);
  });
});
