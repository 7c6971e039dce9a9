import { describe, expect, it } from '@jest/globals';
import { formUnit, readNumber, shownInField } from '../../../src/web/office/ponds/form/form-units.js';

describe('readNumber', () => {
  it.each([
    ['2,310', 2310],
    ['1,234,567.5', 1234567.5],
    ['1.8', 1.8],
    ['1,8', 1.8],
    ['2 310', 2310],
    ['-89.40', -89.4],
    ['−3', -3],
    ['.5', 0.5],
  ])('reads %s as %s', (typed, number) => {
    expect(readNumber(typed)).toBe(number);
  });

  it('tells an empty field from one that is no number', () => {
    expect(readNumber('  ')).toBeNull();
    expect(readNumber(undefined)).toBeNull();
    expect(readNumber('12 ft')).toBeNaN();
    expect(readNumber('1e999')).toBeNaN();
    expect(readNumber('1,2,3')).toBeNaN();
  });
});

describe('formUnit', () => {
  it('stores feet as metres and US gallons as litres', () => {
    expect(formUnit('length', 'us').stored(10)).toBeCloseTo(3.048, 9);
    expect(formUnit('volume', 'us').stored(100)).toBeCloseTo(378.5411784, 6);
    expect(formUnit('fish-length', 'us').stored(20)).toBeCloseTo(50.8, 9);
  });

  it('leaves metric figures as they are, and shares as per cent', () => {
    expect(formUnit('volume', 'metric').stored(2310)).toBe(2310);
    expect(formUnit('percent', 'metric').stored(6)).toBeCloseTo(0.06, 9);
    expect(shownInField(0.06, 'percent', 'us')).toBe('6');
  });
});
