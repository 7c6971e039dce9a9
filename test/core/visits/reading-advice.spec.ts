import { describe, expect, it } from '@jest/globals';
import { readingAdvice } from '../../../src/core/visits/reading-advice.js';
import { readingVerdict } from '../../../src/core/water/reading-verdict.js';

const POND = { volumeL: 8000, tapChlorineMgPerL: 4, productMgPerMgChlorine: 7 };

function adviceFor(reading: Parameters<typeof readingVerdict>[0]) {
  return readingAdvice(reading.quantity, readingVerdict(reading), POND);
}

describe('readingAdvice', () => {
  it('asks nothing for a reading in order', () => {
    expect(adviceFor({ quantity: 'nitrite', value: 0.05 })).toEqual({ actions: [], change: null });
  });

  it('sizes the change and the dechlorinator for this pond', () => {
    const { actions, change } = adviceFor({ quantity: 'total-ammonia', value: 2, temperatureC: 20, ph: 8.2 });
    expect(actions).toContain('change-water');
    // 8,000 L x 25 % = 2,000 L; 2,000 L x 4 mg/L x 7 mg/mg = 56 g, and a tenth more (derived).
    expect(change).toEqual({ share: 0.25, waterL: 2000, doseG: expect.closeTo(61.6, 6) });
  });

  it('puts air first in an emergency and feed before water', () => {
    const { actions } = adviceFor({ quantity: 'nitrite', value: 1.2 });
    expect(actions.slice(0, 3)).toEqual(['aerate', 'stop-feed', 'change-water']);
  });

  it.each(['total-ammonia', 'nitrite'] as const)('never tells anybody to raise pH while %s is high', (quantity) => {
    expect(adviceFor({ quantity, value: 5, temperatureC: 25, ph: 8.8 }).actions).toContain('leave-ph-alone');
  });

  it('tells cold water from hot', () => {
    expect(adviceFor({ quantity: 'water-temperature', value: 3 }).actions).toContain('leave-deep-water');
    expect(adviceFor({ quantity: 'water-temperature', value: 31 }).actions).toContain('aerate');
  });

  // Common practice: every reading that is out of order has something to do about it.
  it.each([
    ['water-temperature', 3],
    ['water-temperature', 28],
    ['water-temperature', 30],
    ['water-temperature', 33],
    ['ph', 6.4],
    ['ph', 6.8],
    ['ph', 8.6],
    ['ph', 9.2],
    ['total-ammonia', 1.1],
    ['total-ammonia', 3.1],
    ['unionised-ammonia', 0.2],
    ['nitrite', 0.1],
    ['nitrite', 0.3],
    ['nitrite', 1],
    ['nitrate', 10],
    ['nitrate', 19],
    ['alkalinity', 45],
    ['alkalinity', 75],
    ['dissolved-oxygen', 5.5],
    ['dissolved-oxygen', 4.5],
    ['dissolved-oxygen', 3],
    ['total-chlorine', 0.03],
    ['total-chlorine', 0.2],
  ] as const)('has an answer to %s of %d', (quantity, value) => {
    expect(adviceFor({ quantity, value }).actions.length).toBeGreaterThan(0);
  });
});
