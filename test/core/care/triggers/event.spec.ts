import { describe, expect, it } from '@jest/globals';
import type { CareHistory } from '../../../../src/core/care/care-plan.js';
import { planCareCalendar } from '../../../../src/core/care/plan-care-calendar.js';
import { civilDay, isoDateOf } from '../../../../src/core/units/civil-day.js';
import { aPlanInput, aPond, NO_HISTORY } from '../../../support/a-pond.js';
import { aParameter, aRule } from '../../../support/a-rule.js';
import { sinusoidForecast } from '../../../support/sinusoid-forecast.js';

const forecast = sinusoidForecast({
  meanC: 12,
  amplitudeC: 12,
  warmestDayOfYear: 205,
  firstDay: civilDay('2026-07-01'),
});

function planned(
  event: 'fish-added' | 'commissioning' | 'task-completed',
  history: Partial<CareHistory>,
  ofRule?: string,
) {
  const rule = aRule({
    cycle: 'event',
    anyOf: [
      { kind: 'event', event, afterDays: 'after', earlyDays: 'early', lateDays: 'late', ...(ofRule ? { ofRule } : {}) },
    ],
    parameters: { after: aParameter(30), early: aParameter(5), late: aParameter(10) },
  });
  const plan = planCareCalendar(
    aPlanInput({
      forecast,
      rules: [rule],
      history: { ...NO_HISTORY, ...history },
      careSince: civilDay('2026-05-01'),
      pond: aPond({ commissionedOn: civilDay('2026-06-28') }),
    }),
  );
  return {
    tasks: plan.tasks.map((task) => ({
      cycle: task.cycle,
      days: [task.window.earliest, task.window.due, task.window.latest].map(isoDateOf),
    })),
    notDue: plan.notDue,
  };
}

describe('an event', () => {
  it('gives one task for each happening, named after it', () => {
    const events = [
      { id: 'e2', kind: 'fish-added', on: civilDay('2026-07-01') },
      { id: 'e1', kind: 'fish-added', on: civilDay('2026-06-29') },
    ] as const;
    expect(planned('fish-added', { events }).tasks).toEqual([
      { cycle: 'e1', days: ['2026-07-24', '2026-07-29', '2026-08-08'] },
      { cycle: 'e2', days: ['2026-07-26', '2026-07-31', '2026-08-10'] },
    ]);
  });

  it('that was answered never comes back', () => {
    const events = [{ id: 'e1', kind: 'fish-added', on: civilDay('2026-06-29') }] as const;
    const finished = [
      { ruleId: 'some-work', cycle: 'e1', state: 'CANCELLED', on: civilDay('2026-06-30'), actuals: {} },
    ] as const;
    const result = planned('fish-added', { events, finished });
    expect(result.tasks).toEqual([]);
    expect(result.notDue[0]).toMatchObject({ because: 'already-finished' });
  });

  it('of the filling is read from the pond when nobody told it', () => {
    expect(planned('commissioning', {}).tasks).toEqual([
      { cycle: 'commissioning-2026-06-28', days: ['2026-07-23', '2026-07-28', '2026-08-07'] },
    ]);
  });

  it('of completed work counts from the day it was really done, and not from given up work', () => {
    const finished = [
      { ruleId: 'leaf-net-on', cycle: 'cooling-2025', state: 'CANCELLED', on: civilDay('2026-06-20'), actuals: {} },
      { ruleId: 'leaf-net-on', cycle: 'cooling-2026', state: 'COMPLETED', on: civilDay('2026-06-30'), actuals: {} },
    ] as const;
    expect(planned('task-completed', { finished }, 'leaf-net-on').tasks).toEqual([
      { cycle: 'leaf-net-on:cooling-2026', days: ['2026-07-25', '2026-07-30', '2026-08-09'] },
    ]);
  });

  it('from before care began is left alone', () => {
    const events = [{ id: 'old', kind: 'fish-added', on: civilDay('2026-04-30') }] as const;
    expect(planned('fish-added', { events }).notDue[0]).toMatchObject({ because: 'no-event' });
  });

  it('that did not happen is said', () => {
    expect(planned('fish-added', {})).toMatchObject({
      tasks: [],
      notDue: [{ because: 'no-event', detail: 'fish-added' }],
    });
  });
});
