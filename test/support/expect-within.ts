import { expect } from '@jest/globals';

/** Fails unless `actual` lies within an absolute tolerance of `expected`, both ends included. */
export function expectWithin(actual: number, expected: number, tolerance: number): void {
  // The last bit of the subtraction must not turn a figure at the very edge into a failure.
  const edge = tolerance + 1e-12 * Math.max(1, Math.abs(expected));
  if (!(Math.abs(actual - expected) <= edge)) {
    expect({ actual, tolerance }).toEqual({ actual: expected, tolerance });
  }
}

/** The same with a tolerance as a share of `expected`. */
export function expectWithinShare(actual: number, expected: number, share: number): void {
  expectWithin(actual, expected, Math.abs(expected) * share);
}
