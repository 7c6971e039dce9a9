import { describe, expect, it } from '@jest/globals';
import type { CareHistory } from '../../../../src/core/care/care-plan.js';
import { planningContext } from '../../../../src/core/care/planning-context.js';
import { intervalOutcome } from '../../../../src/core/care/triggers/interval.js';
import { civilDay, isoDateOf } from '../../../../src/core/units/civil-day.js';
import { aPlanInput, aPond, NO_HISTORY } from '../../../support/a-pond.js';
import { aParameter, aRule } from '../../../support/a-rule.js';
import { sinusoidForecast } from '../../../support/sinusoid-forecast.js';

const POND = { meanC: 12, amplitudeC: 12, warmestDayOfYear: 205 };

function outcome(given: {
  today: string;
  days: number;
  careSince: string;
  aboveC?: number;
  doneOn?: string;
  state?: 'COMPLETED' | 'CANCELLED';
}) {
  const rule = aRule({
    cycle: 'count',
    anyOf: [
      {
        kind: 'interval',
        days: 'days',
        slackDays: 'slack',
        ...(given.aboveC === undefined ? {} : { season: { aboveC: 'above' } }),
      },
    ],
    parameters: { days: aParameter(given.days), slack: aParameter(3), above: aParameter(given.aboveC ?? 0) },
  });
  const history: CareHistory =
    given.doneOn === undefined
      ? NO_HISTORY
      : {
          ...NO_HISTORY,
          finished: [
            { ruleId: rule.id, cycle: '1', state: given.state ?? 'COMPLETED', on: civilDay(given.doneOn), actuals: {} },
          ],
        };
  const forecast = sinusoidForecast({ ...POND, firstDay: civilDay(given.today) });
  const input = aPlanInput({
    forecast,
    rules: [rule],
    history,
    careSince: civilDay(given.careSince),
    pond: aPond({ commissionedOn: civilDay('2020-01-01') }),
  });
  const trigger = rule.anyOf[0];
  if (trigger?.kind !== 'interval') throw new Error('no interval');
  return intervalOutcome(trigger, rule, planningContext(input));
}

function due(result: ReturnType<typeof outcome>): string {
  if (!result.fires) throw new Error(result.because);
  return isoDateOf(result.window.due);
}

describe('an interval', () => {
  it('counts from the start of care when it was never done', () => {
    expect(due(outcome({ today: '2026-07-01', careSince: '2026-07-01', days: 30 }))).toBe('2026-07-31');
  });

  it('counts from the day it was really done', () => {
    const given = { today: '2026-07-20', careSince: '2026-01-01', days: 30 };
    expect(due(outcome({ ...given, doneOn: '2026-07-10' }))).toBe('2026-08-09');
  });

  it('starts anew also when the last one was given up', () => {
    const given = { today: '2026-07-20', careSince: '2026-01-01', days: 30 };
    expect(due(outcome({ ...given, doneOn: '2026-07-10', state: 'CANCELLED' }))).toBe('2026-08-09');
  });

  it('does not count days out of season', () => {
    // 2 November to 15 April lies below 10 °C in this water: done on 28 October, five days count, two more in spring.
    const given = { today: '2026-10-29', careSince: '2026-01-01', days: 7, aboveC: 10 };
    expect(due(outcome({ ...given, doneOn: '2026-10-28' }))).toBe('2027-04-17');
  });

  it('that is overdue out of season waits for the season', () => {
    const given = { today: '2027-01-10', careSince: '2026-01-01', days: 7, aboveC: 10 };
    expect(due(outcome({ ...given, doneOn: '2026-10-01' }))).toBe('2027-04-15');
  });

  it('keeps its day while it is overdue in season, so that it does not run after today', () => {
    const given = { careSince: '2026-01-01', days: 7, aboveC: 10, doneOn: '2026-07-01' };
    const dues = ['2026-07-09', '2026-07-15', '2026-08-01'].map((today) => due(outcome({ ...given, today })));
    expect(new Set(dues)).toEqual(new Set(['2026-07-08']));
  });

  it('has its slack on both sides', () => {
    const result = outcome({ today: '2026-07-01', careSince: '2026-07-01', days: 30 });
    expect(result.fires && [result.window.earliest, result.window.latest].map(isoDateOf)).toEqual([
      '2026-07-28',
      '2026-08-03',
    ]);
  });

  it('never comes where it is never in season', () => {
    const result = outcome({ today: '2026-07-01', careSince: '2026-07-01', days: 7, aboveC: 30 });
    expect(result).toMatchObject({ fires: false, because: 'beyond-horizon' });
  });
});
