import { describe, expect, it } from '@jest/globals';
import type { CareHistory } from '../../../src/core/care/care-plan.js';
import { nextCountCycle } from '../../../src/core/care/cycle.js';
import { taskTitle } from '../../../src/core/care/explain.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import type { Equipment } from '../../../src/core/care/pond-facts.js';
import { reconcile } from '../../../src/core/care/reconcile.js';
import { civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import { aMachine, aPlanInput, aPond, NO_HISTORY } from '../../support/a-pond.js';
import { shippedRule, shippedRules } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const TODAY = civilDay('2026-07-01');
const forecast = sinusoidForecast({ meanC: 12, amplitudeC: 12, warmestDayOfYear: 205, firstDay: TODAY });
const second = (machine: Equipment, id: string, name: string): Equipment => ({ ...machine, id, name });
const PUMPS = [
  aMachine('pump', { flowLPerH: 8000 }),
  second(aMachine('pump', { flowLPerH: 5000 }), 'pump-2', 'stream pump'),
];

function planned(equipment: readonly Equipment[], history: Partial<CareHistory> = {}, ids?: readonly string[]) {
  const rules = ids ? ids.map(shippedRule) : shippedRules();
  return planCareCalendar(
    aPlanInput({
      forecast,
      rules,
      pond: aPond({ equipment }),
      history: { ...NO_HISTORY, ...history },
      careSince: civilDay('2026-05-01'),
    }),
  );
}

describe('where a pond has two machines of a kind,', () => {
  it('each has its own task under its own name', () => {
    const tasks = planned(PUMPS, {}, ['pump-clean']).tasks;
    expect(tasks.map(({ cycle, machine }) => [cycle, machine?.name])).toEqual([
      ['pump-2:1', 'stream pump'],
      ['pump:1', 'pump'],
    ]);
    const [first] = tasks;
    expect(first && taskTitle(first, shippedRule('pump-clean'))).toBe(
      "Clean the pump's intake and impeller: stream pump",
    );
  });

  it('the work on one leaves the other where it was', () => {
    const finished = [{ ruleId: 'pump-clean', cycle: 'pump:1', state: 'COMPLETED', on: TODAY, actuals: {} }] as const;
    const [before, after] = [planned(PUMPS, {}, ['pump-clean']), planned(PUMPS, { finished }, ['pump-clean'])];
    const dueOf = (plan: typeof before, id: string) => plan.tasks.find(({ machine }) => machine?.id === id);
    expect(dueOf(after, 'pump-2')?.window).toEqual(dueOf(before, 'pump-2')?.window);
    expect(dueOf(after, 'pump')).toMatchObject({ cycle: 'pump:2' });
    expect(dueOf(after, 'pump')?.window.due).toBeGreaterThan(dueOf(before, 'pump')?.window.due ?? 0);
  });

  it('a lamp is counted by its own hours', () => {
    const lamps = [
      aMachine('uv-lamp', { lampRatedHours: 9000 }, civilDay('2024-05-01')),
      second(aMachine('uv-lamp', { lampRatedHours: 9000 }, civilDay('2026-06-20')), 'uv-lamp-2', 'second lamp'),
    ];
    const plan = planned([...PUMPS, ...lamps], {}, ['uv-lamp-replacement']);
    expect(plan.tasks.map(({ cycle }) => cycle)).toEqual(['uv-lamp:1']);
    expect(plan.notDue).toMatchObject([{ cycle: 'uv-lamp-2:1', because: 'beyond-horizon' }]);
  });

  it('solids go to filters as their media hold them, so that two like one fill half as fast', () => {
    const one = aMachine('mechanical-filter', { mediaVolumeL: 40 });
    const reached = (equipment: readonly Equipment[]) =>
      planned(equipment, {}, ['filter-media-rinse']).tasks[0]?.reason.inputs.find(({ name }) => name === 'run-up')
        ?.value;
    const both = [one, second(one, 'mechanical-filter-2', 'second filter')];
    expect(Number(reached(both))).toBeCloseTo(Number(reached([one])) / 2, -1);
  });

  it('parts of biological media keep a fortnight between them, whichever filter they are in', () => {
    const bio = aMachine('biological-filter', { mediaVolumeL: 120 });
    const plan = planned([bio, second(bio, 'bio-2', 'second chamber')], {}, ['biological-media-rinse']);
    const [a, b] = plan.tasks.map(({ window }) => window.due);
    expect(Math.abs((a ?? 0) - (b ?? 0))).toBeGreaterThanOrEqual(14);
  });

  it('numbers given before machines had names count for each of them', () => {
    expect(nextCountCycle(['1', '2', 'pump:5', 'pump-2:3'], 'pump-2')).toBe('pump-2:4');
    expect(nextCountCycle(['1', '2'], 'pump')).toBe('pump:3');
    expect(nextCountCycle(['1', '2'])).toBe('3');
  });

  it('a machine that is gone takes its task with it, and the others keep theirs', () => {
    const standing = planned(PUMPS, {}, ['pump-clean']).tasks.map((task) => ({
      ruleId: task.ruleId,
      cycle: task.cycle,
      state: 'NEEDS-ACTION' as const,
      window: task.window,
      planned: task,
      heldDue: null,
      promisedOn: null,
    }));
    const plan = planned(PUMPS.slice(0, 1), {}, ['pump-clean']);
    expect(reconcile({ standing, plan, today: TODAY })).toEqual([
      expect.objectContaining({ kind: 'cancelled', cycle: 'pump-2:1', because: 'not-applicable' }),
    ]);
  });
});

describe('the flow of a pump', () => {
  const flows = (values: readonly number[], equipmentId?: string) =>
    values.map((value, index) => ({
      id: `f${index}`,
      quantity: 'pump-flow' as const,
      value,
      on: civilDay(`2026-06-${10 + index * 10}`),
      atMs: index,
      ...(equipmentId ? { equipmentId } : {}),
    }));

  it('below four fifths of the first asks for a cleaning, below three fifths for another pump', () => {
    const ids = ['pump-clean', 'pump-renew', 'filter-media-rinse'];
    const weak = planned(PUMPS.slice(0, 1), { readings: flows([8000, 6300]) }, ids);
    expect(weak.tasks.map(({ ruleId, reason }) => [ruleId, reason.trigger])).toEqual([['pump-clean', 'reading']]);
    const spent = planned(PUMPS.slice(0, 1), { readings: flows([8000, 4700]) }, ids);
    expect(spent.tasks.map(({ ruleId }) => ruleId)).toEqual(['pump-clean', 'pump-renew']);
  });

  it('is no reading of the other pump, and of none when nobody says which', () => {
    const of = (equipmentId?: string) =>
      planned(PUMPS, { readings: flows([8000, 6300], equipmentId) }, ['pump-clean']).tasks.filter(
        ({ reason }) => reason.trigger === 'reading',
      );
    expect(of('pump-2').map(({ machine }) => machine?.id)).toEqual(['pump-2']);
    expect(of()).toEqual([]);
  });

  it('says when a pump has run its years, counted from the day it was fitted', () => {
    const old = [aMachine('pump', {}, civilDay('2022-09-01'))];
    const [task] = planned(old, {}, ['pump-renew']).tasks;
    expect(task && isoDateOf(task.window.due)).toBe('2026-09-01');
    expect(planned([aMachine('pump', {}, null)], {}, ['pump-renew']).notDue).toMatchObject([
      { because: 'input-missing' },
    ]);
  });
});
