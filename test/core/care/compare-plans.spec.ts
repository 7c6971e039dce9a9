import { describe, expect, it } from '@jest/globals';
import { comparePlans } from '../../../src/core/care/compare-plans.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import type { PondFacts } from '../../../src/core/care/pond-facts.js';
import { projectOccurrences } from '../../../src/core/care/project-occurrences.js';
import { civilDay } from '../../../src/core/units/civil-day.js';
import { aPlanInput, aPond } from '../../support/a-pond.js';
import { shippedRules } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const TODAY = civilDay('2026-03-01');

function yearOf(changes: Partial<PondFacts> = {}, warmerC = 0) {
  const forecast = sinusoidForecast({
    meanC: 12 + warmerC,
    amplitudeC: 12,
    warmestDayOfYear: 205,
    firstDay: TODAY,
    spreadDays: 10,
  });
  const input = aPlanInput({ pond: aPond(changes), forecast, rules: shippedRules(), today: TODAY });
  const plan = planCareCalendar(input);
  return { plan, later: projectOccurrences(input, plan) };
}

const few = [{ species: 'koi', count: 6, lengthCm: 40 }] as const;
const many = [{ species: 'koi', count: 14, lengthCm: 40 }] as const;

describe('comparePlans', () => {
  it('finds nothing between a year and itself', () => {
    expect(comparePlans(yearOf(), yearOf())).toEqual([]);
  });

  it('has more fish ask for the filter to be rinsed more often, and for more food', () => {
    const differences = comparePlans(yearOf({ stock: few }), yearOf({ stock: many }));
    const rinse = differences.find(({ ruleId }) => ruleId === 'filter-media-rinse');
    expect(rinse?.kind).toBe('more-often');
    expect(rinse?.timesAfter).toBeGreaterThan(rinse?.timesBefore ?? Number.POSITIVE_INFINITY);
    expect(differences.find(({ ruleId }) => ruleId === 'feed-by-water-temperature')?.kind).toBe('other-amount');
  });

  it('has warmer water feed earlier in spring and stop later in autumn', () => {
    const differences = comparePlans(yearOf(), yearOf({}, 2));
    const movedDays = (ruleId: string) => differences.find((one) => one.ruleId === ruleId)?.movedDays;
    expect(movedDays('feed-light-in-spring')).toBeLessThan(0);
    expect(movedDays('feed-stop')).toBeGreaterThan(0);
  });

  it('says why a rule gives no task any more, and turns the question round', () => {
    const there = comparePlans(yearOf(), yearOf({ treesNear: false }));
    const gone = there.find(({ ruleId }) => ruleId === 'leaf-net-on');
    expect(gone).toMatchObject({ kind: 'gone', after: null, timesAfter: 0, notDue: { because: 'no-trees' } });
    const back = comparePlans(yearOf({ treesNear: false }), yearOf());
    expect(back.find(({ ruleId }) => ruleId === 'leaf-net-on')).toMatchObject({ kind: 'new', before: null });
    expect(back.map(({ ruleId }) => ruleId).sort()).toEqual(there.map(({ ruleId }) => ruleId).sort());
  });

  it('does not move what is due already on both sides', () => {
    for (const { before, after, movedDays } of comparePlans(yearOf(), yearOf({}, 1))) {
      if (before && after && before.window.due <= TODAY && after.window.due <= TODAY) expect(movedDays).toBe(0);
    }
    const [early, late] = [yearOf(), yearOf({}, 1)];
    expect(comparePlans(early, late).some(({ movedDays }) => (movedDays ?? 0) !== 0)).toBe(true);
  });
});
