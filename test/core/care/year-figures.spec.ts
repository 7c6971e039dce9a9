import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import { planningContext } from '../../../src/core/care/planning-context.js';
import type { PondFacts } from '../../../src/core/care/pond-facts.js';
import { projectOccurrences } from '../../../src/core/care/project-occurrences.js';
import { yearFigures } from '../../../src/core/care/year-figures.js';
import { civilDay, monthOf } from '../../../src/core/units/civil-day.js';
import { aMachine, aPlanInput, aPond } from '../../support/a-pond.js';
import { shippedRule } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const TODAY = civilDay('2026-03-01');
const RULES = ['filter-media-rinse', 'residual-current-test', 'feed-by-water-temperature'].map(shippedRule);

function figuresOf(changes: Partial<PondFacts>, meanC = 12) {
  const forecast = sinusoidForecast({ meanC, amplitudeC: 12, warmestDayOfYear: 205, firstDay: TODAY });
  const input = aPlanInput({ pond: aPond(changes), forecast, rules: RULES, today: TODAY });
  const plan = planCareCalendar(input);
  return yearFigures(planningContext(input), { plan, later: projectOccurrences(input, plan) });
}

const koi = (count: number) => [{ species: 'koi', count, lengthCm: 40 }] as const;

describe('yearFigures', () => {
  it('doubles food and ammonia with the fish, and leaves the filter and the water', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 8 }), (count) => {
        const [one, two] = [figuresOf({ stock: koi(count) }), figuresOf({ stock: koi(2 * count) })];
        expect(two.feedG / one.feedG).toBeCloseTo(2, 9);
        expect((two.ammonia?.loadGNPerDay ?? 0) / (one.ammonia?.loadGNPerDay ?? 1)).toBeCloseTo(2, 9);
        expect(two.ammonia?.capacityGNPerDay).toBe(one.ammonia?.capacityGNPerDay);
        expect([two.julyC, two.januaryC, two.iceDays]).toEqual([one.julyC, one.januaryC, one.iceDays]);
        expect(two.dawn?.oxygen.range.likelyMgPerL).toBeLessThan(one.dawn?.oxygen.range.likelyMgPerL ?? 0);
      }),
      { numRuns: 8 },
    );
  });

  it('reads July and January off the median: 24 °C at the height of a cosine of 12 ± 12', () => {
    const { julyC, januaryC, dawn } = figuresOf({});
    // Mean of 12 + 12 cos(2π (d - 205)/365) over July, days 182 to 212, and over January.
    expect(julyC).toBeCloseTo(23.75, 1);
    expect(januaryC).toBeCloseTo(0.2, 1);
    expect(monthOf(dawn?.on ?? TODAY)).toBe(7);
  });

  it('counts the turnover of all circuits, with koi asking for one volume an hour', () => {
    const pump = (flowLPerH: number) => aMachine('pump', { flowLPerH });
    const { turnover } = figuresOf({ volumeL: 10_000, equipment: [pump(4000), { ...pump(3000), id: 'second' }] });
    expect(turnover).toEqual({ perHour: 0.7, neededPerHour: 1 });
    expect(figuresOf({ equipment: [] }).turnover).toBeNull();
  });

  it('knows nothing of filter, stock or dawn where there is none', () => {
    const empty = figuresOf({ stock: [] });
    expect([empty.feedG, empty.ammonia, empty.stocking, empty.dawn]).toEqual([0, null, null, null]);
    expect(figuresOf({ stock: koi(5), equipment: [] }).ammonia?.capacityGNPerDay).toBeNull();
  });
});
