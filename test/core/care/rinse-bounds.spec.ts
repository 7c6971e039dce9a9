import { describe, expect, it } from '@jest/globals';
import type { PlannedTask } from '../../../src/core/care/care-plan.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import type { StockGroup } from '../../../src/core/care/pond-facts.js';
import { civilDay } from '../../../src/core/units/civil-day.js';
import { aMachine, aPlanInput, aPond, NO_HISTORY } from '../../support/a-pond.js';
import { shippedRules } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const RINSED = civilDay('2026-07-01');

/** The next rinse of a pond whose media were rinsed on 1 July, in days from then. */
function nextRinse(stock: readonly StockGroup[], mediaVolumeL: number, meanC: number): PlannedTask {
  const forecast = sinusoidForecast({ meanC, amplitudeC: 0.5, warmestDayOfYear: 205, firstDay: RINSED });
  const equipment = [
    aMachine('pump', { flowLPerH: 14_000 }),
    aMachine('mechanical-filter', { mediaVolumeL }),
    aMachine('biological-filter', { mediaVolumeL: 120, mediaAreaM2PerM3: 500 }),
  ];
  const finished = [{ ruleId: 'filter-media-rinse', cycle: '1', state: 'COMPLETED', on: RINSED, actuals: {} } as const];
  const plan = planCareCalendar(
    aPlanInput({
      forecast,
      rules: shippedRules(),
      pond: aPond({ stock, equipment }),
      today: RINSED,
      careSince: civilDay('2026-06-01'),
      history: { ...NO_HISTORY, finished },
    }),
  );
  const task = plan.tasks.find(({ ruleId }) => ruleId === 'filter-media-rinse');
  if (!task) throw new Error(JSON.stringify(plan.notDue.filter(({ ruleId }) => ruleId === 'filter-media-rinse')));
  return task;
}

const afterDays = (task: PlannedTask) => task.window.due - RINSED;
const oneKoi = [{ species: 'koi', count: 1, lengthCm: 30 }] as const;
const goldfish = [{ species: 'goldfish', count: 2, lengthCm: 15 }] as const;

// Trade handbook, section 4.2: kept to 3 to 42 days in the feeding season, to 21 for koi above 13 °C (common practice).
describe('the rinse of a filter that would last long by its load', () => {
  it('comes after 21 days where koi live in warm water', () => {
    const task = nextRinse(oneKoi, 200, 20);
    expect(afterDays(task)).toBe(21);
    expect(task.reason).toMatchObject({ trigger: 'interval' });
    expect(task.reason.inputs).toContainEqual({ name: 'interval', value: 21, unit: 'd' });
    expect(task.window.latest - RINSED).toBe(27);
  });

  it('comes after 42 days without koi, or with koi in water below 13 °C', () => {
    expect(afterDays(nextRinse(goldfish, 200, 20))).toBe(42);
    expect(afterDays(nextRinse(oneKoi, 200, 11))).toBe(42);
  });

  it('still comes by its load where that is sooner', () => {
    const tenKg = [{ species: 'koi', count: 5, lengthCm: 49.5 }] as const;
    // Section 8.6 (derived): 5.9 days.
    expect(afterDays(nextRinse(tenKg, 40, 22))).toBe(6);
  });

  it('never comes sooner than after three days, however small the filter', () => {
    const many = [{ species: 'koi', count: 20, lengthCm: 50 }] as const;
    expect(afterDays(nextRinse(many, 5, 22))).toBe(3);
  });
});
