import { mgPerLFromN } from '../units/nitrogen-species.js';
import {
  changeIntervalHoldingDays,
  changeShareToReach,
  changesNeeded,
  nitrateAfterChangeMgNPerL,
  nitrateBeforeChangeMgNPerL,
  nitrateProductionMgNPerLDay,
  nitrateUnderSteadyExchangeMgNPerL,
} from '../water/nitrate.js';
import type { Formula } from './formula.js';
import {
  AMMONIA_LOAD,
  CHANGE_SHARE,
  INTERVAL,
  numberInput,
  PRODUCTION,
  SOURCE_NITRATE,
  VOLUME,
} from './water-inputs.js';

const NITRATE = numberInput('nitrateMgNPerL', 'C0', 'Nitrate now', 'mg/L as N', { min: 0, max: 200, example: 40 });
const TARGET = numberInput('targetMgNPerL', 'Ct', 'Nitrate aimed at', 'mg/L as N', { min: 0.5, max: 100, example: 15 });
const BALANCE = 'Well-mixed mass balance (derived).';

/** Nitrate under changes of water. */
export const WATER_NITRATE_FORMULAS: readonly Formula[] = [
  {
    id: 'nitrate-production',
    field: 'water',
    title: 'Nitrate a pond makes',
    usedFor: 'The size of water changes.',
    equations: ['p = 1000 P (1 − taken up) / V'],
    inputs: [
      AMMONIA_LOAD,
      VOLUME,
      numberInput('takenUpShare', 'taken up', 'By plants, or given off as gas; nobody measures it', '', {
        min: 0,
        max: 1,
        example: 0,
      }),
    ],
    symbols: [],
    validity: 'Where the whole load is turned into nitrate.',
    source: BALANCE,
    compute: (values) => {
      const value = nitrateProductionMgNPerLDay({
        ammoniaLoadGNPerDay: values.number('ammoniaLoadGNPerDay'),
        volumeL: values.number('volumeL'),
        takenUpShare: values.number('takenUpShare'),
      });
      return [
        { symbol: 'p', meaning: 'Nitrate made', unit: 'mg/L N per day', value, decimals: 4 },
        {
          symbol: '',
          meaning: 'The same as NO3',
          unit: 'mg/L per day',
          value: mgPerLFromN({ mgNPerL: value, basis: 'no3' }),
          decimals: 3,
        },
      ];
    },
  },
  {
    id: 'nitrate-of-regular-changes',
    field: 'water',
    title: 'Nitrate under regular changes',
    usedFor: 'The nitrate a rhythm of changes leads to.',
    equations: ['before = cs + p n / x', 'after = cs + p n (1 − x) / x', 'steady exchange q: cs + p / q'],
    inputs: [PRODUCTION, SOURCE_NITRATE, INTERVAL, CHANGE_SHARE],
    symbols: [
      {
        symbol: 'q',
        meaning: 'Share exchanged in a day by a trickle; x / n gives the same as before a change',
        unit: '1/day',
      },
    ],
    validity: 'Once the rhythm has settled. A top-up for evaporation is no change: it dilutes nothing.',
    source: BALANCE,
    compute: (values) => {
      const regular = {
        productionMgNPerLDay: values.number('productionMgNPerLDay'),
        sourceNitrateMgNPerL: values.number('sourceNitrateMgNPerL'),
        intervalDays: values.number('intervalDays'),
        changeShare: values.number('changeShare'),
      };
      const before = nitrateBeforeChangeMgNPerL(regular);
      const unit = 'mg/L as N';
      return [
        { symbol: 'before', meaning: 'Just before a change', unit, value: before, decimals: 2 },
        {
          symbol: 'after',
          meaning: 'Just after a change',
          unit,
          value: nitrateAfterChangeMgNPerL(regular),
          decimals: 2,
        },
        {
          symbol: '',
          meaning: 'Before a change, as NO3',
          unit: 'mg/L',
          value: mgPerLFromN({ mgNPerL: before, basis: 'no3' }),
          decimals: 1,
        },
      ];
    },
  },
  {
    id: 'nitrate-of-a-trickle',
    field: 'water',
    title: 'Nitrate under a trickle of new water',
    usedFor: 'Ponds with a steady overflow.',
    equations: ['C = cs + p / q'],
    inputs: [
      PRODUCTION,
      SOURCE_NITRATE,
      numberInput('exchangePerDay', 'q', 'Share of the pond exchanged in a day', '1/day', {
        min: 0.001,
        max: 2,
        example: 0.0286,
      }),
    ],
    symbols: [],
    validity: 'Once settled.',
    source: BALANCE,
    compute: (values) => [
      {
        symbol: 'C',
        meaning: 'Nitrate',
        unit: 'mg/L as N',
        value: nitrateUnderSteadyExchangeMgNPerL({
          productionMgNPerLDay: values.number('productionMgNPerLDay'),
          sourceNitrateMgNPerL: values.number('sourceNitrateMgNPerL'),
          exchangePerDay: values.number('exchangePerDay'),
        }),
        decimals: 2,
      },
    ],
  },
  {
    id: 'change-interval',
    field: 'water',
    title: 'How seldom a change may be',
    usedFor: 'The longest interval at which a given share holds nitrate at its target.',
    equations: ['n = x (Ct − cs) / p'],
    inputs: [PRODUCTION, SOURCE_NITRATE, CHANGE_SHARE, { ...TARGET, example: 9.04 }],
    symbols: [],
    validity: 'Refused where the new water is at or above the target.',
    source: BALANCE,
    compute: (values) => {
      const days = changeIntervalHoldingDays({
        productionMgNPerLDay: values.number('productionMgNPerLDay'),
        sourceNitrateMgNPerL: values.number('sourceNitrateMgNPerL'),
        changeShare: values.number('changeShare'),
        targetMgNPerL: values.number('targetMgNPerL'),
      });
      return [
        {
          symbol: 'n',
          meaning: 'Days between changes',
          unit: 'd',
          value: Number.isFinite(days) ? days : 'no end',
          decimals: 1,
        },
      ];
    },
  },
  {
    id: 'changes-needed',
    field: 'water',
    title: 'Changes that bring nitrate down',
    usedFor: 'How many visits high nitrate takes.',
    equations: ['k = ⌈ln((Ct − cs) / (C0 − cs)) / ln(1 − x)⌉', 'in one: x = (C0 − Ct) / (C0 − cs)'],
    inputs: [NITRATE, TARGET, SOURCE_NITRATE, { ...CHANGE_SHARE, example: 0.25 }],
    symbols: [],
    validity: 'Changes close together. Refused where the new water is at or above the target.',
    source: BALANCE,
    compute: (values) => {
      const step = {
        nitrateMgNPerL: values.number('nitrateMgNPerL'),
        targetMgNPerL: values.number('targetMgNPerL'),
        sourceNitrateMgNPerL: values.number('sourceNitrateMgNPerL'),
      };
      const changes = changesNeeded({ ...step, changeShare: values.number('changeShare') });
      return [
        { symbol: 'k', meaning: 'Changes', unit: '', value: changes, decimals: 0 },
        {
          symbol: 'x',
          meaning: 'The single change that would do',
          unit: '',
          value: changeShareToReach(step),
          decimals: 3,
        },
      ];
    },
  },
];
