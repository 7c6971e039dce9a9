import { describe, expect, it } from '@jest/globals';
import { summaryOf } from '../../../src/bench/rounds/set-table.js';
import { checkRoutes } from '../../../src/bench/rounds/vrptw-check.js';
import { problemOf } from '../../../src/bench/rounds/vrptw-problem.js';
import { readVrptw } from '../../../src/bench/rounds/vrptw-text.js';
import { InvalidValueError } from '../../../src/core/errors.js';

const TEXT = `TINY\r
\r
VEHICLE\r
NUMBER     CAPACITY\r
  2         10\r
\r
CUSTOMER\r
CUST NO.  XCOORD.  YCOORD.  DEMAND  READY TIME  DUE DATE  SERVICE TIME\r
    0      0         0        0       0         100        0\r
    1      1         1        6       0          10        5\r
    2      2         2        5       20         30        5\r
`;

describe('an instance in the text format of Solomon', () => {
  const tiny = readVrptw(TEXT);

  it('is read whatever its line ends', () => {
    expect(readVrptw(TEXT.replaceAll('\r', ''))).toEqual(tiny);
    expect(tiny).toMatchObject({ name: 'TINY', vehicles: 2, capacity: 10 });
    expect(tiny.customers[2]).toEqual({ number: 2, x: 2, y: 2, demand: 5, ready: 20, due: 30, service: 5 });
    expect(() => readVrptw('nothing of the kind')).toThrow(InvalidValueError);
  });

  it('has its distances cut to tenths in one convention and whole in the other', () => {
    expect(problemOf(tiny, 'trunc1').travel[1]).toBe(14);
    expect(problemOf(tiny, 'double').travel[1]).toBeCloseTo(Math.SQRT2, 12);
  });

  it('is driven again by the check', () => {
    expect(checkRoutes(tiny, [[1], [2]], 'trunc1')).toEqual({ distance: 8.4, faults: [] });
    expect(checkRoutes(tiny, [[1, 2]], 'trunc1').faults).toEqual(['load 11 of 10']);
    expect(checkRoutes(tiny, [[1], [1]], 'trunc1').faults).toEqual(['customer 1 twice', 'customer 2 left out']);
    expect(checkRoutes(tiny, [[2, 1]], 'trunc1').faults[0]).toMatch(/^customer 1 late by 16\.4/);
    expect(checkRoutes(tiny, [[1], [2], []], 'trunc1').faults).toEqual(['3 vehicles of 2']);
  });

  it('is summed up by the median of its seeds, then mean and worst', () => {
    const runs = [101, 102, 110, 100, 100, 103].map((distance, i) => ({
      ...{ instance: i < 3 ? 'A' : 'B', convention: 'trunc1' as const, seconds: 1, vehicles: 1 },
      ...{ distance, feasible: true, optimum: 100, budgetSeconds: 1 },
    }));
    expect(summaryOf(runs)).toEqual([{ seconds: 1, meanGap: 1, worstGap: 2, infeasible: 0 }]);
  });
});
