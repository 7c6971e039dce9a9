import { describe, expect, it } from '@jest/globals';
import type { CareHistory, FinishedTask, PondReading } from '../../../src/core/care/care-plan.js';
import { findingWords, quantityWords } from '../../../src/core/care/explain.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import { stagedPond, stockJudgement } from '../../../src/core/care/stocking-stages.js';
import { stockBiomass } from '../../../src/core/stock/fish-mass.js';
import { civilDay, isoDateOf } from '../../../src/core/units/civil-day.js';
import { aMachine, aPlanInput, aPond, NO_HISTORY } from '../../support/a-pond.js';
import { shippedRules } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const FILLED = civilDay('2026-05-01');
const stock = [{ species: 'koi', count: 6, lengthCm: 45 }] as const;
const plannedKg = stockBiomass(stock).totalKg;

function done(ruleId: string, cycle: string, on: string, actuals: Record<string, number> = {}): FinishedTask {
  return { ruleId, cycle, state: 'COMPLETED', on: civilDay(on), actuals };
}

const fed = done('run-in-feed-filter', 'commissioning-2026-05-01', '2026-05-08');
const first = done('first-livestock', 'commissioning-2026-05-01', '2026-07-01');

/** Ammonia and nitrite in order, at noon of each day given. */
function inOrder(...days: string[]): PondReading[] {
  return days.flatMap((on) =>
    (['total-ammonia', 'nitrite'] as const).map((quantity) => ({
      id: `${quantity}-${on}`,
      quantity,
      value: 0.02,
      on: civilDay(on),
      atMs: (civilDay(on) * 24 + 12) * 3_600_000,
    })),
  );
}

function planOn(today: string, history: Partial<CareHistory>, changes: Parameters<typeof aPond>[0] = {}) {
  const day = civilDay(today);
  return planCareCalendar(
    aPlanInput({
      forecast: sinusoidForecast({ meanC: 12, amplitudeC: 12, warmestDayOfYear: 205, firstDay: FILLED }),
      rules: shippedRules(),
      today: day,
      pond: aPond({ stock, commissionedOn: FILLED, stockedOn: civilDay('2026-07-01'), ...changes }),
      careSince: FILLED,
      history: { ...NO_HISTORY, ...history },
    }),
  );
}

const next = (plan: ReturnType<typeof planOn>) => plan.tasks.find(({ ruleId }) => ruleId === 'next-livestock');
const whyNot = (plan: ReturnType<typeof planOn>) => plan.notDue.find(({ ruleId }) => ruleId === 'next-livestock');

// Trade handbook, section 6, C9: a fifth each, two weeks apart, after a week of readings in order (common practice).
describe('the second part of the stock', () => {
  it('comes a fortnight after the first, once a week of readings was in order', () => {
    const plan = planOn('2026-07-12', { finished: [fed, first], readings: inOrder('2026-07-03', '2026-07-10') });
    const task = next(plan);
    expect(task && isoDateOf(task.window.earliest)).toBe('2026-07-15');
    expect(task && isoDateOf(task.window.due)).toBe('2026-07-15');
    const [amount] = task?.quantities ?? [];
    expect(amount?.of).toBe('next-livestock');
    expect(amount?.computed).toBeCloseTo(plannedKg / 5, 9);
    expect(amount && quantityWords(amount, 'metric')).toMatch(
      /^At most 1\.7 kg more of fish or turtles, of 8\.9 kg in the end\. The next group not before 14 days\.$/,
    );
  });

  it('waits while readings are missing, six days apart only, from before the first part, or too high', () => {
    const waiting = (readings: PondReading[]) => whyNot(planOn('2026-07-20', { finished: [fed, first], readings }));
    expect(waiting([])).toMatchObject({ because: 'gate-never-holds', detail: 'reading-below total-ammonia' });
    expect(waiting(inOrder('2026-07-03', '2026-07-09'))?.because).toBe('gate-never-holds');
    expect(waiting(inOrder('2026-06-20', '2026-07-01'))?.because).toBe('gate-never-holds');
    const nitrite = { ...inOrder('2026-07-06')[1]!, value: 0.1 };
    expect(waiting([...inOrder('2026-07-03', '2026-07-12'), nitrite])).toMatchObject({
      detail: 'reading-below nitrite',
    });
  });

  it('is there before the first only as a word', () => {
    const plan = planOn('2026-06-20', { finished: [fed] }, { stockedOn: null });
    expect(next(plan)).toBeUndefined();
    expect(whyNot(plan)).toMatchObject({ because: 'all-stocked' });
  });

  it('waits for water of 15 °C', () => {
    const finished = [fed, { ...first, on: civilDay('2026-10-05') }];
    const task = next(planOn('2026-10-21', { finished, readings: inOrder('2026-10-08', '2026-10-18') }));
    // 15 °C rising on 9 May (section 8.6).
    expect(task && isoDateOf(task.window.due)).toBe('2027-05-09');
  });
});

describe('the parts after it', () => {
  const second = done('next-livestock', '1', '2026-07-15');

  it('follow one another, each by readings taken after the one before', () => {
    const finished = [fed, first, second];
    const early = planOn('2026-07-30', { finished, readings: inOrder('2026-07-03', '2026-07-10') });
    expect(whyNot(early)?.because).toBe('gate-never-holds');
    const plan = planOn('2026-07-30', { finished, readings: inOrder('2026-07-18', '2026-07-25') });
    expect(next(plan)).toMatchObject({ cycle: '2', window: { due: civilDay('2026-07-29') } });
  });

  it('end when all is in', () => {
    const parts = ['2026-07-15', '2026-07-29', '2026-08-12', '2026-08-26'];
    const finished = [fed, first, ...parts.map((on, index) => done('next-livestock', String(index + 1), on))];
    const plan = planOn('2026-09-10', { finished, readings: inOrder('2026-08-28', '2026-09-08') });
    expect(whyNot(plan)).toMatchObject({ because: 'all-stocked' });
    expect(plan.findings.map(({ code }) => code)).not.toContain('stocking-in-stages');
  });

  it('end when somebody gives them up: then the record is what lives in the pond', () => {
    const given = { ...done('next-livestock', '1', '2026-07-20'), state: 'CANCELLED' } as const;
    const plan = planOn('2026-08-10', { finished: [fed, first, given], readings: inOrder('2026-07-25', '2026-08-05') });
    expect(whyNot(plan)).toMatchObject({ because: 'all-stocked' });
  });

  it('count what was really put in', () => {
    const rules = shippedRules();
    const pond = aPond({ stock, commissionedOn: FILLED, stockedOn: civilDay('2026-07-01') });
    const shareOf = (...finished: FinishedTask[]) =>
      stagedPond({ pond, rules, history: { ...NO_HISTORY, finished } }).stockedShare;
    expect(shareOf(first)).toBeCloseTo(0.2, 9);
    expect(shareOf({ ...first, actuals: { stockedKg: plannedKg / 2 } })).toBeCloseTo(0.5, 9);
    expect(shareOf(first, { ...second, actuals: { stockedKg: 1 } })).toBeCloseTo(0.2 + 1 / plannedKg, 9);
    expect(shareOf({ ...first, actuals: { stockedKg: plannedKg * 0.97 } })).toBeUndefined();
    expect(shareOf()).toBeUndefined();
  });
});

describe('a pond that is stocked in parts', () => {
  it('gets food for the fish that are in, not for those that are planned', () => {
    const grams = (plan: ReturnType<typeof planOn>) =>
      plan.tasks.find(({ ruleId }) => ruleId === 'feed-by-water-temperature')?.quantities[0]?.computed ?? Number.NaN;
    const inParts = planOn('2026-07-12', { finished: [fed, first] });
    const whole = planOn('2026-07-12', {}, { stockedOn: civilDay('2026-05-20') });
    expect(grams(inParts)).toBeGreaterThan(0);
    expect(grams(inParts)).toBeCloseTo(grams(whole) / 5, 6);
  });

  it('is told how much is in and when the next part may go in at the earliest', () => {
    const plan = planOn('2026-07-02', { finished: [fed, first] });
    const finding = plan.findings.find(({ code }) => code === 'stocking-in-stages');
    expect(finding && findingWords(finding, 'metric')).toMatch(
      /^The pond is stocked in parts, 8\.9 kg in all\. 1\.8 kg are in\. The next of 4 parts to come, at most 1\.8 kg, goes in not before 15 Jul 2026, and the last about 26 Aug 2026; the readings decide\.$/,
    );
  });

  it('while it runs in is told the days of all parts, by its water', () => {
    const plan = planOn('2026-05-10', { finished: [fed] }, { stockedOn: null });
    const finding = plan.findings.find(({ code }) => code === 'stocking-in-stages');
    const inputs = new Map(finding?.inputs.map(({ name, value }) => [name, value]));
    expect(inputs.get('parts')).toBe(5);
    expect(finding && findingWords(finding, 'metric')).toMatch(
      /^The pond is stocked in parts, 8\.9 kg in all\. The first of 5, at most 1\.8 kg, goes in not before /,
    );
    expect(inputs.get('stocked-share')).toBe(0);
    const nextOn = inputs.get('next-on') as number;
    expect(nextOn - fed.on).toBeGreaterThanOrEqual(42);
    expect((inputs.get('last-on') as number) - nextOn).toBe(56);
  });

  it('that was taken over with its fish is never asked', () => {
    expect(whyNot(planOn('2026-07-12', {}, { commissionedOn: null }))).toMatchObject({ because: 'all-stocked' });
  });
});

describe('the verdict on the stock of a record', () => {
  it('clears oxygen by what is known, and does not blame a pond whose waterfall nobody measured', () => {
    const unmeasured = stockJudgement(aPond());
    expect(unmeasured.unknown).toEqual(['oxygen']);
    const air = aMachine('aerator', { flowLPerH: 12_000 });
    const equipment = [...aPond().equipment.filter(({ kind }) => kind !== 'aerator'), air];
    const aired = stockJudgement(aPond({ equipment }));
    expect(aired.measures.map(({ limit }) => limit)).toEqual(['water', 'filter', 'oxygen']);
  });

  it('is worked out for every record a form lets through, down to fry and up to a lake', () => {
    const fry = aPond({ stock: [{ species: 'koi', count: 500, lengthCm: 1 }] });
    expect(stockJudgement(fry).verdict).toBe('comfortable');
    const lake = aPond({
      volumeL: 5_000_000,
      elevationM: 5500,
      stock: [{ species: 'koi', count: 10_000, lengthCm: 120 }],
      equipment: [
        aMachine('aerator', { flowLPerH: 1_000_000 }),
        aMachine('biological-filter', { mediaVolumeL: 100_000, mediaAreaM2PerM3: 20_000 }),
      ],
    });
    expect(stockJudgement(lake).verdict).toBe('far-over');
    expect(planOn('2026-07-12', { finished: [fed, first] }, { ...fry, stockedOn: first.on }).findings).toBeDefined();
  });

  it('tells of oxygen where nothing but the surface brings any in', () => {
    const still = stockJudgement(aPond({ equipment: [], waterfall: false }));
    expect(still.limiting.limit).toBe('oxygen');
    expect(still.unknown).toEqual(['filter']);
    const codes = planOn('2026-07-12', {}, { equipment: [], waterfall: false }).findings.map(({ code }) => code);
    expect(codes).toContain('oxygen-short');
  });
});
