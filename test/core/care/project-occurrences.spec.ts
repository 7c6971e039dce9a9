import { describe, expect, it } from '@jest/globals';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import { projectOccurrences } from '../../../src/core/care/project-occurrences.js';
import { addDays, civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import { aPlanInput } from '../../support/a-pond.js';
import { shippedRule } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const TODAY = civilDay('2026-03-01');
const WATER = { meanC: 12, amplitudeC: 12, warmestDayOfYear: 205 };

function projected(...ids: readonly string[]) {
  const forecast = sinusoidForecast({ ...WATER, firstDay: TODAY, spreadDays: 10 });
  const input = aPlanInput({ forecast, rules: ids.map(shippedRule), careSince: TODAY });
  const plan = planCareCalendar(input);
  return { input, plan, later: projectOccurrences(input, plan) };
}

describe('projectOccurrences', () => {
  it('repeats an interval up to the horizon, as if each were done on its day', () => {
    const { plan, later } = projected('residual-current-test');
    expect(plan.tasks.map(({ window }) => isoDateOf(window.due))).toEqual(['2026-03-31']);
    expect(later.map(({ due, cycle }) => [cycle, due - TODAY])).toEqual(
      Array.from({ length: 11 }, (_, index) => [String(index + 2), 30 * (index + 2)]),
    );
  });

  it('knows each later one less well: likely by the root of their number, possible by their number', () => {
    const { later } = projected('residual-current-test');
    const [second, , fourth] = later;
    // The window is 7 days either way; the second comes after 2 windows, the fourth after 4.
    expect(second && [second.due - second.possible.from, second.due - second.likely.from]).toEqual([14, 10]);
    expect(fourth && [fourth.due - fourth.possible.from, fourth.due - fourth.likely.from]).toEqual([28, 14]);
  });

  it('counts season and load on: a rinse comes more often while the fish are fed well, and never in the cold', () => {
    const { later, input } = projected('filter-media-rinse');
    const months = later.map(({ due }) => isoDateOf(due).slice(0, 7));
    expect(months.filter((month) => month === '2026-07').length).toBeGreaterThan(
      months.filter((month) => month === '2026-04').length,
    );
    const cold = later.filter(({ due }) => (input.forecast.median7dMeanC[due - input.forecast.firstDay] ?? 0) < 7);
    expect(cold).toEqual([]);
  });

  it('has the work that follows other work, and not what stands in the plan already', () => {
    const { plan, later } = projected('leaf-net-on', 'leaf-net-off');
    const [netOn] = plan.tasks;
    expect(later.map(({ ruleId }) => ruleId)).toEqual(['leaf-net-off']);
    expect(later[0]?.due).toBe(addDays(netOn?.window.due ?? TODAY, 56));
    expect(later[0]?.cycle).toBe(`leaf-net-on:${netOn?.cycle}`);
  });

  it('has the standing line of the next season', () => {
    const forecast = sinusoidForecast({ ...WATER, firstDay: civilDay('2026-06-01') });
    const input = aPlanInput({ forecast, rules: [shippedRule('feed-by-water-temperature')], careSince: TODAY });
    const later = projectOccurrences(input, planCareCalendar(input));
    expect(later).toMatchObject([{ cycle: 'warming-2026', routineLine: true, due: civilDay('2027-04-15') }]);
  });

  it('says nothing of seasons, which are planned, nor of readings, which nobody knows', () => {
    expect(projected('feed-stop', 'uv-season-on', 'nitrate-high').later).toEqual([]);
  });

  it('leaves the plan as it is', () => {
    const { input, plan } = projected('water-test', 'part-water-change');
    expect(JSON.stringify(planCareCalendar(input))).toBe(JSON.stringify(plan));
  });
});
