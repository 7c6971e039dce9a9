import { describe, expect, it } from '@jest/globals';
import type { CarePlan } from '../../../src/core/care/care-plan.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import type { TwelveMonths } from '../../../src/core/climate/station.js';
import { civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import { aClimate, aMachine, aPlanInput, aPond } from '../../support/a-pond.js';
import { shippedRules } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

/*
 * Whole years of three ponds, each day with the handbook line it follows. The water is a cosine (trade handbook
 * section 8.6): a fixture for the arithmetic of dates, derived, not a truth about weather.
 */

function dueDays(plan: CarePlan): Record<string, string> {
  return Object.fromEntries(plan.tasks.map((task) => [`${task.ruleId} ${task.cycle}`, isoDateOf(task.window.due)]));
}

function why(plan: CarePlan, ruleId: string): string | undefined {
  return plan.notDue.find((notDue) => notDue.ruleId === ruleId)?.because;
}

describe('a koi pond of 12 m³ in New York (Cfa, W2) with chloramine, planned on 1 March', () => {
  const forecast = sinusoidForecast({
    meanC: 12,
    amplitudeC: 12,
    warmestDayOfYear: 205,
    firstDay: civilDay('2026-03-01'),
    spreadDays: 10,
  });
  const pond = aPond({
    equipment: aPond().equipment.map((machine) => ({ ...machine, installedOn: civilDay('2025-04-15') })),
  });
  const plan = planCareCalendar(
    aPlanInput({ forecast, rules: shippedRules(), pond, careSince: civilDay('2026-03-01') }),
  );
  const due = dueDays(plan);

  it.each([
    ['spring-watch warming-2025', '2026-03-19', '8.6 ulcer watch from ↑ 5 °C, day 78'],
    ['spring-start-up warming-2025', '2026-03-30', '8.6 start-up gate ↑ 7 °C, day 89'],
    [
      'uv-season-on warming-2025',
      '2026-04-18',
      '8.6 UV on ↑ 10 °C, day 105, held 72 h by the filter restart (13, conflicts)',
    ],
    ['filter-restart warming-2025', '2026-04-15', '8.6 bio restart ↑ 10 °C, day 105'],
    ['plants-divide warming-2025', '2026-04-15', '8.6 divide lilies ↑ 10 °C, day 105'],
    ['feed-light-in-spring warming-2025', '2026-04-21', 'ruling 5: the seventh day at 10 °C or more'],
    ['feed-regular warming-2025', '2026-04-29', '8.6 regular feeding ↑ 13 °C, day 119'],
    ['plants-fertilise warming-2025', '2026-05-09', '8.6 fertilise ↑ 15 °C, day 129'],
    ['feed-light-in-autumn cooling-2026', '2026-10-09', '8.6 feed cut ↓ 15 °C, day 282'],
    ['feed-stop cooling-2026', '2026-11-02', '8.6 feeding stop ↓ 10 °C, day 306'],
    ['uv-season-off cooling-2026', '2026-11-02', '8.6 UV off ↓ 10 °C, day 306'],
    ['winter-pump-shutdown cooling-2026', '2026-11-29', '8.6 falls shut ↓ 5 °C, day 333'],
    ['ice-opening cooling-2026', '2026-11-28', '8.6 ice watch ↓ 4 °C, day 339 (5 Dec), a week ahead'],
    [
      'uv-lamp-replacement uv-lamp:1',
      '2026-03-30',
      '8.6 renewed at the second spring start, in company with the start-up',
    ],
    ['residual-current-test 1', '2026-03-31', 'CR-15: 30 days'],
  ])('has %s due on %s (%s)', (name, day) => {
    expect(due[name]).toBe(day);
  });

  it('feeds and tops up by standing lines of the season', () => {
    // CR-26 and CR-19; the line stands from ↑ 10 °C (day 105) to the day before ↓ 10 °C, and from ↑ 7 °C.
    expect(due['feed-by-water-temperature warming-2025']).toBe('2026-04-15');
    expect(due['evaporation-top-up warming-2025']).toBe('2026-03-30');
  });

  it('leaves out what this pond is not', () => {
    expect(why(plan, 'winter-pump-raise')).toBe('not-this-climate');
    expect(why(plan, 'part-water-change-light-stock')).toBe('not-this-stocking');
    expect(why(plan, 'run-in-first-week')).toBe('not-in-run-in');
    expect(why(plan, 'turtle-wintering')).toBe('no-turtles');
    expect(why(plan, 'summer-heat-ready')).toBe('no-crossing');
  });
});

describe('a koi pond in Phoenix (BWh, W0), planned on 1 March', () => {
  const months = (offsetC: number, swingC: number) =>
    Array.from(
      { length: 12 },
      (_, month) => offsetC - swingC * Math.cos((2 * Math.PI * (month - 0.3)) / 12),
    ) as unknown as TwelveMonths;
  const climate = aClimate({
    latitude: 33.4,
    meanC: months(24.6, 11),
    maxC: months(31, 11),
    minC: months(18, 11),
    precipitationMm: [22, 22, 21, 6, 3, 1, 23, 24, 14, 14, 15, 19],
    koeppen: 'BWh',
  });
  const forecast = sinusoidForecast({
    meanC: 21,
    amplitudeC: 8,
    warmestDayOfYear: 205,
    firstDay: civilDay('2026-03-01'),
    spreadDays: 5,
  });
  const pond = aPond({
    latitude: 33.4,
    winterClass: 'W0',
    equipment: aPond().equipment.map((machine) => ({ ...machine, installedOn: civilDay('2026-03-01') })),
  });
  const plan = planCareCalendar(
    aPlanInput({ forecast, climate, rules: shippedRules(), pond, careSince: civilDay('2026-03-01'), horizonDays: 400 }),
  );

  it('has no winter work, and says that its winters bring no ice', () => {
    // Trade handbook 7.7: no shutdown in W0; UV all year.
    for (const ruleId of [
      'winter-pump-shutdown',
      'spring-start-up',
      'ice-opening',
      'uv-season-off',
      'uv-season-on',
      'spring-watch',
    ]) {
      expect(why(plan, ruleId)).toBe('no-frost-climate');
    }
  });

  it('never stops feeding, and changes no band at 10 °C', () => {
    expect(why(plan, 'feed-stop')).toBe('no-crossing');
    expect(why(plan, 'feed-light-in-spring')).toBe('no-crossing');
  });

  it('changes over to light food when the water falls below 15 °C and back at 13 °C only if it fell that far', () => {
    // The water swings between 13 and 29 °C: ↓ 15 °C on day 205 + 58.09 acos(-6/8) = 345.5, 12 December; never below 13 °C.
    expect(dueDays(plan)['feed-light-in-autumn cooling-2026']).toBe('2026-12-12');
    expect(why(plan, 'feed-regular')).toBe('no-crossing');
  });

  it('makes ready for heat two weeks before 24 °C', () => {
    // ↑ 24 °C on day 205 - 58.09 acos(3/8) = 136.1, so 17 May; 14 days before that is 3 May.
    expect(dueDays(plan)['summer-heat-ready warming-2025']).toBe('2026-05-03');
  });

  it('renews the lamp after 9,000 hours without a pause', () => {
    // Trade handbook 7.7: 8,760 h a year; 9,000 h are 375 days.
    expect(dueDays(plan)['uv-lamp-replacement uv-lamp:1']).toBe('2027-03-11');
  });

  it('feeds all year on one line from one midwinter to the next', () => {
    const line = plan.tasks.find((task) => task.ruleId === 'feed-by-water-temperature');
    expect(line && [line.window.earliest, line.window.latest].map(isoDateOf)).toEqual(['2025-12-21', '2026-12-20']);
  });

  it('tops up in the desert summer by about 8 mm a day', () => {
    const july = planCareCalendar(
      aPlanInput({
        forecast: sinusoidForecast({
          meanC: 21,
          amplitudeC: 8,
          warmestDayOfYear: 205,
          firstDay: civilDay('2026-06-15'),
        }),
        climate,
        rules: shippedRules(),
        pond,
      }),
    );
    const weekL = july.tasks.find((task) => task.ruleId === 'evaporation-top-up')?.quantities[0]?.computed ?? 0;
    // Trade handbook 10.2: about 8 mm a day in hot-dry summers, 12 m² and 1.2 for the falls: 8 x 12 x 1.2 x 7 = 806 L.
    expect(weekL).toBeGreaterThan(560);
    expect(weekL).toBeLessThan(1050);
  });
});

describe('a koi pond in Melbourne (Cfb, south, W1), planned on 1 March', () => {
  const south = (north: TwelveMonths) => north.map((_, month) => north[(month + 6) % 12]) as unknown as TwelveMonths;
  const { meanC, maxC, minC } = aClimate();
  const mild = (values: TwelveMonths) =>
    south(values).map((value) => 15 + (value - 13) * 0.5) as unknown as TwelveMonths;
  const climate = aClimate({ latitude: -37.8, meanC: mild(meanC), maxC: mild(maxC), minC: mild(minC), koeppen: 'Cfb' });
  const forecast = sinusoidForecast({
    meanC: 14,
    amplitudeC: 8,
    warmestDayOfYear: 22,
    firstDay: civilDay('2026-03-01'),
    spreadDays: 5,
  });
  const pond = aPond({ latitude: -37.8, winterClass: 'W1', equipment: [...aPond().equipment, aMachine('de-icer')] });
  const plan = planCareCalendar(
    aPlanInput({ forecast, climate, rules: shippedRules(), pond, careSince: civilDay('2026-03-01') }),
  );
  const due = dueDays(plan);

  // Crossings of 14 + 8 cos(2π(d - 22)/365): ↓ 15 on day 22 + 58.09 acos(1/8) = 106.0; ↓ 10 on 22 + 58.09 acos(-1/2) =
  // 143.7; ↓ 7 on 22 + 58.09 acos(-7/8) = 175.3; ↑ 10 on 387 - 121.7 = 265.3; ↑ 13 on 387 - 98.5 = 288.5 (derived).
  it.each([
    ['feed-light-in-autumn cooling-2025', '2026-04-16', 'ruling 6: ↓ 15 °C'],
    ['feed-stop cooling-2025', '2026-05-24', 'ruling 4: ↓ 10 °C'],
    ['uv-season-off cooling-2025', '2026-05-24', 'ruling 41: ↓ 10 °C'],
    ['winter-pump-raise cooling-2025', '2026-06-25', 'CR-32: ↓ 7 °C in W1'],
    ['feed-light-in-spring warming-2026', '2026-09-29', 'ruling 5: the seventh day at 10 °C or more'],
    ['uv-season-on warming-2026', '2026-09-23', 'ruling 41: ↑ 10 °C'],
    ['feed-regular warming-2026', '2026-10-16', 'ruling 5: ↑ 13 °C'],
  ])('has %s due on %s (%s)', (name, day) => {
    expect(due[name]).toBe(day);
  });

  it('keeps its pump running through the mild winter', () => {
    expect(why(plan, 'winter-pump-shutdown')).toBe('not-this-climate');
    expect(why(plan, 'spring-start-up')).toBe('not-this-climate');
  });

  it('names its autumn after the midsummer before New Year', () => {
    expect(Object.keys(due)).toContain('feed-stop cooling-2025');
  });
});
