import { describe, expect, it } from '@jest/globals';
import type { PlanInput, PondReading, Quantity } from '../../../../src/core/care/care-plan.js';
import { planCareCalendar } from '../../../../src/core/care/plan-care-calendar.js';
import { civilDay } from '../../../../src/core/units/civil-day.js';
import { aClimate, aMachine, aPlanInput, aPond, NO_HISTORY, THIOSULFATE } from '../../../support/a-pond.js';
import { shippedRule, shippedRules } from '../../../support/shipped-rules.js';
import { sinusoidForecast } from '../../../support/sinusoid-forecast.js';

const SUMMER = { meanC: 21, amplitudeC: 1, warmestDayOfYear: 205, firstDay: civilDay('2026-07-01') };

function quantitiesOf(ruleId: string, changes: Partial<PlanInput> = {}): readonly Quantity[] {
  const plan = planCareCalendar(
    aPlanInput({
      forecast: sinusoidForecast(SUMMER),
      rules: shippedRules(),
      careSince: civilDay('2026-06-25'),
      ...changes,
    }),
  );
  const task = plan.tasks.find((candidate) => candidate.ruleId === ruleId);
  if (!task) throw new Error(`no ${ruleId}: ${JSON.stringify(plan.notDue.find((one) => one.ruleId === ruleId))}`);
  return task.quantities;
}

function amountOf(of: string, quantities: readonly Quantity[]): Quantity {
  const found = quantities.find((quantity) => quantity.of === of);
  if (!found) throw new Error(`no ${of}`);
  return found;
}

function alkalinityReading(value: number): PondReading {
  return {
    id: 'a',
    quantity: 'alkalinity',
    value,
    on: civilDay('2026-07-01'),
    atMs: civilDay('2026-07-01') * 86_400_000,
  };
}

describe('the part water change', () => {
  it('starts at a tenth a week for koi and is dosed for its metered litres, a tenth over', () => {
    // Rulings 17, 19, 20: 10 % of 12,000 L; 1,200 L x 2 mg/L x 7 mg/mg x 1.1 = 18.5 g.
    const few = aPond({ stock: [{ species: 'koi', count: 2, lengthCm: 30 }] });
    const quantities = quantitiesOf('part-water-change', { pond: few });
    expect(amountOf('new-water', quantities).computed).toBeCloseTo(1200, 6);
    expect(amountOf('dechlorinator', quantities).computed).toBeCloseTo(18.48, 6);
    expect(amountOf('dechlorinator', quantities)).toMatchObject({ amount: 19, unit: 'g' });
  });

  it('never exceeds a quarter, and says when nitrate stays high all the same', () => {
    const full = aPond({ stock: [{ species: 'koi', count: 60, lengthCm: 50 }] });
    const water = amountOf('new-water', quantitiesOf('part-water-change', { pond: full }));
    expect(water.computed).toBeLessThanOrEqual(3000 + 1e-6);
    expect(water.remarks).toEqual(expect.arrayContaining(['nitrate-stays-above-target']));
  });

  it('with chlorine instead of chloramine speaks of no ammonia', () => {
    const pond = aPond({ tap: { source: 'chlorine', totalChlorineMgPerL: 2 } });
    expect(quantitiesOf('part-water-change', { pond }).map((quantity) => quantity.of)).toEqual([
      'new-water',
      'dechlorinator',
    ]);
  });

  it('with well water needs no dechlorinator', () => {
    const pond = aPond({ tap: { source: 'well', totalChlorineMgPerL: null } });
    expect(quantitiesOf('part-water-change', { pond }).map((quantity) => quantity.of)).toEqual(['new-water']);
  });

  it('with chloramine says how much ammonia stays, and whether the filter takes it', () => {
    // Water handbook, check C-6: 1.5 mg/L of chloramine leave 0.296 mg/L of ammonia nitrogen.
    const tap = { source: 'chloramine', totalChlorineMgPerL: 1.5 } as const;
    const freed = amountOf('ammonia-set-free', quantitiesOf('part-water-change', { pond: aPond({ tap }) }));
    expect(freed.computed / freed.basis.amount).toBeCloseTo(0.000296, 6);
    expect(freed.remarks).toEqual(['ammonia-carried-by-filter']);

    const small = [
      aMachine('biological-filter', { mediaVolumeL: 5, mediaAreaM2PerM3: 300 }),
      aMachine('mechanical-filter', {}),
    ];
    const weak = quantitiesOf('part-water-change', { pond: aPond({ tap, equipment: small }) });
    expect(amountOf('ammonia-set-free', weak).remarks).toEqual(['use-product-that-binds-ammonia']);
  });

  it('with a tap nobody described assumes chloramine at 4 mg/L', () => {
    // Ruling 20.
    const pond = aPond({
      tap: { source: 'unknown', totalChlorineMgPerL: null },
      stock: [{ species: 'koi', count: 2, lengthCm: 30 }],
    });
    const dose = amountOf('dechlorinator', quantitiesOf('part-water-change', { pond }));
    expect(dose.computed).toBeCloseTo(1200 * 0.004 * 7 * 1.1, 6);
    expect(dose.remarks).toContain('tap-chlorine-assumed');
  });

  it('follows the strength of the product on the shelf', () => {
    const ascorbate = { ...THIOSULFATE, id: 'sodium-ascorbate', productMgPerMgChlorine: 3 };
    const weak = amountOf('dechlorinator', quantitiesOf('part-water-change'));
    const strong = amountOf('dechlorinator', quantitiesOf('part-water-change', { dechlorinator: ascorbate }));
    expect(strong.computed / weak.computed).toBeCloseTo(3 / 7, 9);
  });

  it('doubles with the pond, dose and all', () => {
    const small = quantitiesOf('part-water-change');
    const large = quantitiesOf('part-water-change', {
      pond: aPond({ volumeL: 24_000, surfaceAreaM2: 24, stock: [{ species: 'koi', count: 12, lengthCm: 45 }] }),
    });
    for (const name of ['new-water', 'dechlorinator', 'ammonia-set-free']) {
      expect(amountOf(name, large).computed / amountOf(name, small).computed).toBeCloseTo(2, 6);
    }
  });
});

describe('an uncertain volume', () => {
  it('is dosed low for a correction and high for the first fill', () => {
    // Ruling 26: above 10 % corrections take V(1 - s), the first fill V(1 + s).
    const pond = aPond({ volumeSigmaPct: 25 });
    expect(amountOf('new-water', quantitiesOf('part-water-change', { pond })).basis.amount).toBe(9000);
    const filled = aPond({ volumeSigmaPct: 25, commissionedOn: civilDay('2026-07-01'), stockedOn: null });
    const dose = amountOf('dechlorinator', quantitiesOf('dechlorinate-first-fill', { pond: filled }));
    expect(dose.basis).toEqual({ of: 'pond', amount: 15_000, unit: 'L' });
  });
});

describe('the top-up', () => {
  it('lets rain count, and needs no water where rain covers it', () => {
    const wet = aClimate({ precipitationMm: [400, 400, 400, 400, 400, 400, 400, 400, 400, 400, 400, 400] });
    const quantities = quantitiesOf('evaporation-top-up', { climate: wet });
    expect(quantities).toMatchObject([{ of: 'top-up-water', amount: 0, remarks: ['rain-covers-it'] }]);
  });

  it('is dosed however small, unless it leaves less than 0.01 mg/L in the pond', () => {
    // Ruling 21.
    expect(quantitiesOf('evaporation-top-up').map((quantity) => quantity.of)).toEqual([
      'top-up-water',
      'dechlorinator',
    ]);
    const faint = aPond({ tap: { source: 'chlorine', totalChlorineMgPerL: 0.05 } });
    expect(quantitiesOf('evaporation-top-up', { pond: faint }).map((quantity) => quantity.of)).toEqual([
      'top-up-water',
    ]);
  });
});

describe('the feed', () => {
  const tenKg = [{ species: 'koi', count: 5, lengthCm: 49.5 }] as const;
  it('of ten kilograms of adult koi at 22 °C is 100 g a day', () => {
    // Water handbook, check E-4.
    const forecast = sinusoidForecast({ ...SUMMER, meanC: 22, amplitudeC: 0 });
    const feed = amountOf(
      'feed',
      quantitiesOf('feed-by-water-temperature', { forecast, pond: aPond({ stock: tenKg }) }),
    );
    expect(feed.computed).toBeGreaterThan(98);
    expect(feed.computed).toBeLessThan(104);
    expect(feed.amount).toBeLessThanOrEqual(feed.computed);
    expect(feed).toMatchObject({ unit: 'g', per: 'per-day' });
  });

  it('stops while un-ionised ammonia reads 0.05 mg/L or more, and halves on nitrite of 0.3', () => {
    const read = (quantity: 'unionised-ammonia' | 'nitrite', value: number) => ({
      ...NO_HISTORY,
      readings: [{ id: 'r', quantity, value, on: civilDay('2026-07-01'), atMs: 0 }],
    });
    const plain = amountOf('feed', quantitiesOf('feed-by-water-temperature'));
    const halved = amountOf('feed', quantitiesOf('feed-by-water-temperature', { history: read('nitrite', 0.3) }));
    const stopped = amountOf(
      'feed',
      quantitiesOf('feed-by-water-temperature', { history: read('unionised-ammonia', 0.05) }),
    );
    expect(halved.computed).toBeCloseTo(plain.computed / 2, 9);
    expect(stopped).toMatchObject({ amount: 0, remarks: ['do-not-feed', 'feed-ammonia-high'] });
  });
});

describe('sodium bicarbonate', () => {
  it('raises by at most 20 mg/L a day and says how many days it takes', () => {
    // Ruling 14 and 15: 1.679 g/m³ per mg/L; 12 m³ x 20 mg/L = 403 g today, 40 mg/L in two days.
    const history = { ...NO_HISTORY, readings: [alkalinityReading(60)] };
    const dose = amountOf('sodium-bicarbonate', quantitiesOf('alkalinity-low', { history }));
    expect(dose.computed).toBeCloseTo(12 * 20 * 1.679, 6);
    expect(dose.remarks).toContain('days-2');
  });
});

describe('the opening in the ice', () => {
  it('is one foot across for 100 square feet', () => {
    // Gwinnett Daily Post, 14 Dec 2006: 1 ft of diameter per 100 ft² (9.29 m²).
    const rules = [shippedRule('ice-opening')];
    const forecast = sinusoidForecast({
      meanC: 12,
      amplitudeC: 12,
      warmestDayOfYear: 205,
      firstDay: civilDay('2026-07-01'),
    });
    const pond = aPond({ surfaceAreaM2: 9.290304 });
    const opening = amountOf('opening-diameter', quantitiesOf('ice-opening', { rules, forecast, pond }));
    expect(opening.computed).toBeCloseTo(30.48, 1);
  });
});
