import { describe, expect, it } from '@jest/globals';
import { doneBy } from '../../../src/core/care/agreement.js';
import { civilDay } from '../../../src/core/units/civil-day.js';
import { aPond } from '../../support/a-pond.js';
import { shippedRule, shippedRules } from '../../support/shipped-rules.js';

const rule = (id: string) => {
  const found = shippedRules().find((candidate) => candidate.id === id);
  if (!found) throw new Error(id);
  return found;
};
const TODAY = civilDay('2026-07-01');

describe('doneBy', () => {
  it('follows the company default where nothing was agreed', () => {
    expect(doneBy(rule('part-water-change'), aPond(), TODAY, 'company')).toBe('technician');
    expect(doneBy(rule('part-water-change'), aPond(), TODAY, 'homeowner')).toBe('homeowner');
  });

  it('follows the agreement from its first to its last day', () => {
    const agreement = [
      { ruleId: 'part-water-change', doneBy: 'homeowner', from: civilDay('2026-07-01'), until: civilDay('2026-07-31') },
    ] as const;
    const on = (day: string) => doneBy(rule('part-water-change'), aPond({ agreement }), civilDay(day), 'company');
    expect(['2026-06-30', '2026-07-01', '2026-07-31', '2026-08-01'].map(on)).toEqual([
      'technician',
      'homeowner',
      'homeowner',
      'technician',
    ]);
  });

  it('lets the later of two agreements rule', () => {
    const agreement = [
      { ruleId: 'part-water-change', doneBy: 'company', from: civilDay('2026-05-01'), until: null },
      { ruleId: 'part-water-change', doneBy: 'homeowner', from: null, until: null },
    ] as const;
    expect(doneBy(rule('part-water-change'), aPond({ agreement }), TODAY, 'homeowner')).toBe('technician');
  });

  it('never gives a homeowner work on lamps, mains wiring or lines, whatever was agreed', () => {
    for (const candidate of shippedRules().filter((one) => one.neverHomeowner || one.audience === 'technician')) {
      const agreement = [{ ruleId: candidate.id, doneBy: 'homeowner', from: null, until: null }] as const;
      expect(doneBy(candidate, aPond({ agreement }), TODAY, 'homeowner')).toBe('technician');
    }
  });

  it('never gives a homeowner what its cautions name as dangerous, or what takes two people, though the rule forgot to say so', () => {
    const plain = { ...shippedRule('barrier-check'), audience: 'homeowner', neverHomeowner: false } as const;
    expect(doneBy(plain, aPond(), TODAY, 'homeowner')).toBe('homeowner');
    for (const caution of ['uv-light', 'vault', 'pesticide', 'mercury-lamp']) {
      expect(doneBy({ ...plain, cautions: [caution] }, aPond(), TODAY, 'homeowner')).toBe('technician');
    }
    expect(doneBy({ ...plain, people: 2 }, aPond(), TODAY, 'homeowner')).toBe('technician');
  });

  it('has two people wherever fish are handled', () => {
    const handling = shippedRules().filter(({ skills }) => skills.includes('fish handling'));
    expect(handling.map(({ id, people }) => [id, people])).toEqual([['full-clean-out', 2]]);
  });
});
