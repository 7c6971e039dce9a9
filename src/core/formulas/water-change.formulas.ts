import { mixedWater } from '../water/mixed-water.js';
import { largestInflowLPerH, safeChange, temperatureStep } from '../water/safe-change.js';
import { largestChangeShareByTemperature, waterChangeFor } from '../water/water-change.js';
import type { Formula, NumberInput } from './formula.js';
import {
  ALKALINITY,
  CHANGE_SHARE,
  choiceInput,
  INTERVAL,
  inWords,
  PH,
  POND_TEMPERATURE,
  PRODUCTION,
  SOURCE_ALKALINITY,
  SOURCE_NITRATE,
  SOURCE_TEMPERATURE,
  VOLUME,
} from './water-inputs.js';

const SOURCE_PH: NumberInput = { ...PH, name: 'sourcePh', symbol: 'pHs', meaning: 'pH of the new water', example: 7.2 };
const YES_NO = { true: 'yes', false: 'no' } as const;

/** Size of water changes, and how gentle they are. */
export const WATER_CHANGE_FORMULAS: readonly Formula[] = [
  {
    id: 'water-change-size',
    field: 'water',
    title: 'Size of the regular water change',
    usedFor: 'The litres of the part water change in the calendar.',
    equations: [
      'start: a tenth a week with koi, a fifth a month with light stock',
      'x = p n / (Ct − cs), Ct 40 mg/L as NO3, or 80 where 40 takes more than a quarter',
      'x ≤ 0.25 and x ≤ step / |Ts − Tp|',
    ],
    inputs: [
      PRODUCTION,
      SOURCE_NITRATE,
      INTERVAL,
      choiceInput(
        'stock',
        '',
        'Stock',
        [
          { value: 'heavy', label: 'Koi, or as much feed' },
          { value: 'light', label: 'Light' },
        ],
        'heavy',
      ),
      POND_TEMPERATURE,
      { ...SOURCE_TEMPERATURE, example: 18 },
    ],
    symbols: [],
    validity: 'In season; in winter no water is changed.',
    source: 'Common practice; the nitrate balance is derived.',
    compute: (values) => {
      const change = waterChangeFor({
        productionMgNPerLDay: values.number('productionMgNPerLDay'),
        sourceNitrateMgNPerL: values.number('sourceNitrateMgNPerL'),
        intervalDays: values.number('intervalDays'),
        heavyStock: values.choice('stock') === 'heavy',
        pondTemperatureC: values.number('pondTemperatureC'),
        sourceTemperatureC: values.number('sourceTemperatureC'),
      });
      return [
        { symbol: 'x', meaning: 'Share of the pond', unit: '', value: change.changeShare, decimals: 3 },
        { symbol: '', meaning: 'Decided by', unit: '', value: inWords(change.limitedBy), decimals: 0 },
        {
          symbol: '',
          meaning: 'Nitrate it leads to',
          unit: 'mg/L as N',
          value: change.expectedNitrateMgNPerL,
          decimals: 2,
        },
        { symbol: '', meaning: 'The target is held', unit: '', value: YES_NO[`${change.isTargetHeld}`], decimals: 0 },
      ];
    },
  },
  {
    id: 'temperature-step',
    field: 'water',
    title: 'Temperature of a water change',
    usedFor: 'How much water of another temperature may go in at once, and how fast.',
    equations: ['Tmix = (1 − x) Tp + x Ts', '|Tmix − Tp| ≤ 2.0 °C, 1.0 below 12 °C', 'Q = 1 °C/h · V / |Ts − Tp|'],
    inputs: [POND_TEMPERATURE, SOURCE_TEMPERATURE, CHANGE_SHARE, { ...VOLUME, example: 10_000 }],
    symbols: [],
    validity: 'A well-mixed pond.',
    source: 'Common practice; 0.56 °C a day to 0.56 °C a minute in print. Mixing is derived.',
    compute: (values) => {
      const water = {
        pondTemperatureC: values.number('pondTemperatureC'),
        sourceTemperatureC: values.number('sourceTemperatureC'),
      };
      const step = temperatureStep({ ...water, changeShare: values.number('changeShare') });
      const inflow = largestInflowLPerH({ ...water, volumeL: values.number('volumeL') });
      return [
        { symbol: 'Tmix', meaning: 'Pond after the change', unit: '°C', value: step.mixedTemperatureC, decimals: 1 },
        { symbol: '', meaning: 'Gentle enough', unit: '', value: YES_NO[`${step.isAllowed}`], decimals: 0 },
        { symbol: '', meaning: 'Parts, a day apart', unit: '', value: step.changes, decimals: 0 },
        {
          symbol: '',
          meaning: 'Largest share at once',
          unit: '',
          value: largestChangeShareByTemperature(water),
          decimals: 3,
        },
        {
          symbol: 'Q',
          meaning: 'Fastest inflow',
          unit: 'L/h',
          value: Number.isFinite(inflow) ? inflow : 'any',
          decimals: 0,
        },
      ];
    },
  },
  {
    id: 'mixed-ph',
    field: 'water',
    title: 'pH of mixed water, and the largest gentle change',
    usedFor: 'How much new water of another pH may go in at once.',
    equations: [
      'Alk = CT (K1 H + 2 K1 K2) / (H² + K1 H + K1 K2) + Kw/H − H',
      'Alk and CT mix in proportion; pH follows from both',
      '|ΔpH| ≤ 0.3 at once, never above 0.5',
    ],
    inputs: [
      POND_TEMPERATURE,
      { ...PH, meaning: 'pH of the pond', example: 8.4 },
      ALKALINITY,
      { ...SOURCE_TEMPERATURE, example: 16 },
      SOURCE_PH,
      { ...SOURCE_ALKALINITY, example: 60 },
      CHANGE_SHARE,
      { ...VOLUME, example: 12_000 },
    ],
    symbols: [
      { symbol: 'CT', meaning: 'Inorganic carbon', unit: 'mmol/L' },
      {
        symbol: 'K1, K2, Kw',
        meaning: 'Constants of carbonic acid and water; pK 6.352, 10.329 and 14.00 at 25 °C',
        unit: '',
      },
    ],
    validity: '0 to 40 °C, pH 4.5 to 11, before the air has its say. Read it again.',
    source:
      'Plummer & Busenberg (1982), Geochim. Cosmochim. Acta 46, 1011-1040; checked against Harned & Scholes (1941). Steps: common practice.',
    caution: 'pH does not mix in proportion: the mean of two pH is wrong.',
    compute: (values) => {
      const pond = {
        temperatureC: values.number('pondTemperatureC'),
        ph: values.number('ph'),
        alkalinityMgCaCO3PerL: values.number('alkalinityMgCaCO3PerL'),
      };
      const source = {
        temperatureC: values.number('sourceTemperatureC'),
        ph: values.number('sourcePh'),
        alkalinityMgCaCO3PerL: values.number('sourceAlkalinityMgCaCO3PerL'),
      };
      const mixed = mixedWater({ pond, source, changeShare: values.number('changeShare') });
      const safe = safeChange({ volumeL: values.number('volumeL'), pond, source });
      return [
        { symbol: 'pH', meaning: 'Pond after the change', unit: '', value: mixed.ph, decimals: 2 },
        { symbol: 'ΔpH', meaning: 'Its step', unit: '', value: mixed.phStep, decimals: 2 },
        { symbol: '', meaning: 'Largest share at once', unit: '', value: safe.changeShare, decimals: 3 },
        { symbol: '', meaning: 'Decided by', unit: '', value: inWords(safe.limitedBy), decimals: 0 },
        { symbol: '', meaning: 'Shortest time to fill', unit: 'h', value: safe.shortestFillH, decimals: 1 },
      ];
    },
  },
];
