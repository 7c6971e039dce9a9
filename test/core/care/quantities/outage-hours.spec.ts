import { describe, expect, it } from '@jest/globals';
import { dawnForecast } from '../../../../src/core/care/dawn-forecast.js';
import { planningContext } from '../../../../src/core/care/planning-context.js';
import type { PondFacts } from '../../../../src/core/care/pond-facts.js';
import { outageHours } from '../../../../src/core/care/quantities/outage-hours.js';
import { civilDay } from '../../../../src/core/units/civil-day.js';
import { aPlanInput, aPond } from '../../../support/a-pond.js';
import { shippedRules } from '../../../support/shipped-rules.js';
import { sinusoidForecast } from '../../../support/sinusoid-forecast.js';

const TODAY = civilDay('2026-07-01');

function outage(changes: Partial<PondFacts>, meanC: number) {
  const rules = shippedRules();
  const forecast = sinusoidForecast({ meanC, amplitudeC: 0, warmestDayOfYear: 205, firstDay: TODAY });
  const plan = planningContext(aPlanInput({ pond: aPond(changes), forecast, rules, today: TODAY }));
  const rule = rules.find(({ id }) => id === 'power-failure')!;
  const window = { earliest: TODAY, due: TODAY, latest: TODAY };
  const [hours] = outageHours({ plan, rule, window, machine: null, day: TODAY });
  return { hours: hours!, byOxygen: dawnForecast(plan, TODAY)?.hoursWithoutPower ?? null };
}

describe('hours fish have without a pump', () => {
  it('are those of the table where the oxygen of the pond lasts longer', () => {
    const fewFish = [{ species: 'goldfish', count: 1, lengthCm: 10 }] as const;
    const { hours, byOxygen } = outage({ stock: fewFish }, 26);
    expect(byOxygen === null || byOxygen > 2).toBe(true);
    expect(hours).toMatchObject({ amount: 2, computed: 2, formula: expect.stringContaining('table') });
    expect(outage({ stock: fewFish }, 2).hours.amount).toBe(24);
  });

  it('are fewer where a crowd uses the oxygen up sooner, rounded down', () => {
    const crowd = [{ species: 'koi', count: 60, lengthCm: 60 }] as const;
    const { hours, byOxygen } = outage({ stock: crowd }, 26);
    expect(byOxygen).toBeLessThan(2);
    expect(hours.computed).toBe(byOxygen);
    expect(hours.amount).toBeLessThanOrEqual(byOxygen!);
    expect(hours.amount).toBeGreaterThan(0.9 * byOxygen!);
    expect(hours.formula).toContain('4 mg/L');
  });
});
