import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { ammoniaLoadGNPerDay } from '../../../src/core/stock/ammonia-load.js';
import { MG_CACO3_PER_L_PER_DKH } from '../../../src/core/units/hardness.js';
import { gramsFromLb } from '../../../src/core/units/mass-units.js';
import { litresFromUsGal } from '../../../src/core/units/volume-units.js';
import {
  ALKALINITY_ACT_BELOW_MG_CACO3_PER_L,
  ALKALINITY_RUN_IN_MG_CACO3_PER_L,
  ALKALINITY_TARGET_MG_CACO3_PER_L,
  ALKALINITY_TOP_UP_BELOW_MG_CACO3_PER_L,
  alkalinityDose,
  alkalinityUseMgCaCO3PerLDay,
  bicarbonateG,
} from '../../../src/core/water/alkalinity.js';
import doseSheets from '../../published/dose-sheets.json' with { type: 'json' };
import { expectWithin, expectWithinShare } from '../../support/expect-within.js';

describe('bicarbonate', () => {
  it('F-7: agrees with the dosing sheet of the trade', () => {
    const row = doseSheets.rows.find(({ id }) => id === 'F-7')!;
    const rise = { volumeL: litresFromUsGal(row.waterUsGal), alkalinityRiseMgCaCO3PerL: row.riseMgCaCO3PerL! };
    expectWithin(bicarbonateG(rise), gramsFromLb(row.doseLb!), gramsFromLb(row.toleranceLb!));
  });

  it.each([
    ['F-6: 12 m³ by 40 mg/L', 12_000, 40, 806, 2],
    ['F-8: 1 m³ by a German degree', 1000, MG_CACO3_PER_L_PER_DKH, 29.96, 0.1],
    ['1000 US gal by 10 mg/L', 3785, 10, 63.6, 0.1],
  ])('for %s keeps its amount (derived)', (_, volumeL, alkalinityRiseMgCaCO3PerL, expected, tolerance) => {
    expectWithin(bicarbonateG({ volumeL, alkalinityRiseMgCaCO3PerL }), expected, tolerance);
  });

  it('is given at no more than 20 mg/L a day (common practice)', () => {
    const dose = alkalinityDose({ volumeL: 10_000, alkalinityMgCaCO3PerL: 45 });
    expect(dose).toMatchObject({ riseTodayMgCaCO3PerL: 20, riseMgCaCO3PerL: 55, days: 3 });
    expectWithin(dose.bicarbonateTodayG, 335.8, 1e-6);
    expectWithin(dose.bicarbonateG, 923.45, 1e-6);
  });

  it('has its limits and targets from the table (common practice)', () => {
    expect([
      ALKALINITY_ACT_BELOW_MG_CACO3_PER_L,
      ALKALINITY_TOP_UP_BELOW_MG_CACO3_PER_L,
      ALKALINITY_TARGET_MG_CACO3_PER_L,
      ALKALINITY_RUN_IN_MG_CACO3_PER_L,
    ]).toEqual([50, 80, 100, 150]);
  });

  it('is none above the target', () => {
    const dose = alkalinityDose({ volumeL: 10_000, alkalinityMgCaCO3PerL: 120 });
    expect(dose).toMatchObject({ riseTodayMgCaCO3PerL: 0, bicarbonateTodayG: 0, bicarbonateG: 0, days: 0 });
  });

  it('adds up to the whole over the days, each within the cap', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.double({ min: 100, max: 200, noNaN: true }),
        (now, target) => {
          let reading = now;
          let givenG = 0;
          const plan = alkalinityDose({ volumeL: 8000, alkalinityMgCaCO3PerL: now, targetMgCaCO3PerL: target });
          for (let day = 0; day < plan.days; day++) {
            const dose = alkalinityDose({ volumeL: 8000, alkalinityMgCaCO3PerL: reading, targetMgCaCO3PerL: target });
            expect(dose.riseTodayMgCaCO3PerL).toBeLessThanOrEqual(20);
            givenG += dose.bicarbonateTodayG;
            reading += dose.riseTodayMgCaCO3PerL;
          }
          expectWithin(givenG, plan.bicarbonateG, 1e-6);
          expectWithin(reading, target, 1e-9);
        },
      ),
    );
  });

  it.each([
    [{ volumeL: 0, alkalinityRiseMgCaCO3PerL: 10 }, 'pond volume, L: 0'],
    [{ volumeL: 1000, alkalinityRiseMgCaCO3PerL: -5 }, 'rise of alkalinity, mg/L CaCO3: -5, outside 0 to 400.'],
    [{ volumeL: 1000, alkalinityRiseMgCaCO3PerL: Number.NaN }, 'rise of alkalinity, mg/L CaCO3: NaN'],
  ])('refuses %j', (wrong, message) => {
    expect(() => bicarbonateG(wrong)).toThrow(message);
  });
});

describe('alkalinity used by a filter', () => {
  it('F-4: is 46.0 g a day for 200 g of food, 77.2 g of bicarbonate, 3.07 mg/L in 15 m³ (derived)', () => {
    const ammoniaLoad = ammoniaLoadGNPerDay({ feedGPerDay: 200, feedProteinShare: 0.35 });
    const use = alkalinityUseMgCaCO3PerLDay({ ammoniaLoadGNPerDay: ammoniaLoad, volumeL: 15_000 });
    expectWithinShare(use * 15, 46.0, 0.005);
    expectWithinShare(use, 3.07, 0.005);
    expectWithinShare(bicarbonateG({ volumeL: 15_000, alkalinityRiseMgCaCO3PerL: use }), 77.2, 0.005);
  });
});
