import { describe, expect, it } from '@jest/globals';
import { unionisedAmmoniaTable } from '../../../src/core/water/ammonia-table.js';
import ifasFa16 from '../../published/ifas-fa16-unionised-ammonia.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const table = unionisedAmmoniaTable();

function shareAt(ph: number, temperatureC: number): number {
  const row = table.rows.find((one) => one.ph === ph)!;
  return row.shares[table.temperaturesC.indexOf(temperatureC)]!;
}

describe('table of un-ionised ammonia', () => {
  it('has every cell IFAS FA-16 prints from 6 to 30 °C, and agrees with it', () => {
    expect(ifasFa16.rows).toHaveLength(115);
    for (const row of ifasFa16.rows) {
      expectWithin(shareAt(row.ph, row.temperatureC), row.unionisedAmmoniaShare, 0.0001);
    }
  });

  it.each([
    [7.0, 0.0091],
    [7.2, 0.0144],
    [7.4, 0.0226],
    [7.6, 0.0353],
    [7.8, 0.0548],
    [8.0, 0.0842],
    [8.2, 0.1272],
    [8.4, 0.1877],
  ])('keeps at 32 °C and pH %d a share of %d, where the reprint is wrong (derived)', (ph, share) => {
    expectWithin(shareAt(ph, 32), share, 0.0001);
  });

  it('keeps 0.0098 at pH 7.4 and 20 °C, where the reprint is wrong (derived)', () => {
    expectWithin(shareAt(7.4, 20), 0.0098, 0.0001);
  });

  it('rises along every row and down every column', () => {
    for (const { shares } of table.rows) expect([...shares].sort((a, b) => a - b)).toEqual(shares);
    for (let column = 0; column < table.temperaturesC.length; column++) {
      const down = table.rows.map(({ shares }) => shares[column]!);
      expect([...down].sort((a, b) => a - b)).toEqual(down);
    }
  });
});
