import { describe, expect, it } from '@jest/globals';
import type { LeakVerdict, LeakVerdictKind } from '../../../src/core/water-loss/leak-finder.js';
import type { PlannedTest } from '../../../src/core/water-loss/measuring-time.js';
import { leakNextStep } from '../../../src/core/water-loss/next-step.js';

const verdictOf = (verdict: LeakVerdictKind, own: Partial<LeakVerdict> = {}): LeakVerdict => ({
  verdict,
  leakProbability: 0.5,
  unexplainedMmPerDay: 4,
  sigmaMmPerDay: 1.5,
  unexplainedLPerDay: 40,
  sigmaLPerDay: 15,
  days: 2,
  lostMm: 12,
  reckonedMm: 4,
  leastProvableMmPerDay: 4.5,
  stoppedAtMm: null,
  ...own,
});
const COOL: PlannedTest = { reference: 'climate', evaporationMmPerDay: 2, hasWaterfall: true };
const HOT: PlannedTest = { ...COOL, evaporationMmPerDay: 7 };
const next = (
  verdict: LeakVerdict,
  own: { pumps?: 'on' | 'off'; other?: LeakVerdictKind | null; planned?: PlannedTest } = {},
) => leakNextStep({ verdict, pumps: 'on', other: null, planned: COOL, ...own });

describe('next step after a leak test (common practice)', () => {
  it('is a test the other way round, then the search where both point', () => {
    expect(next(verdictOf('leak'))).toMatchObject({ kind: 'repeat', pumps: 'off' });
    expect(next(verdictOf('leak'), { other: 'tight' })).toEqual({ kind: 'search-pumped' });
    expect(next(verdictOf('leak'), { other: 'leak' })).toEqual({ kind: 'search-basin' });
    expect(next(verdictOf('leak'), { pumps: 'off' })).toEqual({ kind: 'search-basin' });
    expect(next(verdictOf('tight'), { pumps: 'off', other: 'leak' })).toEqual({ kind: 'search-pumped' });
  });

  it('is the height at which the fall stopped, where it did', () => {
    expect(next(verdictOf('leak', { stoppedAtMm: 60 }))).toEqual({ kind: 'search-height', belowMarkMm: 60 });
  });

  it('is to go on while that settles it, else a bucket, else another month', () => {
    const goOn = next(verdictOf('undecided'));
    expect(goOn.kind).toBe('go-on');
    expect((goOn as { days: number }).days).toBeGreaterThan(2);
    expect(next(verdictOf('undecided'), { planned: HOT })).toMatchObject({ kind: 'stand-a-bucket' });
    const near = verdictOf('undecided', { unexplainedMmPerDay: 2.05 });
    expect(next(near, { planned: { ...HOT, reference: 'bucket' } })).toEqual({ kind: 'repeat-later' });
  });

  it('is to shut the inlet when water came in, and nothing for a tight pond', () => {
    expect(next(verdictOf('came-in'))).toEqual({ kind: 'shut-the-inlet' });
    expect(next(verdictOf('tight'))).toEqual({ kind: 'nothing' });
    expect(next(verdictOf('tight'), { pumps: 'off', other: 'tight' })).toEqual({ kind: 'nothing' });
  });
});
