import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { planCareCalendar } from '../../../../src/core/care/plan-care-calendar.js';
import { daysToLimit } from '../../../../src/core/care/triggers/reading-trend.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../../../../src/core/units/civil-day.js';
import { aPlanInput, NO_HISTORY } from '../../../support/a-pond.js';
import { shippedRule } from '../../../support/shipped-rules.js';
import { sinusoidForecast } from '../../../support/sinusoid-forecast.js';

const TODAY = civilDay('2026-07-01');
const nitrates = (values: readonly (readonly [daysAgo: number, value: number])[]) =>
  values.map(([daysAgo, value], index) => ({
    id: `r${index + 1}`,
    quantity: 'nitrate' as const,
    value,
    on: addDays(TODAY, -daysAgo),
    atMs: addDays(TODAY, -daysAgo) * 86_400_000,
  }));

describe('daysToLimit', () => {
  it('is the day on which the line through the readings passes the limit', () => {
    // 0.2 mg/L a day: from 14 to 18 in 20 days.
    expect(
      daysToLimit(
        nitrates([
          [20, 10],
          [10, 12],
          [0, 14],
        ]),
        18,
        'above',
      ),
    ).toBe(20);
  });

  it('is nothing for two readings, for a week not yet full, or once one goes back', () => {
    expect(
      daysToLimit(
        nitrates([
          [20, 10],
          [0, 14],
        ]),
        18,
        'above',
      ),
    ).toBeNull();
    expect(
      daysToLimit(
        nitrates([
          [6, 10],
          [3, 12],
          [0, 14],
        ]),
        18,
        'above',
      ),
    ).toBeNull();
    expect(
      daysToLimit(
        nitrates([
          [20, 10],
          [10, 15],
          [0, 14],
        ]),
        18,
        'above',
      ),
    ).toBeNull();
    expect(
      daysToLimit(
        nitrates([
          [20, 14],
          [10, 14],
          [0, 14],
        ]),
        18,
        'above',
      ),
    ).toBeNull();
  });

  it('counts one reading a day, and none that is older than 60 days', () => {
    expect(
      daysToLimit(
        nitrates([
          [80, 1],
          [10, 12],
          [0, 14],
        ]),
        18,
        'above',
      ),
    ).toBeNull();
    expect(
      daysToLimit(
        nitrates([
          [10, 12],
          [0, 13],
          [0, 14],
        ]),
        18,
        'above',
      ),
    ).toBeNull();
  });

  it('is never negative, and mirrors rising and falling', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 3, maxLength: 8 }),
        fc.integer({ min: 60, max: 90 }),
        (values, limit) => {
          const rising = nitrates(values.map((value, index) => [(values.length - index) * 5, value]));
          const falling = rising.map((reading) => ({ ...reading, value: -reading.value }));
          const days = daysToLimit(rising, limit, 'above');
          expect(daysToLimit(falling, -limit, 'below')).toBe(days);
          expect(days ?? 0).toBeGreaterThanOrEqual(0);
        },
      ),
    );
  });
});

describe('a trend of readings', () => {
  const rule = shippedRule('nitrate-high');
  const planned = (readings: ReturnType<typeof nitrates>, today: CivilDay = TODAY) => {
    const forecast = sinusoidForecast({ meanC: 12, amplitudeC: 12, warmestDayOfYear: 205, firstDay: today });
    const history = { ...NO_HISTORY, readings };
    return planCareCalendar(aPlanInput({ forecast, rules: [rule], history })).tasks[0];
  };

  it('asks for the work by the day it would pass the limit, as care and not as urgent', () => {
    const task = planned(
      nitrates([
        [20, 12],
        [10, 14],
        [0, 16],
      ]),
    );
    // 0.2 mg/L a day from 16 to 18.07: 10.35 days, so 12 July.
    expect(task).toMatchObject({ cycle: 'r3', consequence: 'care' });
    expect(task && isoDateOf(task.window.due)).toBe('2026-07-12');
  });

  it('stays the same task when it becomes an excess', () => {
    const readings = nitrates([
      [20, 12],
      [10, 14],
      [0, 16],
    ]);
    const later = {
      id: 'r4',
      quantity: 'nitrate' as const,
      value: 19,
      on: addDays(TODAY, 12),
      atMs: addDays(TODAY, 12) * 86_400_000,
    };
    const task = planned([...readings, later], addDays(TODAY, 12));
    expect(task).toMatchObject({ cycle: 'r3' });
    expect(task && isoDateOf(task.window.due)).toBe('2026-07-20');
  });

  it('is no task while the limit lies further off than the rule looks ahead', () => {
    expect(
      planned(
        nitrates([
          [20, 2],
          [10, 2.5],
          [0, 3],
        ]),
      ),
    ).toBeUndefined();
  });
});
