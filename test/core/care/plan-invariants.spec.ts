import { beforeAll, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { CarePlan, FinishedTask, PlanInput, PondReading } from '../../../src/core/care/care-plan.js';
import type { CareEvent, ReadingQuantity } from '../../../src/core/care/care-rule.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import type { PondFacts, WinterClass } from '../../../src/core/care/pond-facts.js';
import { projectOccurrences } from '../../../src/core/care/project-occurrences.js';
import { reconcile } from '../../../src/core/care/reconcile.js';
import type { TwelveMonths } from '../../../src/core/climate/station.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import { aClimate, aMachine, aPlanInput, aPond, NO_HISTORY } from '../../support/a-pond.js';
import { shippedRule, shippedRules } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const rules = shippedRules();
const MACHINES = [
  aMachine('pump', { flowLPerH: 8000 }),
  { ...aMachine('pump', { flowLPerH: 5000 }), id: 'pump-2', name: 'second pump' },
  aMachine('mechanical-filter', { mediaVolumeL: 40 }),
  aMachine('biological-filter', { mediaVolumeL: 120, mediaAreaM2PerM3: 500 }),
  {
    ...aMachine('biological-filter', { mediaVolumeL: 60, mediaAreaM2PerM3: 500 }),
    id: 'bio-2',
    name: 'second chamber',
  },
  aMachine('uv-lamp', { lampRatedHours: 9000 }),
  { ...aMachine('uv-lamp', {}, null), id: 'uv-lamp-2', name: 'second lamp' },
  { ...aMachine('aerator'), warrantyUntil: civilDay('2027-01-15') },
  aMachine('de-icer'),
  aMachine('skimmer'),
  aMachine('lights'),
  aMachine('auto-fill'),
  aMachine('heater'),
];
const QUANTITIES: readonly (readonly [ReadingQuantity, number])[] = [
  ['nitrate', 25],
  ['nitrite', 0.5],
  ['total-ammonia', 2],
  ['ph', 10],
  ['alkalinity', 120],
  ['dissolved-oxygen', 9],
  ['pump-flow', 9000],
  ['clarity', 80],
  ['algae-cover', 30],
  ['sludge-depth', 60],
  ['snow-depth', 20],
  ['weekly-top-up', 2000],
];
const EVENTS: readonly CareEvent[] = [
  'fish-added',
  'large-water-change',
  'power-failure',
  'algaecide-asked',
  'algaecide-applied',
];

const aSketch = fc.record({
  meanC: fc.double({ min: 4, max: 26, noNaN: true }),
  amplitudeC: fc.double({ min: 0, max: 14, noNaN: true }),
  spreadDays: fc.integer({ min: 0, max: 20 }),
  day: fc.integer({ min: 0, max: 1500 }),
  latitude: fc.constantFrom(52, 40.8, -37.8, -31),
  winterClass: fc.constantFrom<WinterClass>('W0', 'W1', 'W2', 'W3'),
  volumeL: fc.integer({ min: 800, max: 60_000 }),
  sigmaPct: fc.constantFrom(5, 25),
  stock: fc.constantFrom<PondFacts['stock']>(
    [],
    [{ species: 'koi', count: 6, lengthCm: 35 }],
    [{ species: 'goldfish', count: 9, lengthCm: 12 }],
    [{ species: 'slider-turtle', count: 2, lengthCm: 18 }],
  ),
  tap: fc.constantFrom('chlorine', 'chloramine', 'well', 'unknown') as fc.Arbitrary<PondFacts['tap']['source']>,
  machines: fc.subarray(MACHINES),
  plants: fc.subarray(['hardy-lily', 'tropical-lily', 'marginal', 'submerged', 'lotus'] as const),
  newPond: fc.boolean(),
  careFor: fc.integer({ min: 0, max: 900 }),
  readings: fc.array(
    fc.tuple(
      fc.constantFrom(...QUANTITIES),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.integer({ min: 0, max: 80 }),
    ),
    { maxLength: 14 },
  ),
  events: fc.array(fc.tuple(fc.constantFrom(...EVENTS), fc.integer({ min: 0, max: 90 })), { maxLength: 4 }),
  doneShare: fc.double({ min: 0, max: 1, noNaN: true }),
});
type Sketch = typeof aSketch extends fc.Arbitrary<infer T> ? T : never;

const CLIMATES = new Map([52, 40.8, -37.8, -31].map((latitude) => [latitude, aClimate({ latitude })]));

function inputOf(one: Sketch): PlanInput {
  const today = addDays(civilDay('2026-01-01'), one.day);
  const commissionedOn = addDays(today, -one.careFor);
  const readings: PondReading[] = one.readings.map(([[quantity, most], share, daysAgo], index) => {
    const on = addDays(today, -daysAgo);
    return { id: `r${index}`, quantity, value: share * most, on, atMs: on * 86_400_000 + index };
  });
  const events = one.events.map(([kind, daysAgo], index) => ({ id: `e${index}`, kind, on: addDays(today, -daysAgo) }));
  const input = aPlanInput({
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
    history: { ...NO_HISTORY, readings, events },
    pond: aPond({
      latitude: one.latitude,
      winterClass: one.winterClass,
      volumeL: one.volumeL,
      volumeSigmaPct: one.sigmaPct,
      surfaceAreaM2: one.volumeL / 1000,
      stock: one.stock,
      plants: one.plants,
      tap: { source: one.tap, totalChlorineMgPerL: null },
      equipment: one.machines,
      agreement: rules.map(({ id }) => ({ ruleId: id, doneBy: 'homeowner' as const, from: null, until: null })),
      commissionedOn,
      stockedOn: one.newPond ? null : commissionedOn,
    }),
  });
  // Some of what was planned has been done, so that running numbers and counted days begin anew.
  const finished = planCareCalendar(input)
    .tasks.filter((_, index) => (index * 0.37) % 1 < one.doneShare)
    .map(({ ruleId, cycle }): FinishedTask => ({ ruleId, cycle, state: 'COMPLETED', on: today, actuals: {} }));
  return { ...input, history: { ...input.history, finished } };
}

const nameOf = ({ ruleId, cycle }: { ruleId: string; cycle: string }) => `${ruleId} ${cycle}`;
const isRinse = (ruleId: string) => ruleId === 'filter-media-rinse' || ruleId === 'biological-media-rinse';

describe('the calendar of any pond in any season', () => {
  let planned: readonly { readonly input: PlanInput; readonly plan: CarePlan }[];
  beforeAll(() => {
    planned = fc.sample(aSketch, { numRuns: 80, seed: 46 }).map((sketch) => {
      const input = inputOf(sketch);
      return { input, plan: planCareCalendar(input) };
    });
  });

  it('has each name once, windows in order, and no name that was finished', () => {
    for (const { input, plan } of planned) {
      const names = plan.tasks.map(nameOf);
      expect(new Set(names).size).toBe(names.length);
      const finished = new Set(input.history.finished.map(nameOf));
      expect(names.filter((name) => finished.has(name))).toEqual([]);
      for (const { window, consequence } of plan.tasks) {
        expect(window.earliest).toBeLessThanOrEqual(window.due);
        expect(window.due).toBeLessThanOrEqual(window.latest);
        if (consequence === 'urgent') expect(window.latest).toBe(window.due);
      }
    }
    expect(planned.some(({ input }) => input.history.finished.length > 5)).toBe(true);
  });

  it('has nothing before the pond was filled', () => {
    for (const { input, plan } of planned) {
      for (const { window } of plan.tasks) expect(window.due).toBeGreaterThanOrEqual(input.pond.commissionedOn ?? 0);
    }
  });

  it('gives no food below the stop temperature', () => {
    const meals = planned.flatMap(({ input, plan }) =>
      plan.tasks
        .filter((task) => task.ruleId === 'feed-by-water-temperature' && task.window.earliest <= input.today)
        .map((task) => ({ waterC: input.forecast.median7dMeanC[0] ?? 0, feed: task.quantities[0]?.computed ?? 0 })),
    );
    expect(meals.filter(({ waterC, feed }) => waterC < 10 && feed > 0)).toEqual([]);
    expect(meals.length).toBeGreaterThan(5);
  });

  it('shuts nothing down where no ice comes', () => {
    const warm = planned.filter(({ input }) => input.pond.winterClass === 'W0');
    const winterWork = /^(winter-|spring-start|ice-opening|snow-clear|uv-season|de-icer)/;
    expect(warm.flatMap(({ plan }) => plan.tasks.filter(({ ruleId }) => winterWork.test(ruleId)))).toEqual([]);
    expect(warm.length).toBeGreaterThan(10);
  });

  it('keeps two rinses of media that carry bacteria apart, or says that it could not', () => {
    let pairs = 0;
    for (const { plan } of planned) {
      const rinses = plan.tasks.filter(({ ruleId }) => isRinse(ruleId));
      for (const [index, rinse] of rinses.entries()) {
        for (const other of rinses.slice(index + 1)) {
          if (rinse.ruleId === 'filter-media-rinse' && other.ruleId === 'filter-media-rinse') continue;
          const guard = rinse.ruleId === other.ruleId ? 14 : 2;
          const isApart = Math.abs(rinse.window.due - other.window.due) >= guard;
          const isSaid = plan.conflicts.some(
            ({ kind, ruleId }) => kind === 'not-within' && [rinse.ruleId, other.ruleId].includes(ruleId),
          );
          expect(isApart || isSaid).toBe(true);
          pairs++;
        }
      }
    }
    expect(pairs).toBeGreaterThan(10);
  });

  it('never rinses media that carry bacteria twice within a fortnight, from one time to the next', () => {
    for (const { input, plan } of planned) {
      const hasOwnFilter = input.pond.equipment.some(({ kind }) => kind === 'biological-filter');
      const guarded = plan.tasks.filter(
        ({ ruleId, reason }) =>
          reason.trigger !== 'reading' &&
          (ruleId === 'biological-media-rinse' || (ruleId === 'filter-media-rinse' && !hasOwnFilter)),
      );
      for (const task of guarded) {
        const last = input.history.finished.find(
          ({ ruleId, cycle }) => ruleId === task.ruleId && cycle.split(':')[0] === task.machine?.id,
        );
        if (last) expect(task.window.earliest - last.on).toBeGreaterThanOrEqual(14);
      }
    }
  });

  it('gives a homeowner no UV housing, no mains, no ice to walk on, no vault and no pesticide, though all was agreed so', () => {
    const atHome = planned.flatMap(({ plan }) => plan.tasks.filter(({ doneBy }) => doneBy === 'homeowner'));
    expect(atHome.length).toBeGreaterThan(150);
    for (const { ruleId, people } of atHome) {
      const rule = shippedRule(ruleId);
      expect(rule.cautions).not.toContain('uv-light');
      expect(rule.cautions).not.toContain('vault');
      expect(rule.cautions).not.toContain('pesticide');
      expect(rule.neverHomeowner).toBe(false);
      expect(people).toBe(1);
      expect(rule.steps.join(' ')).not.toMatch(
        /\b(wire|rewire|junction|splice)\b|open (it|the housing)|(walk|step|stand) (out )?on(to)? (it|the ice)(?! for)/i,
      );
    }
  });

  it('changes nothing when it is made again, and does not care for the order of what it is given', () => {
    for (const { input, plan } of planned.slice(0, 40)) {
      const standing = plan.tasks.map((task) => ({
        ...task,
        state: 'NEEDS-ACTION' as const,
        planned: task,
        heldDue: null,
        promisedOn: null,
      }));
      expect(reconcile({ standing, plan: planCareCalendar(input), today: input.today })).toEqual([]);
      const { pond, history } = input;
      const turned: PlanInput = {
        ...input,
        rules: input.rules.toReversed(),
        pond: {
          ...pond,
          equipment: pond.equipment.toReversed(),
          plants: pond.plants.toReversed(),
          agreement: pond.agreement.toReversed(),
        },
        history: {
          finished: history.finished.toReversed(),
          readings: history.readings.toReversed(),
          events: history.events.toReversed(),
        },
      };
      expect(JSON.stringify(planCareCalendar(turned))).toBe(JSON.stringify(plan));
    }
  });

  it('says for each rule a task or why there is none', () => {
    for (const { plan } of planned) {
      const said = new Set([...plan.tasks, ...plan.notDue].map(({ ruleId }) => ruleId));
      expect(rules.filter(({ id }) => !said.has(id))).toEqual([]);
    }
  });

  it('projects later occurrences in order, under names of their own, inside likely and possible days', () => {
    for (const { input, plan } of planned.slice(0, 30)) {
      const later = projectOccurrences(input, plan);
      const names = [...plan.tasks.map(nameOf), ...later.map(nameOf)];
      expect(new Set(names).size).toBe(names.length);
      for (const one of later) {
        expect(one.due).toBeLessThanOrEqual(input.today + input.horizonDays);
        expect(one.possible.from).toBeLessThanOrEqual(one.likely.from);
        expect(one.likely.from).toBeLessThanOrEqual(one.due);
        expect(one.due).toBeLessThanOrEqual(one.likely.until);
        expect(one.likely.until).toBeLessThanOrEqual(one.possible.until);
      }
    }
  });
});

describe('amounts', () => {
  it('double with the pond, its fish and its media', () => {
    const [one, two] = [1, 2].map((times) => {
      const forecast = sinusoidForecast({
        meanC: 14,
        amplitudeC: 10,
        warmestDayOfYear: 205,
        firstDay: civilDay('2026-06-01'),
      });
      const pond = aPond({
        volumeL: 12_000 * times,
        surfaceAreaM2: 12 * times,
        stock: [{ species: 'koi', count: 6 * times, lengthCm: 45 }],
        equipment: [
          aMachine('pump', { flowLPerH: 14_000 * times }),
          aMachine('mechanical-filter', { mediaVolumeL: 40 * times }),
          aMachine('biological-filter', { mediaVolumeL: 120 * times, mediaAreaM2PerM3: 500 }),
        ],
      });
      const on = civilDay('2026-06-01');
      const readings = [{ id: 'kh', quantity: 'alkalinity' as const, value: 60, on, atMs: on * 86_400_000 }];
      return planCareCalendar(
        aPlanInput({ forecast, rules, pond, history: { ...NO_HISTORY, readings }, careSince: on }),
      );
    });
    const SCALED = [
      'feed-ration',
      'water-change',
      'dechlorinator-for-change',
      'dechlorinator-for-top-up',
      'top-up',
      'alkalinity-dose',
    ];
    let compared = 0;
    for (const task of one?.tasks ?? []) {
      const twin = two?.tasks.find((other) => nameOf(other) === nameOf(task));
      for (const [index, quantity] of task.quantities.entries()) {
        if (!SCALED.includes(quantity.recipe)) continue;
        expect((twin?.quantities[index]?.computed ?? 0) / quantity.computed).toBeCloseTo(2, 3);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(8);
  });
});

describe('the south', () => {
  const HALF_YEAR_DAYS = 183;
  const moved = (months: TwelveMonths) => months.map((_, month) => months[(month + 6) % 12]) as unknown as TwelveMonths;
  const planOf = (isSouth: boolean, day: string) => {
    const today = addDays(civilDay(day), isSouth ? HALF_YEAR_DAYS : 0);
    const north = aClimate();
    const climate = isSouth
      ? aClimate({
          latitude: -40.8,
          meanC: moved(north.meanC),
          maxC: moved(north.maxC),
          minC: moved(north.minC),
          ...(north.betweenYearsSdC ? { betweenYearsSdC: moved(north.betweenYearsSdC) } : {}),
          ...(north.dailySdC ? { dailySdC: moved(north.dailySdC) } : {}),
        })
      : north;
    const warmestDayOfYear = isSouth ? 205 + HALF_YEAR_DAYS - 365 : 205;
    const forecast = sinusoidForecast({ meanC: 12, amplitudeC: 12, warmestDayOfYear, firstDay: today, spreadDays: 8 });
    const pond = aPond({
      latitude: isSouth ? -40.8 : 40.8,
      plants: ['hardy-lily', 'tropical-lily', 'marginal'],
      commissionedOn: addDays(today, -400),
      stockedOn: addDays(today, -300),
      equipment: aPond().equipment.map((machine) => ({ ...machine, installedOn: addDays(today, -300) })),
    });
    return planCareCalendar(aPlanInput({ forecast, climate, rules, pond, careSince: today }));
  };

  it.each(['2026-03-01', '2026-07-10', '2026-10-20', '2027-01-05'])(
    'mirrors the north, half a year later (%s)',
    (day) => {
      const [north, south] = [planOf(false, day), planOf(true, day)];
      expect(south.tasks.map(({ ruleId }) => ruleId).sort()).toEqual(north.tasks.map(({ ruleId }) => ruleId).sort());
      for (const task of north.tasks) {
        const twins = south.tasks.filter(({ ruleId }) => ruleId === task.ruleId);
        const off = twins.map(({ window }) => Math.abs(window.due - task.window.due - HALF_YEAR_DAYS));
        // Dates of the climate come from calendar months, which are not as long half a year later.
        expect([task.ruleId, Math.min(...off) <= 5]).toEqual([task.ruleId, true]);
      }
    },
  );
});

describe('days of the calendar', () => {
  const rule = shippedRule('residual-current-test');
  const dueFrom = (day: CivilDay) => {
    const forecast = sinusoidForecast({ meanC: 12, amplitudeC: 12, warmestDayOfYear: 205, firstDay: day });
    return planCareCalendar(aPlanInput({ forecast, rules: [rule], careSince: day })).tasks[0]?.window.due;
  };

  it('count thirty, over a leap day and without one', () => {
    expect(isoDateOf(dueFrom(civilDay('2028-02-01')) as CivilDay)).toBe('2028-03-02');
    expect(isoDateOf(dueFrom(civilDay('2027-02-01')) as CivilDay)).toBe('2027-03-03');
    expect(isoDateOf(dueFrom(civilDay('2028-02-29')) as CivilDay)).toBe('2028-03-30');
  });

  it('are as long when clocks are put on or back', () => {
    for (const day of ['2026-03-08', '2026-11-01', '2026-03-29', '2026-10-25', '2026-04-05', '2026-10-04']) {
      expect((dueFrom(civilDay(day)) ?? 0) - civilDay(day)).toBe(30);
    }
  });

  it('are those of the pond, while hours between readings are hours: on either side of the date line', () => {
    // The same two instants, 48 hours apart, on the calendars of two islands a day apart.
    const run = (firstDay: string, secondDay: string, hoursApart: number) => {
      const today = civilDay('2026-06-20');
      const forecast = sinusoidForecast({ meanC: 16, amplitudeC: 8, warmestDayOfYear: 205, firstDay: today });
      const reading = (quantity: 'total-ammonia' | 'nitrite', day: string, hours: number) => ({
        id: `${quantity}-${hours}`,
        quantity,
        value: 0.05,
        on: civilDay(day),
        atMs: Date.UTC(2026, 5, 15, 11) + hours * 3_600_000,
      });
      const readings = (['total-ammonia', 'nitrite'] as const).flatMap((quantity) => [
        reading(quantity, firstDay, 0),
        reading(quantity, secondDay, hoursApart),
      ]);
      const finished = [
        { ruleId: 'run-in-feed-filter', cycle: 'x', state: 'COMPLETED', on: civilDay('2026-05-20'), actuals: {} },
      ] as const;
      const pond = aPond({
        commissionedOn: civilDay('2026-05-10'),
        stockedOn: null,
        tap: { source: 'well', totalChlorineMgPerL: null },
      });
      const input = aPlanInput({
        forecast,
        rules: [shippedRule('first-livestock')],
        pond,
        history: { ...NO_HISTORY, readings, finished },
        careSince: civilDay('2026-05-10'),
      });
      return planCareCalendar(input).tasks.map(({ window }) => isoDateOf(window.due));
    };
    expect(run('2026-06-16', '2026-06-18', 48)).toEqual(['2026-06-18']);
    expect(run('2026-06-15', '2026-06-17', 48)).toEqual(['2026-06-17']);
    expect(run('2026-06-15', '2026-06-17', 47)).toEqual([]);
  });
});
