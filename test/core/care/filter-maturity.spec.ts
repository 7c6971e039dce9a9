import { describe, expect, it } from '@jest/globals';
import { fedFrom, filterMaturityOn } from '../../../src/core/care/filter-maturity.js';
import { planningContext } from '../../../src/core/care/planning-context.js';
import { filterCapacityGNPerDay } from '../../../src/core/care/quantities/filter-capacity.js';
import { addDays, civilDay } from '../../../src/core/units/civil-day.js';
import { aPlanInput, aPond, NO_HISTORY } from '../../support/a-pond.js';
import { expectWithin } from '../../support/expect-within.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const FILLED = civilDay('2026-06-01');
const evenWater = sinusoidForecast({ meanC: 20, amplitudeC: 0, warmestDayOfYear: 205, firstDay: FILLED });

function contextOf(commissionedOn: typeof FILLED | null, fedOn?: string) {
  const finished = fedOn
    ? [
        {
          ruleId: 'run-in-feed-filter',
          cycle: 'x',
          state: 'COMPLETED',
          on: civilDay(fedOn),
          actuals: {},
        } as const,
      ]
    : [];
  return planningContext(
    aPlanInput({
      forecast: evenWater,
      rules: [],
      pond: aPond({ commissionedOn, stockedOn: null }),
      history: { ...NO_HISTORY, finished },
    }),
  );
}

describe('the filter of a new pond', () => {
  it('is counted from its first feeding, or from the end of its first week', () => {
    expect(fedFrom(contextOf(FILLED))).toBe(civilDay('2026-06-08'));
    expect(fedFrom(contextOf(FILLED, '2026-06-20'))).toBe(civilDay('2026-06-20'));
    expect(fedFrom(contextOf(null))).toBeNull();
  });

  it('ripens with the water it has had, and is ripe where the pond was taken over or is a year old', () => {
    const context = contextOf(FILLED, '2026-06-08');
    expectWithin(filterMaturityOn(context, civilDay('2026-06-01')), 0.01, 1e-9);
    expectWithin(filterMaturityOn(context, addDays(civilDay('2026-06-08'), 35)), 0.95, 1e-6);
    expect(filterMaturityOn(context, civilDay('2027-06-20'))).toBe(1);
    expect(filterMaturityOn(contextOf(null), FILLED)).toBe(1);
  });

  it('takes that part of what it will take when ripe', () => {
    const ripe = filterCapacityGNPerDay(aPond(), 25, 1)!;
    // 60 m² x 0.421 g (derived).
    expectWithin(ripe, 25.2, 0.1);
    expectWithin(filterCapacityGNPerDay(aPond(), 25, 0.3)!, 0.3 * ripe, 1e-9);
    expect(filterCapacityGNPerDay(aPond({ equipment: [] }), 25, 1)).toBeNull();
  });
});
