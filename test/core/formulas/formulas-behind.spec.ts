import { describe, expect, it } from '@jest/globals';
import { ALL_FORMULAS } from '../../../src/core/formulas/all-formulas.js';
import { formulasBehind, NAMED_FORMULA_IDS } from '../../../src/core/formulas/formulas-behind.js';

type Task = Parameters<typeof formulasBehind>[0];
const aTask = (trigger: string, inputs: Record<string, string>, amounts: readonly string[] = []): Task =>
  ({
    reason: { trigger, inputs: Object.entries(inputs).map(([name, value]) => ({ name, value, unit: '' })) },
    quantities: amounts.map((of) => ({ of })),
  }) as unknown as Task;
const ids = (task: Task) => formulasBehind(task).map(({ id }) => id);

describe('the formulas behind a task', () => {
  it('are all on the page', () => {
    expect(NAMED_FORMULA_IDS.filter((id) => !ALL_FORMULAS.some((formula) => formula.id === id))).toEqual([]);
  });

  it('are those of its date, then those of its amounts, each once', () => {
    expect(ids(aTask('season', { mark: 'leaf-fall' }, ['net']))).toEqual(['leaf-net', 'freeze-dates']);
    expect(ids(aTask('interval', {}, ['feed', 'feed-per-meal']))).toEqual(['feed-ration']);
    expect(ids(aTask('reading', { quantity: 'unionised-ammonia' }, ['new-water', 'dechlorinator']))).toEqual([
      'unionised-ammonia',
      'reading-verdict',
      'water-change-size',
      'temperature-step',
      'dechlorinator-dose',
    ]);
    expect(ids(aTask('reading', { quantity: 'nitrite' }))).toEqual(['reading-verdict']);
  });

  it('are none where days are counted', () => {
    expect(ids(aTask('interval', {}, ['media']))).toEqual([]);
    expect(ids(aTask('event', {}))).toEqual([]);
  });
});
