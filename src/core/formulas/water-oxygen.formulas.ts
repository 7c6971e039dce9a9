import { airPumpStandardGPerH, fieldTransferGPerH, surfaceTransferGPerDay } from '../water/aeration.js';
import { airPressureAtm, oxygenSaturationMgPerL, oxygenSaturationShare } from '../water/oxygen.js';
import {
  type BottomLook,
  bottomRespirationGPerM2Day,
  nitrificationOxygenGPerDay,
  type WaterLook,
  waterRespirationMgPerLH,
} from '../water/pond-respiration.js';
import { fallDeficitRatio, waterfallExchange } from '../water/waterfall-aeration.js';
import type { Formula } from './formula.js';
import { AMMONIA_LOAD, choiceInput, ELEVATION, numberInput, OXYGEN, WATER_TEMPERATURE } from './water-inputs.js';

const SALINITY = numberInput('salinityGPerL', 'S', 'Salt in the water', 'g/L', { min: 0, max: 40, example: 0 });
export const WATER_LOOK = choiceInput(
  'waterLook',
  '',
  'How the water looks',
  [
    { value: 'clear', label: 'Clear' },
    { value: 'tinted', label: 'Tinted green' },
    { value: 'green', label: 'Green' },
  ],
  'tinted',
);
export const BOTTOM_LOOK = choiceInput(
  'bottomLook',
  '',
  'What lies on the bottom',
  [
    { value: 'clean', label: 'Nothing' },
    { value: 'some-sludge', label: 'Some sludge' },
    { value: 'thick-sludge', label: 'Thick sludge' },
  ],
  'some-sludge',
);
export const STANDARD_TRANSFER = numberInput(
  'standardGPerH',
  'SOTR',
  'What the catalogue says of the aerator',
  'g O2/h',
  {
    min: 0,
    max: 10_000,
    example: 1000,
  },
);

/** Oxygen in balance with air, what brings it in and what takes it out. */
export const WATER_OXYGEN_FORMULAS: readonly Formula[] = [
  {
    id: 'oxygen-saturation',
    field: 'water',
    title: 'Oxygen in balance with air',
    usedFor: 'The saturation beside an oxygen reading, and everything that aerates.',
    equations: [
      'ln Cs = −139.34411 + 1.575701e5/K − 6.642308e7/K² + 1.243800e10/K³ − 8.621949e11/K⁴ − S (0.017674 − 10.754/K + 2140.7/K²)',
      'Cp = Cs (P − u)(1 − θP) / ((1 − u)(1 − θ))',
      'u = exp(11.8571 − 3840.70/K − 216961/K²)    θ = 0.000975 − 1.426e−5 T + 6.436e−8 T²',
      'P = (1 − 2.25577e−5 h)^5.25588',
    ],
    inputs: [WATER_TEMPERATURE, SALINITY, ELEVATION, { ...OXYGEN, example: 8 }],
    symbols: [{ symbol: 'K', meaning: 'T + 273.15', unit: 'K' }],
    validity: '0 to 40 °C, 0 to 40 g/L, up to 5,400 m; outside it is refused.',
    source:
      'Benson & Krause (1980), Limnol. Oceanogr. 25, 662-671, and (1984), 29, 620-632. Checked against EN 25814, Standard Methods and the USGS tables. Pressure: standard atmosphere (from memory).',
    compute: (values) => {
      const sample = {
        temperatureC: values.number('temperatureC'),
        salinityGPerL: values.number('salinityGPerL'),
        elevationM: values.number('elevationM'),
      };
      const share = oxygenSaturationShare({ ...sample, dissolvedOxygenMgPerL: values.number('dissolvedOxygenMgPerL') });
      return [
        { symbol: 'P', meaning: 'Air pressure', unit: 'atm', value: airPressureAtm(sample), decimals: 4 },
        {
          symbol: 'Cp',
          meaning: 'Oxygen in balance',
          unit: 'mg/L',
          value: oxygenSaturationMgPerL(sample),
          decimals: 3,
        },
        { symbol: 'C/Cp', meaning: 'Share of it in the water', unit: '', value: share, decimals: 3 },
      ];
    },
  },
  {
    id: 'aerator-transfer',
    field: 'water',
    title: 'What an aerator really delivers',
    usedFor: 'Whether the air of a pond carries its fish.',
    equations: ['OTR = SOTR α 1.024^(T − 20) (β Cp − C) / Cs(20)'],
    inputs: [STANDARD_TRANSFER, { ...WATER_TEMPERATURE, example: 25 }, ELEVATION, OXYGEN],
    symbols: [
      { symbol: 'α', meaning: 'Transfer in pond water over clean water', unit: '', value: '0.85' },
      { symbol: 'β', meaning: 'Saturation of pond water over clean water', unit: '', value: '0.98' },
      { symbol: 'Cs(20)', meaning: 'Saturation at 20 °C', unit: 'mg/L', value: '9.092' },
    ],
    validity: '0 to 40 °C. Below zero where the water holds more than it can.',
    source: 'ASCE 2-91, quoted by a calculator; α (0.7 to 0.95) and β from memory.',
    caution: 'A catalogue rates aerators in water without oxygen at 20 °C; a pond gets a third of that or less.',
    compute: (values) => [
      {
        symbol: 'OTR',
        meaning: 'Oxygen delivered',
        unit: 'g/h',
        value: fieldTransferGPerH({
          standardGPerH: values.number('standardGPerH'),
          temperatureC: values.number('temperatureC'),
          elevationM: values.number('elevationM'),
          dissolvedOxygenMgPerL: values.number('dissolvedOxygenMgPerL'),
        }),
        decimals: 1,
      },
    ],
  },
  {
    id: 'air-pump-transfer',
    field: 'water',
    title: 'Catalogue figure of an air pump with a diffuser',
    usedFor: 'An air pump known only by its litres a minute.',
    equations: ['SOTR = 60 q 0.2787 e D / 100'],
    inputs: [
      numberInput('airLPerMin', 'q', 'Air moved at that depth', 'L/min', { min: 0, max: 1000, example: 60 }),
      numberInput('depthM', 'D', 'Water over the diffuser', 'm', { min: 0.05, max: 10, example: 0.8 }),
      numberInput('efficiencyPctPerM', 'e', 'Oxygen taken up on each metre; coarse 1.5 to 3, fine 4 to 7', '%/m', {
        min: 0.5,
        max: 10,
        example: 3,
      }),
    ],
    symbols: [{ symbol: '0.2787', meaning: 'Oxygen in a litre of air at 20 °C', unit: 'g/L' }],
    validity: '0.05 to 10 m.',
    source: 'Composition of air (derived); efficiencies from memory.',
    compute: (values) => [
      {
        symbol: 'SOTR',
        meaning: 'Standard transfer',
        unit: 'g/h',
        value: airPumpStandardGPerH({
          airLPerMin: values.number('airLPerMin'),
          depthM: values.number('depthM'),
          efficiencyPctPerM: values.number('efficiencyPctPerM'),
        }),
        decimals: 1,
      },
    ],
  },
  {
    id: 'waterfall-aeration',
    field: 'water',
    title: 'Oxygen from a waterfall',
    usedFor: 'The part of a fall in the oxygen of a night.',
    equations: ['r = 1 + 0.38 a b h (1 − 0.11 h)(1 + 0.046 T)', 'gain = Q (1 − 1/r)(Cp − C)'],
    inputs: [
      numberInput('fallHeightM', 'h', 'Free fall', 'm', { min: 0.05, max: 3, example: 0.5 }),
      numberInput('flowLPerH', 'Q', 'Flow over it', 'L/h', { min: 0, max: 100_000, example: 6000 }),
      { ...WATER_TEMPERATURE, example: 25 },
    ],
    symbols: [
      { symbol: 'a', meaning: 'Purity of the water; 1.8 clean to 0.65 grossly polluted', unit: '', value: '1.0' },
      { symbol: 'b', meaning: 'Form of the edge; 0.8 a sharp crest over a vertical face', unit: '', value: '0.8' },
    ],
    validity: '0.05 to 3 m. Made for river weirs: a thin sheet over stones does better.',
    source: 'Butts & Evans (1983), quoted by the theory of a river basin model.',
    compute: (values) => {
      const fall = { fallHeightM: values.number('fallHeightM'), temperatureC: values.number('temperatureC') };
      const exchange = waterfallExchange({ ...fall, flowLPerH: values.number('flowLPerH') });
      return [
        {
          symbol: 'r',
          meaning: 'Deficit above over deficit below',
          unit: '',
          value: fallDeficitRatio(fall),
          decimals: 3,
        },
        {
          symbol: '',
          meaning: 'Gain for each mg/L missing',
          unit: 'g/h',
          value: exchange.perDeficitM3PerH,
          decimals: 2,
        },
      ];
    },
  },
  {
    id: 'surface-reaeration',
    field: 'water',
    title: 'Oxygen through the open surface',
    usedFor: 'The part of the surface in the oxygen of a night.',
    equations: ['flux = k A (Cp − C)'],
    inputs: [
      numberInput('surfaceAreaM2', 'A', 'Open surface', 'm²', { min: 0, max: 10_000, example: 10 }),
      numberInput('transferVelocityMPerDay', 'k', 'Transfer velocity; ice 0, calm 0.3, breezy 1.0', 'm/day', {
        min: 0,
        max: 5,
        example: 0.3,
      }),
      WATER_TEMPERATURE,
      ELEVATION,
      { ...OXYGEN, example: 6.09 },
    ],
    symbols: [],
    validity: 'Still water.',
    source: 'Two-film theory; velocities from memory.',
    compute: (values) => [
      {
        symbol: 'flux',
        meaning: 'Oxygen gained',
        unit: 'g/day',
        value: surfaceTransferGPerDay({
          surfaceAreaM2: values.number('surfaceAreaM2'),
          transferVelocityMPerDay: values.number('transferVelocityMPerDay'),
          temperatureC: values.number('temperatureC'),
          elevationM: values.number('elevationM'),
          dissolvedOxygenMgPerL: values.number('dissolvedOxygenMgPerL'),
        }),
        decimals: 1,
      },
    ],
  },
  {
    id: 'pond-respiration',
    field: 'water',
    title: 'Oxygen used by water and bottom',
    usedFor: 'Their part in the oxygen of a night, the larger one in most ponds.',
    equations: ['w = w20 1.047^(T − 20)', 's = (s20 / Cs(20)) 1.065^(T − 20) C'],
    inputs: [WATER_LOOK, BOTTOM_LOOK, { ...WATER_TEMPERATURE, example: 25 }, { ...OXYGEN, example: 6 }],
    symbols: [
      { symbol: 'w20', meaning: 'Water, by its look', unit: 'mg/L h', value: '0.04, 0.10, 0.25' },
      { symbol: 's20', meaning: 'Bottom, by what lies on it', unit: 'g/m² day', value: '0.3, 1.5, 3' },
    ],
    validity: '0 to 40 °C, in the dark. Show it as a range: 0.02 to 0.6 and 0.2 to 4 in print.',
    source:
      'Rates and their growth from memory. That a bottom takes oxygen in proportion to what is over it: a study of Chinese fish ponds at night. Shares of 42 and 50 %: Madenjian et al. (1987).',
    compute: (values) => {
      const temperatureC = values.number('temperatureC');
      const bottom = {
        look: values.choice('bottomLook') as BottomLook,
        temperatureC,
        dissolvedOxygenMgPerL: values.number('dissolvedOxygenMgPerL'),
      };
      const water = waterRespirationMgPerLH({ look: values.choice('waterLook') as WaterLook, temperatureC });
      return [
        { symbol: 'w', meaning: 'Used by the water', unit: 'mg/L h', value: water, decimals: 3 },
        {
          symbol: 's',
          meaning: 'Used by the bottom',
          unit: 'g/m² day',
          value: bottomRespirationGPerM2Day(bottom),
          decimals: 2,
        },
      ];
    },
  },
  {
    id: 'nitrification-oxygen',
    field: 'water',
    title: 'Oxygen used by the filter',
    usedFor: 'The part of the filter bacteria in the oxygen of a night.',
    equations: ['O2 = 4.57 P'],
    inputs: [AMMONIA_LOAD],
    symbols: [{ symbol: '4.57', meaning: '64 / 14.007; with cell growth 4.2 to 4.3', unit: 'g/g N' }],
    validity: 'Where the whole load is turned into nitrate.',
    source: 'Stoichiometry (published).',
    compute: (values) => [
      {
        symbol: 'O2',
        meaning: 'Oxygen used',
        unit: 'g/day',
        value: nitrificationOxygenGPerDay({ ammoniaLoadGNPerDay: values.number('ammoniaLoadGNPerDay') }),
        decimals: 1,
      },
    ],
  },
];
