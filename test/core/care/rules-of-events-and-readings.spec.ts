import { describe, expect, it } from '@jest/globals';
import type { CareHistory, CarePlan } from '../../../src/core/care/care-plan.js';
import type { CareEvent, ReadingQuantity } from '../../../src/core/care/care-rule.js';
import { notDueWords } from '../../../src/core/care/explain.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import type { PondFacts } from '../../../src/core/care/pond-facts.js';
import { addDays, civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import { aMachine, aPlanInput, aPond, NO_HISTORY } from '../../support/a-pond.js';
import { shippedRule } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const TODAY = civilDay('2026-05-01');
const read = (quantity: ReadingQuantity, ...values: readonly (readonly [daysAgo: number, value: number])[]) =>
  values.map(([daysAgo, value], index) => {
    const on = addDays(TODAY, -daysAgo);
    return { id: `${quantity}-${index + 1}`, quantity, value, on, atMs: on * 86_400_000 };
  });
const happened = (kind: CareEvent, daysAgo = 0) => [{ id: kind, kind, on: addDays(TODAY, -daysAgo) }];

function planned(
  id: string,
  history: Partial<CareHistory> = {},
  pond: Partial<PondFacts> = {},
  warmestC = 24,
): CarePlan {
  const forecast = sinusoidForecast({ meanC: 12, amplitudeC: warmestC - 12, warmestDayOfYear: 205, firstDay: TODAY });
  return planCareCalendar(
    aPlanInput({
      forecast,
      rules: [shippedRule(id)],
      pond: aPond(pond),
      history: { ...NO_HISTORY, ...history },
      careSince: civilDay('2026-03-01'),
    }),
  );
}
const dueOf = (plan: CarePlan) => plan.tasks.map(({ window }) => isoDateOf(window.due));

describe('the rules of rarer things', () => {
  it('CR-01 measures a volume that is known too badly to dose by, and no other', () => {
    expect(dueOf(planned('volume-verify', {}, { volumeSigmaPct: 25 }))).toEqual(['2026-03-15']);
    expect(planned('volume-verify').tasks).toEqual([]);
  });

  it('CR-18 tests for a leak when half as much again was topped up as evaporation explains', () => {
    // In the last week of April about 9 mm go from 12 m², so that 2 mm a day are the least that shows: 168 L x 1.5.
    expect(planned('leak-test', { readings: read('weekly-top-up', [0, 240]) }).tasks).toEqual([]);
    const [task] = planned('leak-test', { readings: read('weekly-top-up', [0, 400]) }).tasks;
    expect(task).toMatchObject({ cycle: 'weekly-top-up-1', consequence: 'care' });
    expect(task?.reason.inputs.find(({ name }) => name === 'limit')?.value).toBeGreaterThanOrEqual(252);
  });

  it('CR-20 takes sludge out between 10 and 22 °C, not over dormant fish', () => {
    expect(dueOf(planned('sludge-removal', { readings: read('sludge-depth', [0, 40]) }))).toEqual(['2026-05-22']);
    expect(planned('sludge-removal', { readings: read('sludge-depth', [0, 20]) }).tasks).toEqual([]);
  });

  it('CR-34 clears snow within a day of ten centimetres', () => {
    expect(dueOf(planned('snow-clear', { readings: read('snow-depth', [0, 12]) }))).toEqual(['2026-05-02']);
    expect(planned('snow-clear', { readings: read('snow-depth', [0, 12]) }, { winterClass: 'W0' }).tasks).toEqual([]);
  });

  it('CR-40 waits until the water has been green for a fortnight', () => {
    const readings = read('clarity', [10, 30], [3, 25]);
    expect(dueOf(planned('green-water', { readings }))).toEqual(['2026-05-07']);
    expect(planned('green-water', { readings: [...readings, ...read('clarity', [0, 60])] }).tasks).toEqual([]);
  });

  it('CR-42 lets nobody treat in warm water, without oxygen or on soft water, and says what it waits for', () => {
    const good = [...read('dissolved-oxygen', [1, 8]), ...read('alkalinity', [1, 120])];
    const asked = { events: happened('algaecide-asked') };
    expect(planned('algaecide-request', { ...asked, readings: good }).tasks).toMatchObject([{ doneBy: 'technician' }]);
    const without = planned('algaecide-request', { ...asked, readings: good.slice(0, 1) });
    expect(without.tasks).toEqual([]);
    const [why] = without.notDue;
    expect(why && notDueWords(why, shippedRule('algaecide-request'))).toBe(
      'It waits: a reading of alkalinity of 50 mg/L as CaCO3 or more, not older than a month.',
    );
    const poor = [...read('dissolved-oxygen', [1, 5]), ...read('alkalinity', [1, 120])];
    expect(planned('algaecide-request', { ...asked, readings: poor }).tasks).toEqual([]);
    expect(shippedRule('algaecide-request').quantities).toEqual([]);
  });

  it('CR-43 hangs straw in only where it was chosen, 25 g for each square metre', () => {
    expect(planned('barley-straw').notDue).toMatchObject([{ because: 'not-chosen' }]);
    const agreement = [{ ruleId: 'barley-straw', doneBy: 'homeowner', from: null, until: null }] as const;
    expect(planned('barley-straw', {}, { agreement }).tasks[0]).toMatchObject({
      doneBy: 'homeowner',
      quantities: [{ of: 'barley-straw', amount: 300, unit: 'g' }],
    });
  });

  it.each([
    [27, 2],
    [22, 4],
    [15, 12],
    [9, 24],
  ])('CR-44 gives fish without a pump in water of %d °C about %d hours', (waterC, hours) => {
    const forecast = sinusoidForecast({ meanC: waterC - 1, amplitudeC: 0, warmestDayOfYear: 205, firstDay: TODAY });
    const history = { ...NO_HISTORY, events: happened('power-failure') };
    const plan = planCareCalendar(aPlanInput({ forecast, rules: [shippedRule('power-failure')], history }));
    expect(plan.tasks).toMatchObject([
      { consequence: 'urgent', window: { due: TODAY, latest: TODAY }, quantities: [{ amount: hours, unit: 'h' }] },
    ]);
  });

  it('tests the water three times after a start-up, each under its own name', () => {
    const finished = [
      { ruleId: 'spring-start-up', cycle: 'warming-2025', state: 'COMPLETED', on: civilDay('2026-04-20'), actuals: {} },
    ] as const;
    const plan = planned('spring-tests', { finished });
    expect(plan.tasks.map(({ cycle, window }) => [cycle, isoDateOf(window.due)])).toEqual([
      ['spring-start-up:warming-2025', '2026-04-27'],
      ['spring-start-up:warming-2025+1', '2026-05-04'],
      ['spring-start-up:warming-2025+2', '2026-05-18'],
    ]);
  });

  it('looks each machine over a month before its warranty ends', () => {
    const equipment = [
      { ...aMachine('pump'), warrantyUntil: civilDay('2026-07-31') },
      { ...aMachine('aerator'), warrantyUntil: civilDay('2026-09-30') },
      aMachine('skimmer'),
    ];
    const plan = planned('warranty-end', {}, { equipment });
    expect(plan.tasks.map(({ cycle, machine, window }) => [cycle, machine?.name, isoDateOf(window.due)])).toEqual([
      ['warranty-pump', 'pump', '2026-07-01'],
      ['warranty-aerator', 'aerator', '2026-08-31'],
    ]);
  });

  it('reads oxygen at dawn for two weeks after an algaecide', () => {
    const [task] = planned('algaecide-watch', { events: happened('algaecide-applied', 1) }).tasks;
    expect(task && [task.window.due, task.window.latest].map(isoDateOf)).toEqual(['2026-05-01', '2026-05-14']);
  });

  it('keeps biological media alone for a week after new fish', () => {
    const finished = [
      {
        ruleId: 'biological-media-rinse',
        cycle: 'biological-filter:1',
        state: 'COMPLETED',
        on: addDays(TODAY, -178),
        actuals: {},
      },
    ] as const;
    const without = planned('biological-media-rinse', { finished }).tasks[0];
    const withFish = planned('biological-media-rinse', { finished, events: happened('fish-added') }).tasks[0];
    expect((withFish?.window.due ?? 0) - TODAY).toBeGreaterThanOrEqual(7);
    expect(without?.window.due).toBeLessThan(withFish?.window.due ?? 0);
  });

  it('rinses no media in an oxygen emergency, until oxygen was read again or a week has passed', () => {
    const rinse = (...readings: Parameters<typeof read>[1][]) =>
      planned('filter-media-rinse', { readings: read('dissolved-oxygen', ...readings) });
    expect(rinse([1, 3.5]).notDue).toMatchObject([{ because: 'gate-never-holds' }]);
    expect(rinse([1, 3.5], [0, 7]).tasks).toHaveLength(1);
    expect(rinse([9, 3.5]).tasks).toHaveLength(1);
    expect(planned('filter-media-rinse').tasks).toHaveLength(1);
  });
});
