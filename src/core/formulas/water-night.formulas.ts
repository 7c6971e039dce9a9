import { dawnOxygen, dawnOxygenRange, hoursUntilOxygen } from '../water/dawn-oxygen.js';
import { dawnOxygenByReadingsMgPerL } from '../water/evening-readings.js';
import type { DarkPond } from '../water/night-balance.js';
import type { BottomLook, WaterLook } from '../water/pond-respiration.js';
import type { Formula, FormulaInput, FormulaValues } from './formula.js';
import { ELEVATION, inWords, numberInput, VOLUME, WATER_TEMPERATURE } from './water-inputs.js';
import { BOTTOM_LOOK, STANDARD_TRANSFER, WATER_LOOK } from './water-oxygen.formulas.js';

const POND_AT_NIGHT: readonly FormulaInput[] = [
  { ...VOLUME, example: 12_000 },
  numberInput('surfaceAreaM2', 'A', 'Open surface, and the bottom under it', 'm²', {
    min: 0.5,
    max: 10_000,
    example: 12,
  }),
  { ...WATER_TEMPERATURE, max: 35, example: 26 },
  ELEVATION,
  numberInput('duskOxygenMgPerL', 'C0', 'Oxygen at dusk', 'mg/L', { min: 0, max: 25, example: 8 }),
  numberInput('fishGPerH', 'F', 'Used by the fish', 'g/h', { min: 0, max: 1000, example: 2 }),
  numberInput('filterGPerH', 'N', 'Used by the filter', 'g/h', { min: 0, max: 1000, example: 0.8 }),
  WATER_LOOK,
  BOTTOM_LOOK,
  { ...STANDARD_TRANSFER, name: 'aeratorStandardGPerH', example: 0 },
  numberInput(
    'transferVelocityMPerDay',
    'k',
    'Transfer velocity of the surface; ice 0, calm 0.3, breezy 1.0',
    'm/day',
    {
      min: 0,
      max: 5,
      example: 0.3,
    },
  ),
];

function pondAtNight(values: FormulaValues): DarkPond & { duskOxygenMgPerL: number } {
  return {
    volumeL: values.number('volumeL'),
    surfaceAreaM2: values.number('surfaceAreaM2'),
    temperatureC: values.number('temperatureC'),
    elevationM: values.number('elevationM'),
    duskOxygenMgPerL: values.number('duskOxygenMgPerL'),
    fishGPerH: values.number('fishGPerH'),
    filterGPerH: values.number('filterGPerH'),
    waterLook: values.choice('waterLook') as WaterLook,
    bottomLook: values.choice('bottomLook') as BottomLook,
    aeratorStandardGPerH: values.number('aeratorStandardGPerH'),
    waterfall: null,
    transferVelocityMPerDay: values.number('transferVelocityMPerDay'),
  };
}

const BALANCE = 'V dC/dt = −F − N − w V − s A C + Σ k (C* − C)';
const UNCERTAIN =
  'Adult koi are known to a factor of two, water and bottom hardly better: read the range, not the figure.';

/** Oxygen over a night. */
export const WATER_NIGHT_FORMULAS: readonly Formula[] = [
  {
    id: 'dawn-oxygen',
    field: 'water',
    title: 'Oxygen at dawn',
    usedFor: 'The lowest oxygen of the day, before anyone has read it.',
    equations: [BALANCE, 'C(t) = C∞ + (C0 − C∞) e^(−b t)'],
    inputs: [...POND_AT_NIGHT, numberInput('nightH', 't', 'Dusk to dawn', 'h', { min: 0.5, max: 24, example: 9 })],
    symbols: [
      { symbol: 'w, s', meaning: 'Used by water and bottom, as above', unit: '' },
      { symbol: 'k, C*', meaning: 'Exchange by aerator, fall and surface, and what it brings the water to', unit: '' },
      { symbol: 'b', meaning: 'All that hangs on the concentration, over the volume', unit: '1/h' },
    ],
    validity: 'A mixed pond in the dark, 0 to 40 °C. Once nothing is left, only what comes in is used.',
    source: 'Mass balance (derived); the parts as given with them.',
    caution: UNCERTAIN,
    compute: (values) => {
      const pond = { ...pondAtNight(values), nightH: values.number('nightH') };
      const night = dawnOxygen(pond);
      const range = dawnOxygenRange(pond);
      return [
        { symbol: 'C', meaning: 'Oxygen at dawn', unit: 'mg/L', value: night.dawnMgPerL, decimals: 1 },
        { symbol: '', meaning: 'With all uses high', unit: 'mg/L', value: range.lowMgPerL, decimals: 1 },
        { symbol: '', meaning: 'With all uses low', unit: 'mg/L', value: range.highMgPerL, decimals: 1 },
        { symbol: '', meaning: 'Verdict', unit: '', value: inWords(night.level), decimals: 0 },
        { symbol: '', meaning: 'Taken by the fish', unit: 'g', value: night.balance.fishG, decimals: 1 },
        { symbol: '', meaning: 'Taken by the filter', unit: 'g', value: night.balance.filterG, decimals: 1 },
        { symbol: '', meaning: 'Taken by the water', unit: 'g', value: night.balance.waterG, decimals: 1 },
        { symbol: '', meaning: 'Taken by the bottom', unit: 'g', value: night.balance.bottomG, decimals: 1 },
      ];
    },
  },
  {
    id: 'dawn-oxygen-by-readings',
    field: 'water',
    title: 'Oxygen at dawn from two readings of the evening',
    usedFor: 'A better figure where somebody reads twice.',
    equations: ['D = D1 (D2 / D1)^(t / Δt)'],
    inputs: [
      numberInput('firstMgPerL', 'D1', 'First reading', 'mg/L', { min: 0.1, max: 25, example: 8 }),
      numberInput('secondMgPerL', 'D2', 'Second reading', 'mg/L', { min: 0.1, max: 25, example: 7 }),
      numberInput('hoursBetween', 'Δt', 'Between them', 'h', { min: 1, max: 8, example: 3 }),
      numberInput('hoursToDawn', 't', 'From the first to dawn', 'h', { min: 1, max: 18, example: 8 }),
    ],
    symbols: [],
    validity: 'The second reading no higher than the first, nothing switched on or off after it.',
    source:
      'Madenjian, Rogers & Fast (1987), Aquacult. Eng. 6, 191-208; with a term for diffusion the mean error was 0.40 mg/L (209-225).',
    compute: (values) => [
      {
        symbol: 'D',
        meaning: 'Oxygen at dawn',
        unit: 'mg/L',
        value: dawnOxygenByReadingsMgPerL({
          firstMgPerL: values.number('firstMgPerL'),
          secondMgPerL: values.number('secondMgPerL'),
          hoursBetween: values.number('hoursBetween'),
          hoursToDawn: values.number('hoursToDawn'),
        }),
        decimals: 2,
      },
    ],
  },
  {
    id: 'oxygen-clock',
    field: 'water',
    title: 'Hours of oxygen left without air',
    usedFor: 'How long a pond lasts when the power fails.',
    equations: [BALANCE, 't = ln((C0 − C∞) / (limit − C∞)) / b'],
    inputs: [
      ...POND_AT_NIGHT,
      numberInput('limitMgPerL', 'limit', 'Oxygen at which something must be done', 'mg/L', {
        min: 0,
        max: 10,
        example: 4,
      }),
    ],
    symbols: [{ symbol: 'b', meaning: 'As for oxygen at dawn', unit: '1/h' }],
    validity: 'A mixed pond in the dark; by day algae lengthen it.',
    source: 'Mass balance (derived).',
    caution: UNCERTAIN,
    compute: (values) => [
      {
        symbol: 't',
        meaning: 'Time until the limit',
        unit: 'h',
        value: hoursUntilOxygen({ ...pondAtNight(values), limitMgPerL: values.number('limitMgPerL') }) ?? 'never',
        decimals: 1,
      },
    ],
  },
];
