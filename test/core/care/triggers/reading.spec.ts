import { describe, expect, it } from '@jest/globals';
import type { FinishedTask, PondReading } from '../../../../src/core/care/care-plan.js';
import type { ReadingQuantity } from '../../../../src/core/care/care-rule.js';
import { planCareCalendar } from '../../../../src/core/care/plan-care-calendar.js';
import { civilDay } from '../../../../src/core/units/civil-day.js';
import { aPlanInput, NO_HISTORY } from '../../../support/a-pond.js';
import { shippedRule } from '../../../support/shipped-rules.js';
import { sinusoidForecast } from '../../../support/sinusoid-forecast.js';

const forecast = sinusoidForecast({
  meanC: 12,
  amplitudeC: 12,
  warmestDayOfYear: 205,
  firstDay: civilDay('2026-07-10'),
});

function aReading(id: string, quantity: ReadingQuantity, on: string, value: number): PondReading {
  return { id, quantity, value, on: civilDay(on), atMs: civilDay(on) * 86_400_000 + 36e6 };
}

function planOf(ruleId: string, readings: readonly PondReading[], finished: readonly FinishedTask[] = []) {
  return planCareCalendar(
    aPlanInput({ forecast, rules: [shippedRule(ruleId)], history: { ...NO_HISTORY, readings, finished } }),
  );
}

describe('a reading', () => {
  it('beyond its limit is due at once, and its first reading names the task', () => {
    const plan = planOf('nitrite-high', [
      aReading('r1', 'nitrite', '2026-07-08', 0.32),
      aReading('r2', 'nitrite', '2026-07-09', 0.5),
    ]);
    // Ruling 12: ACT at 0.3 mg/L N.
    expect(plan.tasks).toMatchObject([
      { cycle: 'r1', consequence: 'urgent', window: { due: civilDay('2026-07-08'), latest: civilDay('2026-07-08') } },
    ]);
  });

  it('between the lower and the upper limit gives the milder task', () => {
    const plan = planOf('nitrite-high', [aReading('r1', 'nitrite', '2026-07-09', 0.12)]);
    expect(plan.tasks).toMatchObject([{ cycle: 'r1', consequence: 'care', window: { due: civilDay('2026-07-11') } }]);
  });

  it('in order ends the excursion', () => {
    const plan = planOf('nitrite-high', [
      aReading('r1', 'nitrite', '2026-07-08', 0.32),
      aReading('r2', 'nitrite', '2026-07-09', 0.02),
    ]);
    expect(plan.tasks).toEqual([]);
    expect(plan.notDue).toMatchObject([{ because: 'no-reading', detail: 'nitrite in order' }]);
  });

  it('after the task was done begins a new excursion with a new name', () => {
    const readings = [aReading('r1', 'nitrite', '2026-07-07', 0.4), aReading('r2', 'nitrite', '2026-07-09', 0.35)];
    const done = {
      ruleId: 'nitrite-high',
      cycle: 'r1',
      state: 'COMPLETED',
      on: civilDay('2026-07-08'),
      actuals: {},
    } as const;
    expect(planOf('nitrite-high', readings, [done]).tasks).toMatchObject([{ cycle: 'r2' }]);
  });

  it('of ammonia is turned into un-ionised ammonia with the pH and temperature of its sample', () => {
    // UF/IFAS FA16: share 0.1678 at 30 °C and pH 8.4, so 0.5 mg/L is 0.084, above 0.05; at pH 7 and 20 °C it is 0.002.
    const sample = (ph: number, temperatureC: number) => [
      aReading('t', 'total-ammonia', '2026-07-09', 0.5),
      aReading('p', 'ph', '2026-07-09', ph),
      aReading('w', 'water-temperature', '2026-07-09', temperatureC),
    ];
    expect(planOf('unionised-ammonia-high', sample(8.4, 30)).tasks).toMatchObject([
      { cycle: 't', consequence: 'urgent' },
    ]);
    expect(planOf('unionised-ammonia-high', sample(7, 20)).tasks).toEqual([]);
  });

  it('of a month ago says nothing of today', () => {
    expect(planOf('nitrite-high', [aReading('r1', 'nitrite', '2026-06-01', 0.5)]).tasks).toEqual([]);
  });

  it('of the water asks for ever more in the heat, and the gravest task stands alone', () => {
    // Ruling 7: 26 feed early, 28 half, 30 none.
    const at = (temperatureC: number) =>
      planCareCalendar(
        aPlanInput({
          forecast,
          rules: ['heat-feed-early', 'heat-halve-feed', 'heat-stop-feed'].map(shippedRule),
          history: { ...NO_HISTORY, readings: [aReading('w', 'water-temperature', '2026-07-10', temperatureC)] },
        }),
      ).tasks.map((task) => task.ruleId);
    expect(at(25.9)).toEqual([]);
    expect(at(26)).toEqual(['heat-feed-early']);
    expect(at(28)).toEqual(['heat-halve-feed']);
    expect(at(30)).toEqual(['heat-stop-feed']);
  });
});
