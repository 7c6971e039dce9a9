import { describe, expect, it } from '@jest/globals';
import type { CareTaskView } from '../../../src/care-calendar/index.js';
import type { Conflict, NotDue } from '../../../src/core/care/care-plan.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import { civilDay } from '../../../src/core/units/civil-day.js';
import {
  conflictLines,
  whyNotAtHome,
  whyNotForOffice,
  whyNotOnSite,
} from '../../../src/web/why-not/why-not.view-model.js';
import { aPlanInput, aPond } from '../../support/a-pond.js';
import { shippedRules } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const TODAY = civilDay('2026-03-01');
const RULES = new Map(shippedRules().map((rule) => [rule.id, rule]));

function planned() {
  const forecast = sinusoidForecast({ meanC: 12, amplitudeC: 12, warmestDayOfYear: 205, firstDay: TODAY });
  const plan = planCareCalendar(aPlanInput({ pond: aPond(), forecast, rules: [...RULES.values()], today: TODAY }));
  return { plan, outcome: { notDue: [...plan.notDue], conflicts: [...plan.conflicts] } };
}
const outcomeOf = (notDue: NotDue[], conflicts: Conflict[] = []) => ({ notDue, conflicts });
const viewOf = (ruleId: string, dueOn: string) => ({ rule: RULES.get(ruleId), dueOn }) as unknown as CareTaskView;
const pond = { agreement: [], defaultDoneBy: 'homeowner', today: TODAY, tasks: [] } as const;

describe('why there is no task', () => {
  it('is said to the office for every shipped rule that gives none', () => {
    const { plan, outcome } = planned();
    const given = new Set(plan.tasks.map(({ ruleId }) => ruleId));
    const without = [...RULES.keys()].filter((ruleId) => !given.has(ruleId));
    expect(without.length).toBeGreaterThan(10);
    const said = new Set(whyNotForOffice(outcome, RULES, []).map(({ ruleId }) => ruleId));
    expect(without.filter((ruleId) => !said.has(ruleId))).toEqual([]);
  });

  it('carries the source for the office, and the next time where one stands', () => {
    const because: NotDue = { ruleId: 'leaf-net-on', because: 'already-finished', detail: '' };
    const [line] = whyNotForOffice(outcomeOf([because]), RULES, [viewOf('leaf-net-on', '2027-09-22')]);
    expect(line?.why).toMatch(
      /It has been done for this season\. The rule follows: .*The next one stands for 22 Sep\.$/,
    );
  });

  it('leaves a homeowner only what would be theirs, without sources', () => {
    const all = outcomeOf([
      { ruleId: 'feed-stop', because: 'no-crossing', detail: '' },
      { ruleId: 'feed-light-in-autumn', because: 'no-fish', detail: '' },
      { ruleId: 'uv-lamp-replacement', because: 'beyond-horizon', detail: '' },
    ]);
    const lines = whyNotAtHome(all, RULES, pond);
    expect(lines.map(({ ruleId }) => ruleId)).toEqual(['feed-stop']);
    expect(lines[0]?.why).toBe('The water is not expected to get that warm or that cold.');
    expect(whyNotAtHome(all, RULES, { ...pond, tasks: [viewOf('feed-stop', '2026-10-01')] })).toEqual([]);
  });

  it('leaves who stands at the pond the work that waits for a reading there', () => {
    const all = outcomeOf([
      { ruleId: 'uv-lamp-replacement', because: 'input-missing', detail: 'hours of the lamp' },
      { ruleId: 'uv-sleeve-clean', because: 'not-this-equipment', detail: 'uv-lamp' },
      { ruleId: 'feed-stop', because: 'gate-never-holds', detail: 'water-below' },
    ]);
    expect(whyNotOnSite(all, RULES, pond).map(({ ruleId }) => ruleId)).toEqual(['uv-lamp-replacement']);
  });

  it('says one reason once, and nothing of a rule no longer in use', () => {
    const twice: NotDue[] = ['warming-2026', 'warming-2027'].map((cycle) => ({
      ruleId: 'feed-stop',
      cycle,
      because: 'no-crossing',
      detail: '',
    }));
    const gone: NotDue = { ruleId: 'of-old', because: 'no-fish', detail: '' };
    expect(whyNotForOffice(outcomeOf([...twice, gone]), RULES, [])).toHaveLength(1);
    expect(whyNotForOffice(null, RULES, [])).toEqual([]);
  });
});

describe('what could not be arranged', () => {
  it('names both sides, of all rules or of some', () => {
    const conflict: Conflict = {
      kind: 'not-within',
      ruleId: 'biological-media-rinse',
      otherRuleId: 'filter-media-rinse',
      detail: '3 of 14 days apart',
    };
    const of = outcomeOf([], [conflict]);
    const [both] = conflictLines(of, RULES);
    expect(both).toContain(RULES.get('biological-media-rinse')?.title);
    expect(both).toContain(RULES.get('filter-media-rinse')?.title);
    expect(conflictLines(of, RULES, new Set(['feed-stop']))).toEqual([]);
  });
});
