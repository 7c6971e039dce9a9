import { describe, expect, it } from '@jest/globals';
import type { CareHistory } from '../../../../src/core/care/care-plan.js';
import { planningContext } from '../../../../src/core/care/planning-context.js';
import { accumulationOutcome } from '../../../../src/core/care/triggers/accumulation.js';
import { addDays, civilDay, isoDateOf } from '../../../../src/core/units/civil-day.js';
import { lampLife } from '../../../../src/core/uv/lamp-life.js';
import { aMachine, aPlanInput, aPond, NO_HISTORY } from '../../../support/a-pond.js';
import { shippedRule, shippedRules } from '../../../support/shipped-rules.js';
import { sinusoidForecast } from '../../../support/sinusoid-forecast.js';

const POND = { meanC: 12, amplitudeC: 12, warmestDayOfYear: 205 };

function lampOutcome(given: {
  installedOn: string;
  today: string;
  careSince?: string;
  winterClass?: 'W0' | 'W2';
  meanC?: number;
  history?: CareHistory;
}) {
  const rule = shippedRule('uv-lamp-replacement');
  const lamp = aMachine('uv-lamp', { lampRatedHours: 9000 }, civilDay(given.installedOn));
  const forecast = sinusoidForecast({ ...POND, meanC: given.meanC ?? 12, firstDay: civilDay(given.today) });
  const context = planningContext(
    aPlanInput({
      forecast,
      rules: shippedRules(),
      pond: aPond({ equipment: [lamp], winterClass: given.winterClass ?? 'W2' }),
      careSince: civilDay(given.careSince ?? given.installedOn),
      history: given.history ?? NO_HISTORY,
    }),
  );
  const trigger = rule.anyOf[0];
  if (trigger?.kind !== 'accumulation') throw new Error('no accumulation');
  const result = accumulationOutcome(trigger, rule, context);
  if (!result.fires) throw new Error(result.because);
  return { ...result, due: isoDateOf(result.window.due) };
}

describe('lamp hours', () => {
  it('call for a lamp at the second spring start, because the rest would not last the season', () => {
    // Trade handbook section 8.6 (derived): on 15 Apr to 2 Nov = 201 d = 4,824 h; 4,176 h left are less than a season.
    const result = lampOutcome({ installedOn: '2026-04-15', today: '2026-04-15' });
    expect(result.due).toBe('2027-04-15');
    // Handbook 3.3: the hours would run out on 7 October; counted by whole days that is the day before or after.
    const reachedOn = Number(result.reason.inputs.find((input) => input.name === 'reached-on')?.value);
    expect(Math.abs(reachedOn - civilDay('2027-10-07'))).toBeLessThanOrEqual(1);
  });

  it('give the same day when asked in the middle of the winter', () => {
    const result = lampOutcome({ installedOn: '2026-04-15', today: '2027-01-15' });
    expect(result.due).toBe('2027-04-15');
  });

  it('run all year where winter brings no frost: 9,000 hours are 375 days', () => {
    // Trade handbook section 7.7: 8,760 hours a year.
    const result = lampOutcome({ installedOn: '2026-04-15', today: '2026-04-15', winterClass: 'W0', meanC: 24 });
    expect(result.due).toBe(isoDateOf(addDays(civilDay('2026-04-15'), 375)));
  });

  it('give the day that the life of a lamp by season gives for the same years', () => {
    const seasons = [2026, 2027].map((year) => ({ from: civilDay(`${year}-04-15`), until: civilDay(`${year}-11-01`) }));
    const life = lampLife({ seasons });
    expect(life.because).toBe('not-lasting-the-season');
    expect(lampOutcome({ installedOn: '2026-04-15', today: '2026-06-01' }).due).toBe(isoDateOf(life.replaceOn!));
  });

  it('start again from the day the lamp was really changed', () => {
    const finished = [
      { ruleId: 'uv-lamp-replacement', cycle: '1', state: 'COMPLETED', on: civilDay('2027-08-01'), actuals: {} },
    ] as const;
    const result = lampOutcome({
      installedOn: '2026-04-15',
      today: '2028-09-01',
      history: { ...NO_HISTORY, finished },
    });
    // 93 days to 2 Nov 2027 and 201 in 2028 are 7,056 h; the limit falls into 2029, whose season starts in April.
    expect(result.due).toBe('2029-04-15');
  });

  it('count the hours a lamp already had when it was put in', () => {
    const done = (lampHours: number) => [
      {
        ruleId: 'uv-lamp-replacement',
        cycle: '1',
        state: 'COMPLETED',
        on: civilDay('2026-05-01'),
        actuals: { lampHours },
      } as const,
    ];
    const used = lampOutcome({
      installedOn: '2024-04-15',
      today: '2026-05-02',
      history: { ...NO_HISTORY, finished: done(6000) },
    });
    expect(used.due).toBe(isoDateOf(addDays(civilDay('2026-05-01'), 125)));
  });

  it('of an old lamp are overdue from the day care began, not years before it', () => {
    const result = lampOutcome({ installedOn: '2022-05-01', today: '2026-08-01', careSince: '2026-08-01' });
    expect(result.due).toBe('2026-08-01');
  });
});

describe('filter solids', () => {
  function rinseOutcome(changes: Parameters<typeof aPond>[0], history: CareHistory) {
    const rule = shippedRule('filter-media-rinse');
    const forecast = sinusoidForecast({
      meanC: 21,
      amplitudeC: 1,
      warmestDayOfYear: 205,
      firstDay: civilDay('2026-07-01'),
    });
    const context = planningContext(
      aPlanInput({ forecast, rules: shippedRules(), pond: aPond(changes), history, careSince: civilDay('2026-06-01') }),
    );
    const trigger = rule.anyOf[0];
    if (trigger?.kind !== 'accumulation') throw new Error('no accumulation');
    return accumulationOutcome(trigger, rule, context);
  }
  const rinsed = {
    ...NO_HISTORY,
    finished: [
      {
        ruleId: 'filter-media-rinse',
        cycle: '1',
        state: 'COMPLETED',
        on: civilDay('2026-07-01'),
        actuals: {},
      } as const,
    ],
  };
  // Ten kilograms of adult koi eat 100 g a day at 22 °C (water handbook, check E-4).
  const tenKg = [{ species: 'koi', count: 5, lengthCm: 49.5 }] as const;

  it('of 100 g of food a day fill 40 L of media in six days', () => {
    // Trade handbook section 8.6 (derived): 0.8 x 7.41 = 5.9 d.
    const result = rinseOutcome({ stock: tenKg }, rinsed);
    expect(result.fires && result.window.due - civilDay('2026-07-01')).toBe(6);
  });

  it('wait 14 days where the same media carry the bacteria', () => {
    // Ruling 40: a third, gap 14 days.
    const equipment = [aMachine('pump', { flowLPerH: 14_000 }), aMachine('mechanical-filter', { mediaVolumeL: 40 })];
    const result = rinseOutcome({ stock: tenKg, equipment }, rinsed);
    expect(result.fires && result.window.due - civilDay('2026-07-01')).toBe(14);
  });

  it('cannot be counted without the volume of the media', () => {
    const result = rinseOutcome({ equipment: [aMachine('mechanical-filter')] }, rinsed);
    expect(result).toMatchObject({ fires: false, because: 'input-missing', detail: 'volume of the filter media' });
  });
});
