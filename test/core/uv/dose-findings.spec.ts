import { describe, expect, it } from '@jest/globals';
import { seenAtDose, UV_FINDINGS } from '../../../src/core/uv/dose-findings.js';
import papers from '../../published/uv-dose-abstracts.json' with { type: 'json' };

describe('what has been seen at a dose', () => {
  it('is what the abstracts say', () => {
    const ours = UV_FINDINGS.map(({ target, fromMjPerCm2, toMjPerCm2, isSeen }) => ({
      target,
      fromMjPerCm2,
      toMjPerCm2,
      isSeen,
    }));
    const theirs = papers.rows.map(({ target, fromMjPerCm2, toMjPerCm2, isSeen }) => ({
      target,
      fromMjPerCm2,
      toMjPerCm2,
      isSeen,
    }));
    expect(ours.sort((a, b) => (a.target < b.target ? -1 : 1))).toEqual(
      theirs.sort((a, b) => (a.target < b.target ? -1 : 1)),
    );
    for (const { paper } of papers.rows) {
      expect(UV_FINDINGS.some(({ source }) => source.startsWith(paper))).toBe(true);
    }
  });

  it.each([
    [6.5, []],
    [13.1, ['fish-bacteria-clear']],
    [20, ['fish-bacteria-clear', 'blue-green-algae']],
    [500, ['fish-bacteria-clear', 'blue-green-algae', 'green-algae-inhibited']],
  ])('of %d mJ/cm² are %j, and never that green algae are suppressed', (dose, targets) => {
    expect(seenAtDose(dose).map(({ target }) => target)).toEqual(targets);
  });

  it('is refused for a dose that is none', () => {
    expect(() => seenAtDose(-1)).toThrow('UV dose, mJ/cm²: -1');
  });
});
