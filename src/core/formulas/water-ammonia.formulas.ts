import type { ReadingQuantity } from '../care/care-rule.js';
import { mgPerLFromN, type NitrogenBasis } from '../units/nitrogen-species.js';
import {
  ammoniaPKa,
  largestTotalAmmoniaMgNPerL,
  unionisedAmmoniaMgNPerL,
  unionisedAmmoniaShare,
} from '../water/ammonia.js';
import { ammoniaCriteria } from '../water/ammonia-criteria.js';
import { plausibleRange, readingUnit, readingVerdict } from '../water/reading-verdict.js';
import type { Formula } from './formula.js';
import { choiceInput, inWords, numberInput, PH, TOTAL_AMMONIA, WATER_TEMPERATURE } from './water-inputs.js';

const AMMONIA_TEMPERATURE = { ...WATER_TEMPERATURE, max: 50, example: 24 };
const EMERSON = 'Emerson, Russo, Lund & Thurston (1975), J. Fish. Res. Board Can. 32, 2379-2383';
/** Quantities with limits, as they are shown in the choice. */
const JUDGED: readonly { value: ReadingQuantity; label: string }[] = [
  { value: 'dissolved-oxygen', label: 'Oxygen, mg/L' },
  { value: 'total-ammonia', label: 'Total ammonia, mg/L as N' },
  { value: 'unionised-ammonia', label: 'Un-ionised ammonia, mg/L as N' },
  { value: 'nitrite', label: 'Nitrite, mg/L as N' },
  { value: 'nitrate', label: 'Nitrate, mg/L as N' },
  { value: 'alkalinity', label: 'Alkalinity, mg/L CaCO3' },
  { value: 'ph', label: 'pH' },
  { value: 'water-temperature', label: 'Water temperature, °C' },
  { value: 'total-chlorine', label: 'Total chlorine, mg/L Cl2' },
];

/** Ammonia, and what a reading means. */
export const WATER_AMMONIA_FORMULAS: readonly Formula[] = [
  {
    id: 'unionised-ammonia',
    field: 'water',
    title: 'Un-ionised ammonia',
    usedFor: 'The verdict on an ammonia reading: only the un-ionised part is poisonous.',
    equations: ['pKa = 0.09018 + 2729.92 / (T + 273.15)', 'f = 1 / (1 + 10^(pKa − pH))', 'NH3-N = TAN f'],
    inputs: [TOTAL_AMMONIA, AMMONIA_TEMPERATURE, PH],
    symbols: [],
    validity:
      '0 to 50 °C in fresh water; outside it is refused. At 1 to 5 g/L of salt the true share is a little lower.',
    source: `${EMERSON}. The example is that of IFAS FA-16: 0.0502.`,
    caution: 'A kit may report ammonia as N, as NH3 or as NH4. The product stores it as N.',
    compute: (values) => {
      const sample = { temperatureC: values.number('temperatureC'), ph: values.number('ph') };
      const totalAmmoniaMgNPerL = values.number('totalAmmoniaMgNPerL');
      return [
        { symbol: 'pKa', meaning: 'Half is un-ionised at this pH', unit: '', value: ammoniaPKa(sample), decimals: 4 },
        { symbol: 'f', meaning: 'Un-ionised share', unit: '', value: unionisedAmmoniaShare(sample), decimals: 4 },
        {
          symbol: 'NH3-N',
          meaning: 'Un-ionised ammonia',
          unit: 'mg/L as N',
          value: unionisedAmmoniaMgNPerL({ ...sample, totalAmmoniaMgNPerL }),
          decimals: 4,
        },
      ];
    },
  },
  {
    id: 'largest-total-ammonia',
    field: 'water',
    title: 'The most total ammonia a water may carry',
    usedFor: 'The limit named beside an ammonia reading.',
    equations: ['TANmax = limit / f'],
    inputs: [
      numberInput(
        'limitMgNPerL',
        'limit',
        'Limit of un-ionised ammonia; watch 0.02, act 0.05, emergency 0.20',
        'mg/L as N',
        {
          min: 0.001,
          max: 1,
          example: 0.05,
        },
      ),
      { ...AMMONIA_TEMPERATURE, example: 20 },
      PH,
    ],
    symbols: [{ symbol: 'f', meaning: 'Un-ionised share, as above', unit: '' }],
    validity: 'As for un-ionised ammonia.',
    source: `${EMERSON}; the limits are common practice, a fifth of the lowest published carp LC50 at the top.`,
    compute: (values) => [
      {
        symbol: 'TANmax',
        meaning: 'Most total ammonia',
        unit: 'mg/L as N',
        value: largestTotalAmmoniaMgNPerL({
          limitMgNPerL: values.number('limitMgNPerL'),
          temperatureC: values.number('temperatureC'),
          ph: values.number('ph'),
        }),
        decimals: 3,
      },
    ],
  },
  {
    id: 'reading-verdict',
    field: 'water',
    title: 'What a reading means',
    usedFor: 'In order, watch, act or emergency beside every reading.',
    equations: [
      'oxygen: watch < 6, act < 5, emergency < 4 mg/L at dawn',
      'nitrite-N: watch ≥ 0.1, act ≥ 0.3, emergency ≥ 1.0 mg/L',
      'nitrate as NO3: watch > 40, act > 80 mg/L',
      'total ammonia-N: watch > 1, act > 3 mg/L; un-ionised: 0.02, 0.05, 0.20',
      'alkalinity: watch < 80, act < 50 mg/L CaCO3; pH: watch outside 7.0 to 8.5, act outside 6.5 to 9.0',
    ],
    inputs: [
      choiceInput('quantity', 'q', 'What was read', JUDGED, 'dissolved-oxygen'),
      numberInput('value', 'r', 'The reading, in its unit', '', { min: 0, max: 400, example: 5.5 }),
    ],
    symbols: [],
    validity: 'A value no pond can have is refused.',
    source: 'Common practice, from published toxicity; ranges in print are wide, for nitrite above all.',
    caution: 'Kits err by 0.25 for ammonia, 0.1 for nitrite and 30 % for nitrate: at the edge of a band read again.',
    compute: (values) => {
      const quantity = values.choice('quantity') as ReadingQuantity;
      const verdict = readingVerdict({ quantity, value: values.number('value') });
      return [
        { symbol: '', meaning: 'Verdict', unit: '', value: inWords(verdict.level), decimals: 0 },
        {
          symbol: '',
          meaning: 'Limit passed',
          unit: readingUnit(quantity),
          value: verdict.limit ?? 'none',
          decimals: 2,
        },
        {
          symbol: '',
          meaning: 'Highest value taken',
          unit: readingUnit(quantity),
          value: plausibleRange(quantity).max,
          decimals: 0,
        },
      ];
    },
  },
  {
    id: 'nitrogen-as-ion',
    field: 'water',
    title: 'Nitrogen as N and as the ion',
    usedFor: 'Readings entered from a kit, and nitrate shown as NO3.',
    equations: ['NH3 = 1.2159 N', 'NH4 = 1.2879 N', 'NO2 = 3.2844 N', 'NO3 = 4.4268 N'],
    inputs: [
      numberInput('mgNPerL', 'N', 'Concentration as nitrogen', 'mg/L as N', { min: 0, max: 500, example: 9.04 }),
      choiceInput(
        'basis',
        '',
        'Ion the kit reports',
        [
          { value: 'nh3', label: 'NH3' },
          { value: 'nh4', label: 'NH4' },
          { value: 'no2', label: 'NO2' },
          { value: 'no3', label: 'NO3' },
        ],
        'no3',
      ),
    ],
    symbols: [],
    validity: 'Exact; ratio of molar masses.',
    source: 'Derived from molar masses.',
    compute: (values) => [
      {
        symbol: '',
        meaning: 'The same as the ion',
        unit: 'mg/L',
        value: mgPerLFromN({ mgNPerL: values.number('mgNPerL'), basis: values.choice('basis') as NitrogenBasis }),
        decimals: 3,
      },
    ],
  },
  {
    id: 'ammonia-of-a-stream',
    field: 'water',
    title: 'Ammonia a natural water may carry',
    usedFor: 'A bound for water let out to a stream; not a limit for the pond.',
    equations: [
      'acute = 0.7249 (0.0114 / (1 + 10^(7.204 − pH)) + 1.6181 / (1 + 10^(pH − 7.204))) min(51.93, 23.12 10^(0.036 (20 − T)))',
      'chronic = 0.8876 (0.0278 / (1 + 10^(7.688 − pH)) + 1.1994 / (1 + 10^(pH − 7.688))) 2.126 10^(0.028 (20 − max(T, 7)))',
    ],
    inputs: [
      { ...WATER_TEMPERATURE, max: 30 },
      { ...PH, min: 6.5, max: 9, example: 7 },
    ],
    symbols: [],
    validity: 'pH 6.5 to 9, 0 to 30 °C; outside it is refused. Waters without trout and salmon.',
    source: 'US EPA (2013), EPA 822-R-13-001. The example is its summary: 17 and 1.9 mg/L.',
    compute: (values) => {
      const criteria = ammoniaCriteria({ temperatureC: values.number('temperatureC'), ph: values.number('ph') });
      const unit = 'mg/L as N';
      return [
        { symbol: 'acute', meaning: 'Mean of one hour', unit, value: criteria.acuteMgNPerL, decimals: 2 },
        { symbol: 'chronic', meaning: 'Mean of thirty days', unit, value: criteria.chronicMgNPerL, decimals: 2 },
        { symbol: '', meaning: 'Highest four days in them', unit, value: criteria.fourDayMgNPerL, decimals: 2 },
      ];
    },
  },
];
