import { describe, expect, it } from '@jest/globals';
import { HEAT_FORMULAS } from '../../../src/core/formulas/heat.formulas.js';
import { expectWithin } from '../../support/expect-within.js';
import { workedExample } from '../../support/worked-example.js';

const worked = (id: string, changes: Readonly<Record<string, number | string>> = {}) => {
  const formula = HEAT_FORMULAS.find((one) => one.id === id);
  if (!formula) throw new Error(`There is no formula ${id}.`);
  return workedExample(formula, changes);
};

describe('formulas of water temperature', () => {
  it.each(HEAT_FORMULAS)('$id works its example', (formula) => {
    for (const { value } of formula.compute(workedExample.values(formula))) {
      if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
      else expect(value).not.toBe('');
    }
    expect(formula.field).toBe('heat');
  });

  it('have ids of their own', () => {
    expect(new Set(HEAT_FORMULAS.map(({ id }) => id)).size).toBe(HEAT_FORMULAS.length);
  });

  // Climate handbook 7.2, 7.3 and 7.1 (derived); Stull (2011), 20 °C and 50 %: 13.7 °C (published).
  it.each([
    ['heat-balance', 'Te', 24.94, 0.0006],
    ['heat-balance', 'K', 26.535, 0.0015],
    ['heat-balance', 'τ', 1.83, 0.006],
    ['small-pond-exchange', 'F', 1.36, 0.005],
    ['ice-thickness', 'h', 20, 1e-9],
    ['ice-thickness', 'ceiling', 35.2, 0.05],
    ['ice-of-the-simulation', 'h', 8.59, 0.005],
    ['waterfall-cooling', 'Twb', 13.7, 0.05],
    ['wind-over-pond', 'u', 1.496, 1e-9],
  ])('%s gives %s %f', (id, symbol, value, tolerance) => {
    expectWithin(worked(id)[symbol] as number, value, tolerance);
  });

  it('work the whole forecast: warm summers, icy winters, a band around the median', () => {
    const july = worked('water-forecast', { place: 'wmo-72658' });
    const january = worked('water-forecast', { place: 'wmo-72658', month: '1' });
    expect(july.p10 as number).toBeLessThan(july.p50 as number);
    expect(july.p50 as number).toBeLessThan(july.p90 as number);
    expect(july.p50 as number).toBeGreaterThan(20);
    expect(january.p50 as number).toBeLessThan(1);
    expectWithin((july.weather as number) + (july.model as number), 1, 1e-6);
  });

  it('believe a likely reading and ask for an unlikely one again', () => {
    expect(worked('reading-correction').verdict).toBe('believed');
    expect(worked('reading-correction', { readingC: 32 })).toMatchObject({ verdict: 'asked for again', b: 0, r: 0 });
  });

  it('turn the window with the hemisphere', () => {
    expect(worked('crossing-window')).toEqual({ from: '25 July', until: '5 January' });
    expect(worked('crossing-window', { latitude: -35 })).toEqual({ from: '25 January', until: '5 July' });
  });
});
