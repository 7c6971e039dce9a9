import { ammoniaAfterChange, ammoniaCarriedByFilter, chloramineAmmoniaMgNPerL } from '../water/chloramine.js';
import { chlorineAfterTopUpMgPerL, dechlorinatorDoseG, mayTopUpUntreated } from '../water/chlorine.js';
import {
  labelledMgPerMgChlorine,
  oxygenTakenByExcessMgPerL,
  type Reagent,
  reagentByFieldGuideMgPerMgChlorine,
  reagentByTheoryMgPerMgChlorine,
  reagentUsedMgPerMgChlorine,
} from '../water/dechlorinators.js';
import type { Formula } from './formula.js';
import {
  AMMONIA_LOAD,
  CHANGE_SHARE,
  CHLORINE,
  choiceInput,
  inWords,
  numberInput,
  PH,
  TOTAL_AMMONIA,
  VOLUME,
  WATER_TEMPERATURE,
} from './water-inputs.js';

const REAGENT = choiceInput(
  'reagent',
  '',
  'Reagent',
  [
    { value: 'thiosulfate-crystals', label: 'Sodium thiosulfate, crystals' },
    { value: 'thiosulfate-anhydrous', label: 'Sodium thiosulfate, anhydrous' },
    { value: 'sodium-sulfite', label: 'Sodium sulfite' },
    { value: 'sodium-bisulfite', label: 'Sodium bisulfite' },
    { value: 'sodium-metabisulfite', label: 'Sodium metabisulfite' },
    { value: 'ascorbic-acid', label: 'Ascorbic acid' },
    { value: 'sodium-ascorbate', label: 'Sodium ascorbate' },
  ],
  'thiosulfate-crystals',
);

/** Dechlorinator, and the ammonia chloramine leaves. */
export const WATER_DECHLORINATOR_FORMULAS: readonly Formula[] = [
  {
    id: 'dechlorinator-dose',
    field: 'water',
    title: 'Dechlorinator for new water',
    usedFor: 'The grams for a water change, a top-up or the first fill.',
    equations: ['m = L Cl k (1 + reserve) / 1000'],
    inputs: [
      numberInput('waterL', 'L', 'New water, metered', 'L', { min: 0, max: 1_000_000, example: 2000 }),
      { ...CHLORINE, example: 4 },
      numberInput('productMgPerMgChlorine', 'k', 'Product for each milligram of chlorine', 'mg/mg', {
        min: 0.1,
        max: 100,
        example: 7,
      }),
      numberInput('reserveShare', 'reserve', 'Extra where a hose fills the pond directly', '', {
        min: 0,
        max: 1,
        example: 0.1,
      }),
    ],
    symbols: [],
    validity: 'The new water only, the whole pond at the first fill. Unknown taps count as 4.0 mg/L of chloramine.',
    source: 'Mass balance (derived); 4.0 is the limit of the US EPA; the reserve is common practice.',
    caution: 'A label that asks for more wins.',
    compute: (values) => [
      {
        symbol: 'm',
        meaning: 'Product',
        unit: 'g',
        value: dechlorinatorDoseG({
          waterL: values.number('waterL'),
          totalChlorineMgCl2PerL: values.number('totalChlorineMgCl2PerL'),
          productMgPerMgChlorine: values.number('productMgPerMgChlorine'),
          reserveShare: values.number('reserveShare'),
        }),
        decimals: 1,
      },
    ],
  },
  {
    id: 'dechlorinator-strength',
    field: 'water',
    title: 'Strength of a dechlorinator',
    usedFor: 'The product for each milligram of chlorine, and what is left over costs.',
    equations: ['k = M n / 70.906', 'O2 = k′ 1000 m / V'],
    inputs: [
      REAGENT,
      numberInput('excessG', 'm', 'Reagent left over', 'g', { min: 0, max: 10_000, example: 10 }),
      { ...VOLUME, example: 10_000 },
    ],
    symbols: [
      { symbol: 'M', meaning: 'Molar mass of the reagent', unit: 'g/mol' },
      { symbol: 'n', meaning: 'Molecules for one of chlorine; thiosulfate 2, to tetrathionate', unit: '' },
      { symbol: 'k′', meaning: 'Oxygen for the reagent left over; sodium sulfite 0.127', unit: 'mg/mg' },
    ],
    validity: 'Thiosulfate uses 0.9 to 7.0 by its product: the upper bound is taken, for it does no harm.',
    source:
      'Stoichiometry (derived); field figures: AWWA, Disinfection of Pipelines and Storage Facilities Field Guide, table 7-2.',
    compute: (values) => {
      const reagent = values.choice('reagent') as Reagent;
      const unit = 'mg/mg';
      const oxygen = oxygenTakenByExcessMgPerL({
        reagent,
        excessG: values.number('excessG'),
        volumeL: values.number('volumeL'),
      });
      return [
        {
          symbol: 'k',
          meaning: 'By the reaction',
          unit,
          value: reagentByTheoryMgPerMgChlorine({ reagent }),
          decimals: 3,
        },
        {
          symbol: '',
          meaning: 'By the field guide',
          unit,
          value: reagentByFieldGuideMgPerMgChlorine(reagent) ?? 'not given',
          decimals: 2,
        },
        { symbol: '', meaning: 'Counted with', unit, value: reagentUsedMgPerMgChlorine(reagent), decimals: 2 },
        { symbol: 'O2', meaning: 'Oxygen the rest takes', unit: 'mg/L', value: oxygen, decimals: 3 },
      ];
    },
  },
  {
    id: 'labelled-strength',
    field: 'water',
    title: 'Strength of a product by its label',
    usedFor: 'Any dechlorinator a company enters.',
    equations: ['k = 1000 m / (L Cl)'],
    inputs: [
      numberInput('productG', 'm', 'Dose the label asks for', 'g', { min: 0.01, max: 10_000, example: 100 }),
      numberInput('treatsL', 'L', 'Water it is for', 'L', { min: 1, max: 1_000_000, example: 10_000 }),
      numberInput('labelChlorine', 'Cl', 'Chlorine the label speaks of; 1 where it names none', 'mg/L Cl2', {
        min: 0.1,
        max: 20,
        example: 2,
      }),
    ],
    symbols: [],
    validity: 'A strength outside 0.1 to 100 is a slip and is refused.',
    source: 'Mass balance (derived).',
    compute: (values) => [
      {
        symbol: 'k',
        meaning: 'Product for each milligram of chlorine',
        unit: 'mg/mg',
        value: labelledMgPerMgChlorine({
          productG: values.number('productG'),
          treatsL: values.number('treatsL'),
          chlorineMgCl2PerL: values.number('labelChlorine'),
        }),
        decimals: 2,
      },
    ],
  },
  {
    id: 'untreated-top-up',
    field: 'water',
    title: 'Chlorine of an untreated top-up',
    usedFor: 'Whether a top-up needs dechlorinator.',
    equations: ['c = Cl L / V', 'untreated only below 0.01 mg/L'],
    inputs: [
      numberInput('topUpL', 'L', 'Water added', 'L', { min: 0, max: 100_000, example: 200 }),
      { ...VOLUME, example: 10_000 },
      { ...CHLORINE, example: 4 },
    ],
    symbols: [],
    validity: 'No more water than the pond holds.',
    source:
      'Mass balance (derived); 0.01 is common practice, under the acute limit of 0.019 of the US EPA (from memory).',
    compute: (values) => {
      const topUp = {
        topUpL: values.number('topUpL'),
        volumeL: values.number('volumeL'),
        totalChlorineMgCl2PerL: values.number('totalChlorineMgCl2PerL'),
      };
      return [
        {
          symbol: 'c',
          meaning: 'Chlorine in the pond',
          unit: 'mg/L',
          value: chlorineAfterTopUpMgPerL(topUp),
          decimals: 3,
        },
        {
          symbol: '',
          meaning: 'May go in untreated',
          unit: '',
          value: mayTopUpUntreated(topUp) ? 'yes' : 'no',
          decimals: 0,
        },
      ];
    },
  },
  {
    id: 'chloramine-ammonia',
    field: 'water',
    title: 'Ammonia that chloramine sets free',
    usedFor: 'The ammonia named beside a dechlorinator dose, and how the pond stands right after a water change.',
    equations: ['NH2Cl + H+ + 2e− → NH3 + Cl−', 'N = 0.1976 Cl', 'TAN = (1 − x) TANpond + x N'],
    inputs: [
      CHLORINE,
      CHANGE_SHARE,
      {
        ...TOTAL_AMMONIA,
        name: 'pondAmmoniaMgNPerL',
        symbol: 'TANpond',
        meaning: 'Total ammonia of the pond',
        example: 0.1,
      },
      { ...WATER_TEMPERATURE, example: 24 },
      { ...PH, example: 8.4 },
    ],
    symbols: [{ symbol: '0.1976', meaning: '14.007 / 70.90, nitrogen in chloramine per chlorine', unit: 'mg/mg' }],
    validity: 'Up to 10 mg/L of chlorine. For a dechlorinator that does not bind ammonia.',
    source: 'Stoichiometry and mass balance (derived).',
    compute: (values) => {
      const totalChlorineMgCl2PerL = values.number('totalChlorineMgCl2PerL');
      const after = ammoniaAfterChange({
        totalChlorineMgCl2PerL,
        pondAmmoniaMgNPerL: values.number('pondAmmoniaMgNPerL'),
        changeShare: values.number('changeShare'),
        temperatureC: values.number('temperatureC'),
        ph: values.number('ph'),
      });
      const freed = chloramineAmmoniaMgNPerL({ totalChlorineMgCl2PerL });
      return [
        { symbol: 'N', meaning: 'Set free in the new water', unit: 'mg/L as N', value: freed, decimals: 3 },
        {
          symbol: 'TAN',
          meaning: 'Pond after the change',
          unit: 'mg/L as N',
          value: after.totalAmmoniaMgNPerL,
          decimals: 3,
        },
        {
          symbol: 'NH3-N',
          meaning: 'Un-ionised',
          unit: 'mg/L as N',
          value: after.unionisedAmmoniaMgNPerL,
          decimals: 4,
        },
        { symbol: '', meaning: 'Verdict', unit: '', value: inWords(after.level), decimals: 0 },
      ];
    },
  },
  {
    id: 'ammonia-carried-by-filter',
    field: 'water',
    title: 'Whether the filter takes the ammonia set free',
    usedFor: 'The advice to use a product that binds ammonia.',
    equations: ['t = 24 m / (capacity − P)', 'taken when t ≤ 24 h'],
    inputs: [
      numberInput('freedGN', 'm', 'Nitrogen set free in all the new water', 'g N', { min: 0, max: 1000, example: 1.2 }),
      AMMONIA_LOAD,
      numberInput('filterCapacityGNPerDay', 'capacity', 'What the filter oxidises at the temperature', 'g N/day', {
        min: 0,
        max: 10_000,
        example: 9,
      }),
    ],
    symbols: [],
    validity: 'A ripe filter; in its first weeks a filter takes what it is given as food.',
    source: 'Mass balance (derived); a day is common practice.',
    compute: (values) => {
      const carried = ammoniaCarriedByFilter({
        freedGN: values.number('freedGN'),
        ammoniaLoadGNPerDay: values.number('ammoniaLoadGNPerDay'),
        filterCapacityGNPerDay: values.number('filterCapacityGNPerDay'),
      });
      return [
        { symbol: '', meaning: 'Verdict', unit: '', value: inWords(carried.verdict), decimals: 0 },
        { symbol: 't', meaning: 'Time it takes', unit: 'h', value: carried.hours ?? 'never', decimals: 1 },
      ];
    },
  },
];
