import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { Quantity } from '../../../src/core/care/care-plan.js';
import { chemicalDoses, doseFor, MOST_TIMES_PLANNED } from '../../../src/web/technician/chemical-dose.js';
import { type ClosingAbout, type ClosingCard, closingFromForm } from '../../../src/web/technician/closing-form.js';
import { fenced, needsPowerOff } from '../../../src/web/technician/power-fence.js';
import { readingFields } from '../../../src/web/technician/reading-fields.js';
import { shippedRules } from '../../support/shipped-rules.js';

const DOSE: Quantity = {
  recipe: 'dechlorinator-for-change',
  of: 'dechlorinator',
  productName: 'Sodium thiosulfate',
  amount: 65,
  unit: 'g',
  per: 'once',
  computed: 61.6,
  roundedTo: 'up',
  basis: { of: 'new-water', amount: 2_000, unit: 'L' },
  formula: '',
  source: '',
  remarks: [],
};
const [dose] = chemicalDoses([DOSE], 'metric');
const CLOSING_ID = '0192f0a0-0000-7000-8000-000000000001';

describe('work with the power off', () => {
  it('is known by its caution and its steps, for the rules that ship', () => {
    const rules = shippedRules()
      .filter(needsPowerOff)
      .map(({ id }) => id);
    // The bill of rules grows: these must be fenced, and work that needs the power must not be.
    for (const id of ['residual-current-test', 'uv-season-on', 'filter-restart', 'part-water-change']) {
      expect(rules).not.toContain(id);
    }
    for (const id of [
      'aerator-diaphragm',
      'aerator-inlet-filter',
      'biological-media-rinse',
      'filter-media-rinse',
      'pump-clean',
      'skimmer-basket',
      'spring-start-up',
      'uv-lamp-replacement',
      'uv-season-off',
      'uv-sleeve-clean',
      'winter-intake-lower',
      'winter-pump-raise',
      'winter-pump-shutdown',
    ]) {
      expect(rules).toContain(id);
    }
  });

  it('lies between two ticks of its own wherever other work parts it', () => {
    const [on, off] = [{ needsPowerOff: false }, { needsPowerOff: true }];
    const groups = fenced([on, off, off, on, off]);
    expect(groups.map(({ fence, cards }) => [fence, cards.length])).toEqual([
      [null, 1],
      [0, 2],
      [null, 1],
      [1, 1],
    ]);
  });

  const card: ClosingCard = {
    ...{ taskId: 't', title: 'Clean the pump', actuals: [], chemicals: [], serialOf: null, parts: [] },
    needsPowerOff: true,
  };

  it('is closed only with both ticks, and needs none when it was not done', () => {
    const faults = (typed: Record<string, string>) => {
      const read = closingFromForm({ closingId: CLOSING_ID, note: 'x', ...typed }, about([card]));
      return 'faults' in read ? Object.keys(read.faults) : [];
    };
    expect(faults({})).toEqual([]);
    expect(faults({ 'task:t:done': 'on' })).toEqual(['power:0:off', 'power:0:on']);
    expect(faults({ 'task:t:share': '0.5', 'power:0:off': 'on' })).toEqual(['power:0:on']);
    expect(faults({ 'task:t:done': 'on', 'power:0:off': 'on', 'power:0:on': 'on' })).toEqual([]);
  });
});

describe('a product that is measured out', () => {
  it('shows the planned dose for the planned water, as typed with three figures', () => {
    expect(dose).toMatchObject({
      product: 'Sodium thiosulfate',
      unit: 'L',
      plannedVolume: '2,000',
      plannedDose: '65 g',
    });
    expect(doseFor(dose as never, 2_004, 'metric')).toEqual({ words: '65 g', amountG: 65 });
  });

  it('never shows less than in proportion, and at most a tenth more', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.3, max: MOST_TIMES_PLANNED, noNaN: true }), (times) => {
        const { amountG } = doseFor(dose as never, 2_000 * times, 'metric') as { amountG: number };
        if (Math.abs(times - 1) < 0.005) return;
        expect(amountG).toBeGreaterThanOrEqual(61.6 * times - 1e-6);
        expect(amountG).toBeLessThanOrEqual(61.6 * times * 1.1 + 1e-6);
      }),
    );
  });

  it.each([0, -5, 20_001, Number.NaN])('shows no dose for %d L', (volumeL) => {
    expect(doseFor(dose as never, volumeL, 'metric')).toBeNull();
  });

  const card: ClosingCard = {
    ...{ taskId: 't', title: 'Change water', actuals: [], serialOf: null, parts: [], needsPowerOff: false },
    chemicals: dose ? [dose] : [],
  };
  const doses = (typed: Record<string, string>) => {
    const read = closingFromForm({ closingId: CLOSING_ID, 'task:t:done': 'on', ...typed }, about([card]));
    return 'closing' in read ? read.closing.tasks[0]?.doses : Object.keys(read.faults);
  };

  it('is kept with its water, lot and amount; left as planned, the dose is what went in', () => {
    expect(doses({})).toEqual([{ product: 'Sodium thiosulfate', amountG: 65, lot: '', waterL: 2_000 }]);
    expect(doses({ 'task:t:volume:0': '1000', 'task:t:lot:0': 'A-12' })).toEqual([
      { product: 'Sodium thiosulfate', amountG: 31, lot: 'A-12', waterL: 1_000 },
    ]);
    expect(doses({ 'task:t:amount:0': '70' })).toEqual([
      { product: 'Sodium thiosulfate', amountG: 70, lot: '', waterL: 2_000 },
    ]);
    expect(doses({ 'task:t:volume:0': '0' })).toEqual([]);
  });

  it('is refused for more water than can be meant, and for what is no amount', () => {
    expect(doses({ 'task:t:volume:0': '200000' })).toEqual(['task:t:volume:0']);
    expect(doses({ 'task:t:amount:0': '-1' })).toEqual(['task:t:amount:0']);
    expect(doses({ 'task:t:amount:0': 'much' })).toEqual(['task:t:amount:0']);
  });
});

describe('parts, follow-ups and times of a closing', () => {
  const read = (typed: Record<string, string>) => {
    const result = closingFromForm({ closingId: CLOSING_ID, ...typed }, about([]));
    if ('faults' in result) throw new Error(JSON.stringify(result.faults));
    return result.closing;
  };

  it('are kept as typed', () => {
    const closing = read({
      'part:0:name': 'O-ring',
      'part:0:amount': '2',
      followUp: 'Skimmer door is cracked.',
      arrivedAt: '2026-10-05T11:00:00Z',
      'reading:ph': '7.4',
      'taken:ph': '2026-10-05T11:30:00Z',
    });
    expect(closing.parts).toMatchObject([{ name: 'O-ring', amount: 2, unit: 'piece' }]);
    expect(closing.followUps).toMatchObject([{ what: 'Skimmer door is cracked.' }]);
    expect(closing).toMatchObject({ arrivedAt: '2026-10-05T11:00:00Z', leftAt: '2026-10-05T12:00:00Z' });
    expect(closing.readings[0]?.takenAt).toBe('2026-10-05T11:30:00Z');
  });

  it('take no time from what is none', () => {
    const closing = read({ note: 'x', arrivedAt: 'soon', 'reading:ph': '7.4', 'taken:ph': '7' });
    expect(closing).toMatchObject({ arrivedAt: null, leftAt: null });
    expect(closing.readings[0]?.takenAt).toBe('2026-10-05T12:00:00Z');
  });
});

function about(cards: readonly ClosingCard[]): ClosingAbout {
  return {
    cards,
    fields: readingFields('metric'),
    now: '2026-10-05T12:00:00Z',
    units: 'metric',
    plannedOn: '2026-10-05',
    idOf: (thing) => thing,
  };
}
