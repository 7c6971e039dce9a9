import { dkhFromMgCaCO3PerL } from '../units/hardness.js';
import { alkalinityDose, alkalinityUseMgCaCO3PerLDay, bicarbonateG } from '../water/alkalinity.js';
import { bicarbonatePerChangeG, daysUntilAlkalinity, settledAlkalinity } from '../water/alkalinity-budget.js';
import { carbonDioxideLevel, carbonDioxideMgPerL } from '../water/carbon-dioxide.js';
import type { Formula } from './formula.js';
import {
  ALKALINITY,
  AMMONIA_LOAD,
  CHANGE_SHARE,
  INTERVAL,
  inWords,
  numberInput,
  PH,
  SOURCE_ALKALINITY,
  VOLUME,
  WATER_TEMPERATURE,
} from './water-inputs.js';

const USE = numberInput('useMgCaCO3PerLDay', 'u', 'Alkalinity the filter uses', 'mg/L per day', {
  min: 0,
  max: 20,
  example: 3.07,
});

/** Alkalinity and carbon dioxide. */
export const WATER_ALKALINITY_FORMULAS: readonly Formula[] = [
  {
    id: 'bicarbonate-dose',
    field: 'water',
    title: 'Bicarbonate to raise alkalinity',
    usedFor: 'The grams of sodium bicarbonate for today.',
    equations: ['m = 1.679 V ΔAlk / 1000', 'ΔAlk ≤ 20 mg/L a day'],
    inputs: [
      { ...VOLUME, example: 12_000 },
      { ...ALKALINITY, example: 60 },
      { ...ALKALINITY, name: 'targetMgCaCO3PerL', symbol: 'At', meaning: 'Target; 100, or 150 while a filter runs in' },
    ],
    symbols: [{ symbol: '1.679', meaning: '84.007 / 50.043', unit: 'g/g' }],
    validity: 'Up to 400 mg/L. Dissolve first, read again before the next day.',
    source: 'Stoichiometry (derived); a dosing sheet of the trade agrees. Daily cap and targets are common practice.',
    compute: (values) => {
      const dose = alkalinityDose({
        volumeL: values.number('volumeL'),
        alkalinityMgCaCO3PerL: values.number('alkalinityMgCaCO3PerL'),
        targetMgCaCO3PerL: values.number('targetMgCaCO3PerL'),
      });
      return [
        { symbol: '', meaning: 'Today', unit: 'g', value: dose.bicarbonateTodayG, decimals: 0 },
        { symbol: 'm', meaning: 'In all', unit: 'g', value: dose.bicarbonateG, decimals: 0 },
        { symbol: '', meaning: 'Days', unit: 'd', value: dose.days, decimals: 0 },
      ];
    },
  },
  {
    id: 'alkalinity-use',
    field: 'water',
    title: 'Alkalinity a filter uses up',
    usedFor: 'Why a fed pond needs bicarbonate.',
    equations: ['u = 7.14 P 1000 / V'],
    inputs: [AMMONIA_LOAD, VOLUME],
    symbols: [
      { symbol: '7.14', meaning: 'Two bicarbonate for each nitrogen; 6.3 to 7.4 measured', unit: 'g CaCO3/g N' },
    ],
    validity: 'Where the whole load is turned into nitrate.',
    source: 'Stoichiometry (published).',
    compute: (values) => {
      const volumeL = values.number('volumeL');
      const use = alkalinityUseMgCaCO3PerLDay({ ammoniaLoadGNPerDay: values.number('ammoniaLoadGNPerDay'), volumeL });
      const asBicarbonate = bicarbonateG({ volumeL, alkalinityRiseMgCaCO3PerL: Math.min(use, 400) });
      return [
        { symbol: 'u', meaning: 'Used', unit: 'mg/L CaCO3 a day', value: use, decimals: 2 },
        { symbol: '', meaning: 'As bicarbonate', unit: 'g a day', value: asBicarbonate, decimals: 1 },
      ];
    },
  },
  {
    id: 'alkalinity-budget',
    field: 'water',
    title: 'Alkalinity between filter and water changes',
    usedFor: 'Whether the tap brings what the filter uses, and when alkalinity must be read again.',
    equations: ['before = As − u n / x', 'after = before + u n', 'm = 1.679 V (u n − x (As − At)) / 1000'],
    inputs: [
      USE,
      SOURCE_ALKALINITY,
      CHANGE_SHARE,
      INTERVAL,
      ALKALINITY,
      { ...ALKALINITY, name: 'limitMgCaCO3PerL', symbol: 'At', meaning: 'Limit, and target of the dose', example: 80 },
      VOLUME,
    ],
    symbols: [],
    validity: 'Used up where the change brings less than the filter takes: then the pH falls and the filter stops.',
    source: 'Well-mixed mass balance (derived).',
    compute: (values) => {
      const budget = {
        useMgCaCO3PerLDay: values.number('useMgCaCO3PerLDay'),
        sourceAlkalinityMgCaCO3PerL: values.number('sourceAlkalinityMgCaCO3PerL'),
        changeShare: values.number('changeShare'),
        intervalDays: values.number('intervalDays'),
      };
      const limitMgCaCO3PerL = values.number('limitMgCaCO3PerL');
      const settled = settledAlkalinity(budget);
      const days = daysUntilAlkalinity({
        ...budget,
        alkalinityMgCaCO3PerL: values.number('alkalinityMgCaCO3PerL'),
        limitMgCaCO3PerL,
      });
      const perChange = { ...budget, volumeL: values.number('volumeL'), targetMgCaCO3PerL: limitMgCaCO3PerL };
      const unit = 'mg/L CaCO3';
      return [
        {
          symbol: 'before',
          meaning: 'Settled, before a change',
          unit,
          value: settled.beforeChangeMgCaCO3PerL,
          decimals: 1,
        },
        {
          symbol: 'after',
          meaning: 'Settled, after a change',
          unit,
          value: settled.afterChangeMgCaCO3PerL,
          decimals: 1,
        },
        { symbol: '', meaning: 'Days until the limit', unit: 'd', value: days ?? 'not within a year', decimals: 1 },
        {
          symbol: 'm',
          meaning: 'Bicarbonate at each change',
          unit: 'g',
          value: bicarbonatePerChangeG(perChange),
          decimals: 0,
        },
      ];
    },
  },
  {
    id: 'carbon-dioxide',
    field: 'water',
    title: 'Carbon dioxide from pH and alkalinity',
    usedFor: 'A check of pH against alkalinity, and of gassing.',
    equations: ['CO2 = Alk k6(T) 10^(6 − pH)'],
    inputs: [ALKALINITY, { ...PH, min: 5, max: 8.4, example: 7.5 }, { ...WATER_TEMPERATURE, min: 5, max: 35 }],
    symbols: [{ symbol: 'k6', meaning: 'By table: 2.915 at 5 °C, 2.112 at 20 °C, 1.839 at 35 °C', unit: 'mg/mg' }],
    validity: '5 to 35 °C, pH 5 to 8.4; outside it is refused.',
    source:
      'Tucker (1984), quoted by a reprint; agrees within 2.5 % with Plummer & Busenberg (1982). Watch 10, act 20 mg/L: common practice.',
    caution: 'Far above 40 under open sky means pH or alkalinity was misread.',
    compute: (values) => {
      const value = carbonDioxideMgPerL({
        alkalinityMgCaCO3PerL: values.number('alkalinityMgCaCO3PerL'),
        ph: values.number('ph'),
        temperatureC: values.number('temperatureC'),
      });
      return [
        { symbol: 'CO2', meaning: 'Free carbon dioxide', unit: 'mg/L', value, decimals: 1 },
        { symbol: '', meaning: 'Verdict', unit: '', value: inWords(carbonDioxideLevel(value)), decimals: 0 },
      ];
    },
  },
  {
    id: 'german-degrees',
    field: 'water',
    title: 'Alkalinity in German degrees',
    usedFor: 'Readings from a kit that counts in degrees.',
    equations: ['1 dKH = 17.848 mg/L CaCO3'],
    inputs: [ALKALINITY],
    symbols: [],
    validity: 'Exact; 10 mg/L of CaO.',
    source: 'Derived from molar masses; 17.8 to 17.9 in print.',
    compute: (values) => [
      {
        symbol: 'dKH',
        meaning: 'German degrees',
        unit: '°',
        value: dkhFromMgCaCO3PerL(values.number('alkalinityMgCaCO3PerL')),
        decimals: 2,
      },
    ],
  },
];
