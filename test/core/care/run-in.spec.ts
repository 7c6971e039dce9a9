import { describe, expect, it } from '@jest/globals';
import type { CareHistory, PondReading } from '../../../src/core/care/care-plan.js';
import type { ReadingQuantity } from '../../../src/core/care/care-rule.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import { civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import { aMachine, aPlanInput, aPond, NO_HISTORY } from '../../support/a-pond.js';
import { shippedRules } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const FILLED = civilDay('2026-06-01');
const HOUR_MS = 3_600_000;

function planOn(today: string, history: Partial<CareHistory> = {}, changes: Parameters<typeof aPond>[0] = {}) {
  const forecast = sinusoidForecast({ meanC: 14, amplitudeC: 10, warmestDayOfYear: 205, firstDay: civilDay(today) });
  return planCareCalendar(
    aPlanInput({
      forecast,
      rules: shippedRules(),
      pond: aPond({ commissionedOn: FILLED, stockedOn: null, ...changes }),
      careSince: FILLED,
      history: { ...NO_HISTORY, ...history },
    }),
  );
}

function reading(quantity: ReadingQuantity, on: string, hour: number, value: number): PondReading {
  const day = civilDay(on);
  return { id: `${quantity}-${on}-${hour}`, quantity, value, on: day, atMs: (day * 24 + hour) * HOUR_MS };
}

const fed = [
  { ruleId: 'run-in-feed-filter', cycle: 'x', state: 'COMPLETED', on: civilDay('2026-06-08'), actuals: {} },
] as const;

function goodReadings(first: [string, number], second: [string, number]): PondReading[] {
  return (['total-ammonia', 'nitrite', 'total-chlorine'] as const).flatMap((quantity) => [
    reading(quantity, first[0], first[1], 0.01),
    reading(quantity, second[0], second[1], 0.01),
  ]);
}

function taskOf(plan: ReturnType<typeof planOn>, ruleId: string) {
  return plan.tasks.find((task) => task.ruleId === ruleId);
}

// Trade facts: a new pond runs about a week before any fish or turtle goes in; neither goes in before chlorine and
// chloramine are out (common practice).
describe('a new pond', () => {
  it('is dechlorinated on the day it is filled, for its whole volume, and that is urgent', () => {
    const task = taskOf(planOn('2026-06-01'), 'dechlorinate-first-fill');
    expect(task).toMatchObject({ consequence: 'urgent', window: { due: FILLED, latest: FILLED } });
    // Rulings 19 and 20: 12,000 L x 2 mg/L x 7 x 1.1 = 184.8 g.
    expect(task?.quantities[0]).toMatchObject({ amount: 190, basis: { of: 'pond', amount: 12_000 } });
  });

  it('runs for a week without fish or turtles', () => {
    const task = taskOf(planOn('2026-06-01'), 'run-in-first-week');
    expect(task && isoDateOf(task.window.due)).toBe('2026-06-08');
  });

  it('has its water tested every second day', () => {
    const task = taskOf(planOn('2026-06-01'), 'run-in-water-tests');
    expect(task && isoDateOf(task.window.due)).toBe('2026-06-03');
  });

  it('gets no task that needs livestock, though the planned stock is on its record', () => {
    const plan = planOn('2026-06-01');
    const because = (ruleId: string) => plan.notDue.find((notDue) => notDue.ruleId === ruleId)?.because;
    expect(because('feed-by-water-temperature')).toBe('no-fish');
    expect(because('part-water-change')).toBe('no-livestock');
    expect(because('water-test')).toBe('no-livestock');
  });
});

describe('the first livestock', () => {
  it('waits for the filter to be fed, whatever the readings', () => {
    const plan = planOn('2026-07-20', { readings: goodReadings(['2026-07-15', 9], ['2026-07-18', 9]) });
    expect(taskOf(plan, 'first-livestock')).toBeUndefined();
    expect(plan.notDue).toContainEqual(
      expect.objectContaining({
        ruleId: 'first-livestock',
        because: 'gate-never-holds',
        detail: 'rule-completed run-in-feed-filter',
      }),
    );
  });

  it('goes in on two good readings 48 hours apart, taken while the filter was fed', () => {
    const plan = planOn('2026-07-20', { finished: fed, readings: goodReadings(['2026-07-15', 9], ['2026-07-17', 9]) });
    const task = taskOf(plan, 'first-livestock');
    expect(task && isoDateOf(task.window.due)).toBe('2026-07-17');
    // Staged: a fifth of the final stock (Hager et al. 2021).
    const [first] = task?.quantities ?? [];
    expect(first?.computed).toBeCloseTo(0.2 * (first?.basis.amount ?? 0), 1);
  });

  it('waits when the two readings are an hour too close', () => {
    const plan = planOn('2026-07-20', { finished: fed, readings: goodReadings(['2026-07-15', 9], ['2026-07-17', 8]) });
    expect(taskOf(plan, 'first-livestock')).toBeUndefined();
  });

  it.each([
    ['total-chlorine', 0.02],
    ['total-ammonia', 0.25],
    ['nitrite', 0.1],
  ] as const)('waits when the latest %s reads %f', (quantity, value) => {
    const readings = [...goodReadings(['2026-07-13', 9], ['2026-07-16', 9]), reading(quantity, '2026-07-18', 9, value)];
    const plan = planOn('2026-07-20', { finished: fed, readings });
    expect(taskOf(plan, 'first-livestock')).toBeUndefined();
    expect(plan.notDue.find((notDue) => notDue.ruleId === 'first-livestock')?.detail).toBe(`reading-below ${quantity}`);
  });

  it('does not count readings from before the filter was fed', () => {
    const plan = planOn('2026-07-20', { finished: fed, readings: goodReadings(['2026-06-05', 9], ['2026-06-07', 9]) });
    expect(taskOf(plan, 'first-livestock')).toBeUndefined();
  });

  it('asks a well for no chlorine reading', () => {
    const readings = goodReadings(['2026-07-15', 9], ['2026-07-17', 9]).filter(
      (one) => one.quantity !== 'total-chlorine',
    );
    const tap = { source: 'well', totalChlorineMgPerL: null } as const;
    expect(taskOf(planOn('2026-07-20', { finished: fed, readings }, { tap }), 'first-livestock')).toBeDefined();
    expect(taskOf(planOn('2026-07-20', { finished: fed, readings }), 'first-livestock')).toBeUndefined();
  });

  it('never goes in during the first week', () => {
    const plan = planOn('2026-06-07', {
      finished: [{ ...fed[0], on: civilDay('2026-06-02') }],
      readings: goodReadings(['2026-06-03', 9], ['2026-06-06', 9]),
    });
    const task = taskOf(plan, 'first-livestock');
    expect(task && isoDateOf(task.window.earliest)).toBe('2026-06-08');
  });

  it('of a pond without a filter needs the readings, but no filter to be fed', () => {
    const equipment = [aMachine('pump', { flowLPerH: 14_000 })];
    const plan = planOn('2026-07-20', { readings: goodReadings(['2026-07-15', 9], ['2026-07-17', 9]) }, { equipment });
    expect(taskOf(plan, 'first-livestock')).toBeDefined();
  });
});
