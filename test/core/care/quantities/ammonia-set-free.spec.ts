import { describe, expect, it } from '@jest/globals';
import type { PondReading } from '../../../../src/core/care/care-plan.js';
import type { ReadingQuantity } from '../../../../src/core/care/care-rule.js';
import { planCareCalendar } from '../../../../src/core/care/plan-care-calendar.js';
import { en } from '../../../../src/core/care/wording/en.js';
import { type CivilDay, civilDay } from '../../../../src/core/units/civil-day.js';
import { aPlanInput, aPond, NO_HISTORY } from '../../../support/a-pond.js';
import { shippedRules } from '../../../support/shipped-rules.js';
import { sinusoidForecast } from '../../../support/sinusoid-forecast.js';

const forecast = sinusoidForecast({
  meanC: 24,
  amplitudeC: 1,
  warmestDayOfYear: 205,
  firstDay: civilDay('2026-07-01'),
});
const pond = aPond({ tap: { source: 'chloramine', totalChlorineMgPerL: 4 } });
const RECENTLY = civilDay('2026-06-30');

function readingOf(quantity: ReadingQuantity, value: number, on: CivilDay): PondReading {
  return { id: `${quantity} ${on}`, quantity, value, on, atMs: on * 86_400_000 };
}

/** What is said of the ammonia set free by the part water change. */
function remarksAfter(readings: readonly PondReading[]): readonly string[] {
  const plan = planCareCalendar(
    aPlanInput({ pond, forecast, rules: shippedRules(), history: { ...NO_HISTORY, readings }, careSince: RECENTLY }),
  );
  const task = plan.tasks.find(({ ruleId }) => ruleId === 'part-water-change');
  return task!.quantities.find((quantity) => quantity.of === 'ammonia-set-free')!.remarks;
}

describe('ammonia set free by chloramine', () => {
  it('is called poisonous where the last pH makes it so before the filter has it', () => {
    expect(remarksAfter([readingOf('ph', 9.4, RECENTLY)])).toEqual(['ammonia-poisonous-right-after']);
    expect(remarksAfter([readingOf('ph', 7.4, RECENTLY)])).not.toEqual(['ammonia-poisonous-right-after']);
  });

  it('adds to the ammonia already read', () => {
    const ph = readingOf('ph', 8.4, RECENTLY);
    expect(remarksAfter([ph])).not.toEqual(['ammonia-poisonous-right-after']);
    expect(remarksAfter([ph, readingOf('total-ammonia', 0.6, RECENTLY)])).toEqual(['ammonia-poisonous-right-after']);
  });

  it('is judged by no pH older than a fortnight', () => {
    expect(remarksAfter([readingOf('ph', 9.4, civilDay('2026-06-01'))])).not.toEqual(['ammonia-poisonous-right-after']);
  });

  it('has words for what is said', () => {
    expect(en.remarks).toHaveProperty('ammonia-poisonous-right-after');
  });
});
