import { describe, expect, it } from '@jest/globals';
import type { Gate } from '../../../src/core/care/care-rule.js';
import { throughGates } from '../../../src/core/care/gates.js';
import { planningContext } from '../../../src/core/care/planning-context.js';
import { addDays, civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import { aPlanInput } from '../../support/a-pond.js';
import { aParameter, aRule } from '../../support/a-rule.js';
import { sinusoidC, sinusoidForecast } from '../../support/sinusoid-forecast.js';

const POND = { meanC: 12, amplitudeC: 12, warmestDayOfYear: 205 };

function gated(
  gates: readonly Gate[],
  due: string,
  airC?: (day: number) => number,
  cycle: 'count' | 'warming' = 'warming',
) {
  const rule = aRule({
    cycle,
    anyOf: [{ kind: 'interval', days: 'days', slackDays: 'days' }],
    gates,
    parameters: { days: aParameter(10), warm: aParameter(10), cool: aParameter(22), frost: aParameter(-3) },
  });
  const forecast = sinusoidForecast({ ...POND, firstDay: civilDay('2026-01-20'), ...(airC ? { airC } : {}) });
  const day = civilDay(due);
  const window = { earliest: addDays(day, -10), due: day, latest: addDays(day, 20) };
  const outcome = throughGates(window, rule, planningContext(aPlanInput({ forecast, rules: [rule] })));
  if (!outcome.holds) return outcome.detail;
  return [outcome.window.earliest, outcome.window.due, outcome.window.latest].map(isoDateOf).join(' ');
}

describe('a gate', () => {
  it('that holds leaves the day alone', () => {
    expect(gated([{ kind: 'water-above', threshold: 'warm' }], '2026-06-01')).toBe('2026-05-22 2026-06-01 2026-06-21');
  });

  it('moves the task to the first day on which it holds, with its room to the last day', () => {
    // The water rises to 10 °C on 15 April (trade handbook section 8.6, derived).
    expect(gated([{ kind: 'water-above', threshold: 'warm' }], '2026-03-01')).toBe('2026-04-15 2026-04-15 2026-05-05');
  });

  it('gives work that repeats a fortnight on either side of the day it waits for', () => {
    const window = gated([{ kind: 'water-above', threshold: 'warm' }], '2026-03-01', undefined, 'count');
    expect(window).toBe('2026-04-01 2026-04-15 2026-05-05');
  });

  it('closes the window before the day from which it holds', () => {
    expect(gated([{ kind: 'water-above', threshold: 'warm' }], '2026-04-20')).toBe('2026-04-15 2026-04-20 2026-05-10');
  });

  it('waits for the ice to go', () => {
    const [, due] = gated([{ kind: 'ice-free' }], '2026-01-25').split(' ');
    expect(sinusoidC(POND, civilDay(due as string))).toBeGreaterThan(0.97);
    expect(sinusoidC(POND, civilDay(due as string) - 1)).toBeLessThan(1);
  });

  it('waits until no hard frost is in sight for the days asked for', () => {
    // Mean air of -2 °C until 10 April, +9 after; nights lie half of the month's daily range below.
    const airC = (day: number) => (day <= civilDay('2026-04-10') ? -2 : 9);
    const gate: Gate = { kind: 'no-hard-frost-within', days: 'days', airBelowC: 'frost' };
    expect(gated([gate], '2026-03-20', airC).split(' ')[1]).toBe('2026-04-11');
  });

  it('must hold together with the others', () => {
    const gates: Gate[] = [
      { kind: 'water-above', threshold: 'warm' },
      { kind: 'water-below', threshold: 'cool' },
    ];
    // Day 205 + 365/2π acos(10/12) = 239.0: the first whole day below 22 °C is day 240, 28 August (derived).
    expect(gated(gates, '2026-07-01').split(' ')[1]).toBe('2026-08-28');
  });

  it('that asks for a completed rule stays closed without it', () => {
    expect(gated([{ kind: 'rule-completed', ruleId: 'other' }], '2026-06-01')).toBe('rule-completed other');
  });

  it('asked only of other ponds holds', () => {
    const gate: Gate = { kind: 'rule-completed', ruleId: 'other', onlyIf: { equipment: ['heater'] } };
    expect(gated([gate], '2026-06-01').split(' ')[1]).toBe('2026-06-01');
  });

  it('that never opens before the horizon is named', () => {
    const rule = gated([{ kind: 'water-below', threshold: 'frost' }], '2026-06-01');
    expect(rule).toBe('water-below');
  });
});
