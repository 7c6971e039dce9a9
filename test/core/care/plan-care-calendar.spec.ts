import { beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { CarePlan, PlanInput } from '../../../src/core/care/care-plan.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import type { PondFacts, WinterClass } from '../../../src/core/care/pond-facts.js';
import { reconcile } from '../../../src/core/care/reconcile.js';
import { forecastWater } from '../../../src/core/thermal/forecast-water.js';
import { addDays, type CivilDay, civilDay } from '../../../src/core/units/civil-day.js';
import { aClimate, aMachine, aPlanInput, aPond, NO_HISTORY } from '../../support/a-pond.js';
import { shippedRule, shippedRules } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const POND = { meanC: 12, amplitudeC: 12, warmestDayOfYear: 205 };
const rules = shippedRules();

function simulated(today: string): PlanInput {
  const forecast = forecastWater({
    pond: {
      latitude: 40.8,
      elevationM: 40,
      surfaceAreaM2: 12,
      meanDepthM: 1,
      shadeShare: 0.2,
      windAt2mMPerS: 1.5,
      waterfallFlowLPerH: 8000,
    },
    climate: aClimate(),
    firstDay: civilDay(today),
    days: 548,
    seed: 7,
    traces: 20,
  });
  return aPlanInput({ forecast, rules, careSince: civilDay(today) });
}

function asStanding(plan: CarePlan) {
  return plan.tasks.map((task) => ({
    ruleId: task.ruleId,
    cycle: task.cycle,
    state: 'NEEDS-ACTION' as const,
    window: task.window,
    planned: task,
    heldDue: null,
    promisedOn: null,
  }));
}

describe('planCareCalendar', () => {
  it('gives the same plan for the same input, byte for byte', () => {
    expect(JSON.stringify(planCareCalendar(simulated('2026-03-01')))).toBe(
      JSON.stringify(planCareCalendar(simulated('2026-03-01'))),
    );
  });

  it('does not care for the order of rules, machines, stock, readings, events and agreements', () => {
    const on = civilDay('2026-07-01');
    const readings = (['nitrite', 'total-ammonia', 'ph'] as const).map((quantity, index) => ({
      id: `r${index}`,
      quantity,
      value: quantity === 'ph' ? 8.2 : 1.2,
      on,
      atMs: on * 86_400_000 + index,
    }));
    const finished = (['part-water-change', 'water-test', 'pump-clean'] as const).map((ruleId) => ({
      ruleId,
      cycle: '1',
      state: 'COMPLETED' as const,
      on: civilDay('2026-06-25'),
      actuals: {},
    }));
    const input = aPlanInput({
      forecast: sinusoidForecast({ ...POND, firstDay: on }),
      rules,
      history: { readings, finished, events: [{ id: 'e', kind: 'fish-added', on: civilDay('2026-06-20') }] },
      careSince: civilDay('2026-05-01'),
    });
    const shuffled: PlanInput = {
      ...input,
      rules: rules.toReversed(),
      history: { ...input.history, readings: readings.toReversed(), finished: finished.toReversed() },
      pond: { ...input.pond, equipment: input.pond.equipment.toReversed(), stock: input.pond.stock.toReversed() },
    };
    expect(JSON.stringify(planCareCalendar(shuffled))).toBe(JSON.stringify(planCareCalendar(input)));
  });

  it('gives nothing to change when it is run again', () => {
    const input = simulated('2026-03-01');
    const plan = planCareCalendar(input);
    expect(reconcile({ standing: asStanding(plan), plan: planCareCalendar(input), today: input.today })).toEqual([]);
  });

  it('moves nothing overnight when no weather, reading or deed is new', () => {
    const before = planCareCalendar(simulated('2026-03-01'));
    const next = simulated('2026-03-02');
    const plan = planCareCalendar({ ...next, careSince: civilDay('2026-03-01') });
    const moved = reconcile({ standing: asStanding(before), plan, today: next.today }).filter(
      (change) => change.kind !== 'added',
    );
    expect(moved).toEqual([]);
  });

  it('names a rule either with a task or with the reason why it gives none', () => {
    const plan = planCareCalendar(simulated('2026-03-01'));
    for (const rule of rules) {
      const isPlanned = plan.tasks.some((task) => task.ruleId === rule.id);
      expect(isPlanned || plan.notDue.some((notDue) => notDue.ruleId === rule.id)).toBe(true);
    }
  });

  it('never brings back a finished name', () => {
    const input = simulated('2026-03-01');
    const first = planCareCalendar(input);
    const finished = first.tasks.map(({ ruleId, cycle }) => ({
      ruleId,
      cycle,
      state: 'COMPLETED' as const,
      on: input.today,
      actuals: {},
    }));
    const again = planCareCalendar({ ...input, history: { ...NO_HISTORY, finished } });
    const names = new Set(finished.map((task) => `${task.ruleId} ${task.cycle}`));
    expect(again.tasks.filter((task) => names.has(`${task.ruleId} ${task.cycle}`))).toEqual([]);
  });

  it('starts each interval anew from the day the work was done', () => {
    const input = simulated('2026-07-01');
    const done = (on: CivilDay) => {
      const finished = [{ ruleId: 'part-water-change', cycle: '1', state: 'COMPLETED', on, actuals: {} }] as const;
      const plan = planCareCalendar({ ...input, history: { ...NO_HISTORY, finished } });
      return plan.tasks.find((task) => task.ruleId === 'part-water-change');
    };
    expect(done(civilDay('2026-06-28'))).toMatchObject({ cycle: '2', window: { due: civilDay('2026-07-05') } });
    expect(done(civilDay('2026-07-01'))).toMatchObject({ cycle: '2', window: { due: civilDay('2026-07-08') } });
  });

  it('has the feed of this week on its standing line, and the band switches as tasks', () => {
    const plan = planCareCalendar(simulated('2026-07-01'));
    const line = plan.tasks.find((task) => task.ruleId === 'feed-by-water-temperature');
    expect(line).toMatchObject({ routineLine: true, doneBy: 'homeowner' });
    expect(line?.quantities[0]?.amount).toBeGreaterThan(0);
    const switches = plan.tasks.filter((task) => task.ruleId.startsWith('feed-') && !task.routineLine);
    expect(switches.map((task) => task.ruleId)).toEqual([
      'feed-light-in-autumn',
      'feed-stop',
      'feed-light-in-spring',
      'feed-regular',
    ]);
  });

  it('drops the change to light food once feeding has stopped', () => {
    const input = aPlanInput({
      forecast: sinusoidForecast({ ...POND, firstDay: civilDay('2026-11-10') }),
      rules: [shippedRule('feed-light-in-autumn'), shippedRule('feed-stop')],
      horizonDays: 100,
    });
    const plan = planCareCalendar(input);
    expect(plan.tasks.map((task) => task.ruleId)).toEqual(['feed-stop']);
    expect(plan.notDue).toMatchObject([{ ruleId: 'feed-light-in-autumn', because: 'overtaken', detail: 'feed-stop' }]);
  });
});

const aSketch = fc.record({
  meanC: fc.double({ min: 4, max: 26, noNaN: true }),
  amplitudeC: fc.double({ min: 0, max: 14, noNaN: true }),
  spreadDays: fc.integer({ min: 0, max: 20 }),
  day: fc.integer({ min: 0, max: 1500 }),
  latitude: fc.constantFrom(52, 40.8, -37.8, -31),
  winterClass: fc.constantFrom<WinterClass>('W0', 'W1', 'W2', 'W3'),
  volumeL: fc.integer({ min: 800, max: 60_000 }),
  koi: fc.integer({ min: 0, max: 20 }),
  tap: fc.constantFrom('chlorine', 'chloramine', 'well', 'unknown') as fc.Arbitrary<PondFacts['tap']['source']>,
  machines: fc.subarray([
    'pump',
    'mechanical-filter',
    'biological-filter',
    'uv-lamp',
    'aerator',
    'skimmer',
    'heater',
    'lights',
  ] as const),
  newPond: fc.boolean(),
  careFor: fc.integer({ min: 0, max: 900 }),
});
type Sketch = typeof aSketch extends fc.Arbitrary<infer T> ? T : never;

/** One value for each place, so that its climate dates are worked out once. */
const CLIMATES = new Map([52, 40.8, -37.8, -31].map((latitude) => [latitude, aClimate({ latitude })]));

function inputOf(one: Sketch): PlanInput {
  const today = addDays(civilDay('2026-01-01'), one.day);
  const commissionedOn = addDays(today, -one.careFor);
  return aPlanInput({
    forecast: sinusoidForecast({
      meanC: one.meanC,
      amplitudeC: Math.min(one.amplitudeC, one.meanC + 1),
      warmestDayOfYear: one.latitude > 0 ? 205 : 22,
      firstDay: today,
      spreadDays: one.spreadDays,
    }),
    rules,
    defaultDoneBy: 'homeowner',
    climate: CLIMATES.get(one.latitude) ?? aClimate(),
    careSince: commissionedOn,
    pond: aPond({
      latitude: one.latitude,
      winterClass: one.winterClass,
      volumeL: one.volumeL,
      surfaceAreaM2: one.volumeL / 1000,
      stock: one.koi === 0 ? [] : [{ species: 'koi', count: one.koi, lengthCm: 35 }],
      tap: { source: one.tap, totalChlorineMgPerL: null },
      equipment: one.machines.map((kind) =>
        aMachine(kind, { mediaVolumeL: 60, mediaAreaM2PerM3: 400, flowLPerH: 5000 }, null),
      ),
      commissionedOn,
      stockedOn: one.newPond ? null : commissionedOn,
    }),
  });
}

describe('a plan, for ponds and seasons of every kind,', () => {
  let planned: readonly { readonly input: PlanInput; readonly plan: CarePlan }[];
  beforeAll(() => {
    planned = fc.sample(aSketch, { numRuns: 80, seed: 2026 }).map((sketch) => {
      const input = inputOf(sketch);
      return { input, plan: planCareCalendar(input) };
    });
  });

  it('has no name twice, and windows in order', () => {
    for (const { plan } of planned) {
      const names = plan.tasks.map((task) => `${task.ruleId} ${task.cycle}`);
      expect(new Set(names).size).toBe(names.length);
      for (const { window, consequence } of plan.tasks) {
        expect(window.earliest).toBeLessThanOrEqual(window.due);
        expect(window.due).toBeLessThanOrEqual(window.latest);
        if (consequence === 'urgent') expect(window.latest).toBe(window.due);
      }
    }
  });

  it('has nothing before the pond was filled, and nothing after the horizon', () => {
    for (const { input, plan } of planned) {
      for (const task of plan.tasks) {
        expect(task.window.due).toBeGreaterThanOrEqual(input.pond.commissionedOn as number);
        expect(task.window.due).toBeLessThanOrEqual(input.today + input.horizonDays);
      }
    }
  });

  it('feeds nothing below 10 °C', () => {
    const lines = planned.flatMap(({ input, plan }) =>
      plan.tasks
        .filter((task) => task.ruleId === 'feed-by-water-temperature' && task.window.earliest <= input.today)
        .map((task) => ({ waterC: input.forecast.median7dMeanC[0] as number, feed: task.quantities[0]?.amount ?? 0 })),
    );
    const cold = lines.filter((line) => line.waterC < 10);
    expect(cold.map((line) => line.feed)).toEqual(cold.map(() => 0));
    expect(lines.filter((line) => line.waterC > 16).some((line) => line.feed > 0)).toBe(true);
  });

  it('shuts nothing down where winters bring no ice', () => {
    const warm = planned.filter(({ input }) => input.pond.winterClass === 'W0');
    expect(warm.length).toBeGreaterThan(5);
    for (const { plan } of warm) {
      const ids = plan.tasks.map((task) => task.ruleId);
      for (const id of [
        'winter-pump-shutdown',
        'winter-pump-raise',
        'spring-start-up',
        'ice-opening',
        'uv-season-off',
      ]) {
        expect(ids).not.toContain(id);
      }
    }
  });

  it('gives a homeowner no lamp, no mains wiring and no line to drain', () => {
    for (const { plan } of planned) {
      for (const task of plan.tasks) {
        if (/^(uv-|winter-pump|spring-start-up|lights|aerator-diaphragm)/.test(task.ruleId)) {
          expect(task.doneBy).toBe('technician');
        }
      }
    }
  });

  it('puts no livestock into a pond without readings', () => {
    expect(planned.some(({ input }) => input.pond.stockedOn === null)).toBe(true);
    for (const { plan } of planned) expect(plan.tasks.map((task) => task.ruleId)).not.toContain('first-livestock');
  });
});
