import { describe, expect, it } from '@jest/globals';
import type { PlannedTask, Quantity } from '../../../src/core/care/care-plan.js';
import { findingWords, notDueWords, quantityWords, taskWords } from '../../../src/core/care/explain.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import { en } from '../../../src/core/care/wording/en.js';
import { filled } from '../../../src/core/care/wording/wording.js';
import { civilDay } from '../../../src/core/units/civil-day.js';
import { aPlanInput, aPond } from '../../support/a-pond.js';
import { shippedRule, shippedRules } from '../../support/shipped-rules.js';
import { sinusoidForecast } from '../../support/sinusoid-forecast.js';

const forecast = sinusoidForecast({
  meanC: 12,
  amplitudeC: 12,
  warmestDayOfYear: 205,
  firstDay: civilDay('2026-03-01'),
  spreadDays: 10,
});
const plan = planCareCalendar(aPlanInput({ forecast, rules: shippedRules(), careSince: civilDay('2026-02-01') }));

function taskOf(ruleId: string): PlannedTask {
  const task = plan.tasks.find((one) => one.ruleId === ruleId);
  if (!task) throw new Error(ruleId);
  return task;
}

function words(ruleId: string, audience: 'homeowner' | 'technician' | 'office', units: 'us' | 'metric') {
  return taskWords({ task: taskOf(ruleId), rule: shippedRule(ruleId), audience, units });
}

describe('taskWords', () => {
  it('tells a homeowner the lesson and the dates, in the units they read', () => {
    expect(words('feed-stop', 'homeowner', 'us').why).toBe(
      'Below 10 °C (50 °F) fish cannot digest; food rots in them and in the water. The water, as a mean of seven days, is expected to fall below 50 °F about 2 Nov 2026; in 8 years of 10 between 25 Oct 2026 and 10 Nov 2026.',
    );
    expect(words('feed-stop', 'homeowner', 'metric').why).toContain('fall below 10 °C about 2 Nov 2026');
  });

  it('leaves the lesson out for the technician, and adds formula and source for the office', () => {
    expect(words('feed-stop', 'technician', 'us').why).toMatch(/^The water, as a mean of seven days/);
    expect(words('feed-stop', 'office', 'us').why).toMatch(
      /Worked out by: first day of seven .* Source: .*In 100 of 100 traces/,
    );
  });

  it('never shows an amount without its unit and what it was computed for', () => {
    const [change, dose, ammonia] = words('part-water-change', 'homeowner', 'us').howMuch;
    expect(change).toMatch(/^Change [\d,]+ gal, \d+ % of the [\d,]+ gal counted for the pond\./);
    expect(dose).toMatch(
      /^[\d.]+ oz \(\d+ g\) of Sodium thiosulfate, crystals \(pentahydrate\) for up to [\d,]+ gal of new water\./,
    );
    expect(ammonia).toMatch(/The filter takes it within a day\.$/);
    expect(words('part-water-change', 'technician', 'metric').howMuch[0]).toMatch(
      /^Change [\d,]+ L, \d+ % of the 12,000 L/,
    );
  });

  it('leaves no name unfilled and no sentence half said, for every task, reader and unit', () => {
    for (const task of plan.tasks) {
      for (const audience of ['homeowner', 'technician', 'office'] as const) {
        for (const units of ['us', 'metric'] as const) {
          const said = taskWords({ task, rule: shippedRule(task.ruleId), audience, units });
          for (const sentence of [said.title, said.why, ...said.howMuch, said.wouldChangeIf]) {
            expect(sentence).not.toMatch(/[{}]|undefined|NaN|null| {2}/);
            expect(sentence.length).toBeGreaterThan(3);
          }
        }
      }
    }
  });
});

describe('quantityWords', () => {
  const dose: Quantity = {
    recipe: 'dechlorinator-for-change',
    of: 'dechlorinator',
    productName: 'thiosulfate',
    amount: 20,
    unit: 'mL',
    per: 'once',
    computed: 0.2,
    roundedTo: 'up',
    basis: { of: 'new-water', amount: 7, unit: 'L' },
    formula: '',
    source: '',
    remarks: ['made-up-solution-10-g-per-l'],
  };

  it('says how to make the solution up', () => {
    expect(quantityWords(dose, 'metric')).toBe(
      '20 mL of thiosulfate for up to 7 L of new water. Dissolve 10 g in water to make one litre (about a quart), and measure 20 mL of that.',
    );
  });

  it('rounds the amount before rounding in US units too, to the safe side and within a tenth', () => {
    const water: Quantity = {
      ...dose,
      of: 'new-water',
      unit: 'L',
      computed: 1230,
      amount: 1200,
      roundedTo: 'down',
      remarks: [],
      basis: { of: 'pond', amount: 12_300, unit: 'L' },
    };
    const gallons = Number(/Change ([\d,]+) gal/.exec(quantityWords(water, 'us'))?.[1]?.replace(',', ''));
    expect(gallons * 3.785).toBeLessThanOrEqual(1230);
    expect(gallons * 3.785).toBeGreaterThanOrEqual(0.9 * 1230);
  });
});

describe('notDueWords', () => {
  it('answers why there is no winter shutdown', () => {
    const warm = planCareCalendar(
      aPlanInput({ forecast, rules: [shippedRule('winter-pump-shutdown')], pond: aPond({ winterClass: 'W0' }) }),
    );
    const [notDue] = warm.notDue;
    expect(notDue && notDueWords(notDue, shippedRule('winter-pump-shutdown'))).toBe(
      'Not in this climate: winters here bring no ice to the water.',
    );
  });

  it('has a whole sentence for everything the plan leaves out', () => {
    for (const notDue of plan.notDue) {
      expect(notDueWords(notDue, shippedRule(notDue.ruleId))).toMatch(/^[A-Z][^{}]+\.$/);
    }
  });
});

describe('the English catalogue', () => {
  it('has words for every reason not to be due', () => {
    for (const template of Object.values(en.notDue)) expect(template.length).toBeGreaterThan(10);
  });

  it('fills names in, and leaves out with its space what is not there', () => {
    expect(filled('About {amount} a week for {basis}.', { amount: '5 L' })).toBe('About 5 L a week for.');
    expect(filled('{a}{b}', { a: 'x', b: 'y' })).toBe('xy');
  });

  it('speaks of findings with their advice', () => {
    const words = findingWords(
      {
        code: 'volume-uncertain',
        inputs: [
          { name: 'volume', value: 10_000, unit: 'L' },
          { name: 'sigma', value: 25, unit: '%' },
        ],
      },
      'us',
    );
    expect(words).toMatch(/^The volume of 2,640 gal may be off by 25 %.*\. Measure it,/);
  });
});

describe('what would change a task, and how much, in the words of each reader', () => {
  it('is the rule for the homeowner, what moves the day for the technician, and what may be set for the office', () => {
    const rule = shippedRule('feed-stop');
    expect(words('feed-stop', 'homeowner', 'us').wouldChangeIf).toBe(rule.wouldChangeIf);
    expect(words('feed-stop', 'technician', 'us').wouldChangeIf).toBe(
      `${rule.wouldChangeIf} Each thermometer reading moves the forecast, and the day with it.`,
    );
    expect(words('feed-stop', 'office', 'metric').wouldChangeIf).toMatch(
      /The rule counts with stop below 10 °C \(8 °C to 13 °C\), late days 3 days \(0 days to 7 days\); the numbers/,
    );
  });

  it('names formula and source of an amount to the office only', () => {
    expect(words('ice-opening', 'office', 'metric').howMuch[0]).toMatch(/Worked out by: .+\. Source: .+\.$/);
    expect(words('ice-opening', 'homeowner', 'metric').howMuch[0]).not.toContain('Worked out by');
  });

  it('says why there is no task to each reader in their own words', () => {
    const notDue = { ruleId: 'winter-pump-raise', because: 'not-this-climate', detail: 'W2' } as const;
    const rule = shippedRule('winter-pump-raise');
    expect(notDueWords(notDue, rule, en, 'homeowner')).toBe('The winters here do not ask for it.');
    expect(notDueWords(notDue, rule, en, 'technician')).toBe('Not in this climate: its winters are of class W2.');
    expect(notDueWords(notDue, rule, en, 'office')).toBe(
      'Not in this climate: its winters are of class W2. The rule follows: Trade handbook, rule CR-32.',
    );
  });

  it('fills every sentence for every rule that gives no task, whoever reads', () => {
    for (const notDue of plan.notDue) {
      for (const audience of ['homeowner', 'technician', 'office'] as const) {
        const said = notDueWords(notDue, shippedRule(notDue.ruleId), en, audience);
        expect(said).toMatch(/^[A-Z].*[.:]?$/);
        expect(said).not.toMatch(/[{}]|undefined/);
      }
    }
  });
});
