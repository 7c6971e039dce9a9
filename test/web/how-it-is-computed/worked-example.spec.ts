import { describe, expect, it } from '@jest/globals';
import { InvalidValueError } from '../../../src/core/errors.js';
import type { Formula } from '../../../src/core/formulas/formula.js';
import { fieldName, workExample } from '../../../src/web/how-it-is-computed/worked-example.js';

const FORMULA: Formula = {
  id: 'half-of-it',
  field: 'water',
  title: 'Half of it',
  usedFor: 'A test.',
  equations: ['y = x / 2'],
  inputs: [
    { kind: 'number', name: 'x', symbol: 'x', meaning: 'Water of the pond', unit: '°C', min: -1, max: 40, example: 10 },
    {
      kind: 'choice',
      name: 'kind',
      symbol: 'kind',
      meaning: 'Kind of pond',
      choices: [
        { value: 'koi', label: 'Koi' },
        { value: 'garden', label: 'Garden' },
      ],
      example: 'koi',
    },
  ],
  symbols: [],
  validity: 'Where it holds.',
  source: 'derived',
  compute: (values) => {
    if (values.choice('kind') === 'garden') throw new InvalidValueError('kind', 'garden', 'Only koi halve.');
    const x = values.number('x');
    return [{ symbol: 'y', meaning: 'Half', unit: '°C', value: x === 0 ? Number.NaN : x / 2, decimals: 1 }];
  },
};
const work = (fields: Record<string, string>) =>
  workExample(FORMULA, Object.fromEntries(Object.entries(fields).map(([name, text]) => [`half-of-it.${name}`, text])));

describe('a worked example', () => {
  it('is the formula’s own until somebody types', () => {
    expect(workExample(FORMULA, { 'other.x': '3' })).toMatchObject({
      typed: { x: '10', kind: 'koi' },
      outputs: [{ value: 5 }],
      isTyped: false,
      faults: {},
    });
  });

  it('reads figures as people write them and keeps the writing', () => {
    expect(work({ x: ' 3,5 ' })).toMatchObject({ typed: { x: ' 3,5 ' }, outputs: [{ value: 1.75 }], isTyped: true });
    expect(work({ x: '−0.5' })).toMatchObject({ outputs: [{ value: -0.25 }] });
  });

  it.each([
    ['400', 'Water of the pond: 400, outside -1 to 40.'],
    ['', 'Water of the pond: write a number from −1 to 40 °C.'],
    ['warm', 'Water of the pond: “warm” is not a number. Write one from −1 to 40 °C.'],
    ['1e9', 'Water of the pond: “1e9” is not a number. Write one from −1 to 40 °C.'],
  ])('says beside the field why %p cannot be used, and computes nothing', (text, fault) => {
    expect(work({ x: text })).toMatchObject({ typed: { x: text }, faults: { x: fault }, outputs: null });
  });

  it('takes no choice that is not on the list', () => {
    expect(work({ kind: 'bowl' }).faults).toEqual({ kind: 'Kind of pond: choose one of the list.' });
  });

  it('says what the formula itself refuses, and what comes out as no number', () => {
    expect(work({ kind: 'garden' })).toMatchObject({
      outputs: null,
      faults: { '': 'kind: "garden" cannot be used. Only koi halve.' },
    });
    expect(work({ x: '0' })).toMatchObject({
      outputs: null,
      faults: { '': 'Half cannot be worked out from these figures.' },
    });
  });

  it('lets a slip of the program through, which is no fault of the reader', () => {
    const broken: Formula = { ...FORMULA, compute: (values) => [{ value: values.number('z') } as never] };
    expect(() => workExample(broken, {})).toThrow(/asks for z/);
  });

  it('names a field by its formula, so that no two on the page are alike', () => {
    expect(FORMULA.inputs.map((input) => fieldName(FORMULA, input))).toEqual(['half-of-it.x', 'half-of-it.kind']);
  });
});
