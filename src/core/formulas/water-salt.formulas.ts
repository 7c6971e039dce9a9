import { saltAgainstNitrite } from '../water/nitrite.js';
import {
  dailySaltG,
  proposedSaltG,
  salinityRiseGPerL,
  saltForVolumeTestG,
  saltLostByChangeG,
  saltVolume,
} from '../water/salt.js';
import type { Formula } from './formula.js';
import { CHANGE_SHARE, numberInput, VOLUME } from './water-inputs.js';

const SALINITY = numberInput('salinityGPerL', 'S', 'Salt in the water', 'g/L', { min: 0, max: 5, example: 0.2 });

/** Salt, and the volume found by it. */
export const WATER_SALT_FORMULAS: readonly Formula[] = [
  {
    id: 'salt-dose',
    field: 'water',
    title: 'Salt',
    usedFor: 'Salt up to 1.0 g/L, and what leaves with changed water. The product proposes no more.',
    equations: ['m = V (St − S)', 'St ≤ 1.0 g/L', 'lost = V x S'],
    inputs: [
      { ...VOLUME, example: 12_000 },
      SALINITY,
      numberInput('targetSalinityGPerL', 'St', 'Salt aimed at', 'g/L', { min: 0, max: 1, example: 1 }),
      CHANGE_SHARE,
    ],
    symbols: [],
    validity: 'Never with turtles, zeolite or plants that salt harms. Evaporation takes no salt.',
    source: 'Mass balance (derived); the cap and three days are common practice.',
    compute: (values) => {
      const pond = { volumeL: values.number('volumeL'), salinityGPerL: values.number('salinityGPerL') };
      const saltG = proposedSaltG({ ...pond, targetSalinityGPerL: values.number('targetSalinityGPerL') });
      const lostG = saltLostByChangeG({ ...pond, changeShare: values.number('changeShare') });
      return [
        { symbol: 'm', meaning: 'Salt', unit: 'g', value: saltG, decimals: 0 },
        { symbol: '', meaning: 'On each of three days', unit: 'g', value: dailySaltG({ saltG }), decimals: 0 },
        { symbol: 'lost', meaning: 'Leaves with a change now', unit: 'g', value: lostG, decimals: 0 },
      ];
    },
  },
  {
    id: 'volume-by-salt',
    field: 'water',
    title: 'Volume by salt',
    usedFor: 'The volume of a pond nobody metered, with its error.',
    equations: ['V = 1000 m / ΔS', 'σV/V = √((σm/m)² + 2 (σS/ΔS)²)', 'ΔS ≈ ΔEC / 2000'],
    inputs: [
      numberInput('saltKg', 'm', 'Salt dissolved', 'kg', { min: 0.1, max: 1000, example: 10 }),
      numberInput('salinityBeforeGPerL', 'S1', 'Salinity before', 'g/L', { min: 0, max: 5, example: 1.2 }),
      numberInput('salinityAfterGPerL', 'S2', 'Salinity after', 'g/L', { min: 0, max: 10, example: 2 }),
      numberInput('conductivityUSPerCm', 'ΔEC', 'Rise of conductivity, where that is read instead', 'µS/cm', {
        min: 0,
        max: 20_000,
        example: 1600,
      }),
    ],
    symbols: [
      { symbol: 'σm/m', meaning: 'Error of the weighing', unit: '', value: '0.02' },
      { symbol: 'σS', meaning: 'Error of one reading', unit: 'g/L', value: '0.05' },
    ],
    validity: 'A rise the meter can see, in water mixed overnight.',
    source: 'Mass balance and propagation of errors (derived); conductivity from memory (1.9 to 2.1 µS/cm per mg/L).',
    compute: (values) => {
      const found = saltVolume({
        saltKg: values.number('saltKg'),
        salinityBeforeGPerL: values.number('salinityBeforeGPerL'),
        salinityAfterGPerL: values.number('salinityAfterGPerL'),
      });
      const rise = salinityRiseGPerL({ conductivityUSPerCm: values.number('conductivityUSPerCm') });
      return [
        { symbol: 'V', meaning: 'Volume', unit: 'L', value: found.volumeL, decimals: 0 },
        { symbol: 'σV/V', meaning: 'Its error', unit: '%', value: found.volumeSigmaPct, decimals: 1 },
        { symbol: 'ΔS', meaning: 'Rise by conductivity', unit: 'g/L', value: rise, decimals: 2 },
      ];
    },
  },
  {
    id: 'salt-for-volume-test',
    field: 'water',
    title: 'Salt for a volume test',
    usedFor: 'How much salt to weigh in.',
    equations: ['m = V min(0.8, 1.0 − S)'],
    inputs: [
      { ...VOLUME, meaning: 'Water by estimate', example: 10_000 },
      { ...SALINITY, max: 1, example: 0 },
    ],
    symbols: [],
    validity: 'Refused where less than 0.3 g/L is left below 1.0: such a test shows nothing.',
    source: 'Common practice.',
    compute: (values) => [
      {
        symbol: 'm',
        meaning: 'Salt',
        unit: 'g',
        value: saltForVolumeTestG({ volumeL: values.number('volumeL'), salinityGPerL: values.number('salinityGPerL') }),
        decimals: 0,
      },
    ],
  },
  {
    id: 'salt-against-nitrite',
    field: 'water',
    title: 'Salt against nitrite',
    usedFor: 'The arithmetic behind salt as a help while nitrite is high; never beyond 1.0 g/L.',
    equations: ['m = V (r NO2 − Cl) 1.6485 / 1000', 'NO2 = 3.2844 NO2-N', 'S + m / V ≤ 1.0 g/L'],
    inputs: [
      { ...VOLUME, example: 1000 },
      numberInput('nitriteMgNPerL', 'NO2-N', 'Nitrite', 'mg/L as N', { min: 0, max: 10, example: 0.1 }),
      numberInput('chlorideMgPerL', 'Cl', 'Chloride already there', 'mg/L', { min: 0, max: 1000, example: 0 }),
      numberInput('salinityGPerL', 'S', 'Salt already there', 'g/L', { min: 0, max: 5, example: 0 }),
    ],
    symbols: [
      { symbol: 'r', meaning: 'Chloride for each part of nitrite', unit: '', value: '10' },
      { symbol: '1.6485', meaning: 'Salt per chloride', unit: 'g/g' },
    ],
    validity: 'Fresh water. Not with turtles, zeolite or plants that salt harms.',
    source:
      'Ratio from a catfish extension text (quoted by a reprint); 6 to 1 is the least in print. Molar masses (derived).',
    caution: 'Salt protects the gills; it removes no nitrite.',
    compute: (values) => {
      const dose = saltAgainstNitrite({
        volumeL: values.number('volumeL'),
        nitriteMgNPerL: values.number('nitriteMgNPerL'),
        chlorideMgPerL: values.number('chlorideMgPerL'),
        salinityGPerL: values.number('salinityGPerL'),
      });
      return [
        { symbol: 'm', meaning: 'Salt', unit: 'g', value: dose.saltG, decimals: 2 },
        {
          symbol: '',
          meaning: 'The ratio is reached',
          unit: '',
          value: dose.isRatioReached ? 'yes' : 'no',
          decimals: 0,
        },
      ];
    },
  },
];
