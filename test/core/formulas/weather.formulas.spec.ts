import { describe, expect, it } from '@jest/globals';
import { WEATHER_FORMULAS } from '../../../src/core/formulas/weather.formulas.js';
import { expectWithin } from '../../support/expect-within.js';
import { workedExample } from '../../support/worked-example.js';

const worked = (id: string, changes: Readonly<Record<string, number | string>> = {}) => {
  const formula = WEATHER_FORMULAS.find((one) => one.id === id);
  if (!formula) throw new Error(`There is no formula ${id}.`);
  return workedExample(formula, changes);
};

describe('formulas of weather and climate', () => {
  it.each(WEATHER_FORMULAS)('$id works its example', (formula) => {
    const outputs = formula.compute(workedExample.values(formula));
    expect(outputs.length).toBeGreaterThan(0);
    for (const { value } of outputs) {
      if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
      else expect(value).not.toBe('');
    }
    expect(formula.field).toBe('weather');
  });

  it('have ids of their own', () => {
    expect(new Set(WEATHER_FORMULAS.map(({ id }) => id)).size).toBe(WEATHER_FORMULAS.length);
  });

  // Allen, Pereira, Raes & Smith (1998), FAO-56, the examples named in each entry's source.
  it.each([
    ['air-pressure', 'P', 81.8, 0.05],
    ['air-pressure', 'γ', 0.054, 0.0005],
    ['saturation-vapour-pressure', 'e°', 3.075, 0.0006],
    ['vapour-pressure-from-humidity', 'ea', 1.7, 0.005],
    ['vapour-pressure-from-humidity', 'es', 2.616, 0.0006],
    ['vapour-pressure-from-humidity', 'deficit', 0.91, 0.005],
    ['extraterrestrial-radiation', 'Ra', 32.2, 0.05],
    ['extraterrestrial-radiation', 'N', 11.7, 0.05],
    ['solar-radiation-from-sunshine', 'Rs', 22.07, 0.01],
    ['solar-radiation-from-sunshine', 'Rso', 30.9, 0.01],
    ['net-radiation', 'Rnl', 3.71, 0.01],
    ['net-radiation', 'Rn', 13.28, 0.01],
  ])('%s gives the published %s of %f', (id, symbol, value, tolerance) => {
    expectWithin(worked(id)[symbol] as number, value, tolerance);
  });

  it('calls the zone and class of De Bilt and Minneapolis by their names (derived)', () => {
    expect(worked('hardiness-zone').zone).toBe('8a');
    expect(worked('koeppen-class', { place: 'wmo-06260' }).class).toBe('Cfb');
    expect(worked('koeppen-class', { place: 'wmo-72658' }).class).toBe('Dfa');
    expectWithin(worked('degree-days')['by sine'] as number, 3.936, 0.0006);
  });

  it('gives no date where there is none', () => {
    expect(worked('freeze-dates', { place: 'wmo-48698' })).toMatchObject({ last: 'none', first: 'none', without: 1 });
    expect(worked('leaf-net', { place: 'wmo-48698' })).toEqual({ begun: 'no net', on: 'no net', off: 'no net' });
    expect(worked('freeze-dates', { place: 'wmo-72658' }).last).toMatch(/^\d+ (April|May)$/);
  });

  it('moves the dates of Adelaide into the southern autumn', () => {
    expect(worked('freeze-dates', { place: 'wmo-94672', probability: 0.1, thresholdC: 3 }).first).toMatch(
      /^\d+ (April|May|June)$/,
    );
  });
});
