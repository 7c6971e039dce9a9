import { filterMaturityShare, INOCULATED_SHARE, NEW_FILTER_SHARE, ripeAfterDays } from '../filter/maturation.js';
import {
  mediaAreaM2,
  mediaAreaNeededM2,
  nitrificationCapacityGNPerDay,
  nitrificationOxygenGPerDay,
  nitrificationRateGNPerM2Day,
} from '../filter/nitrification.js';
import {
  learnedHeldGPerL,
  rinseCapacityG,
  rinseIntervalDays,
  seasonRinseIntervalDays,
} from '../filter/rinse-interval.js';
import { runInDays } from '../filter/run-in.js';
import { stockingRamp } from '../filter/stocking-ramp.js';
import { civilDay } from '../units/civil-day.js';
import type { Formula } from './formula.js';
import { asked, WATER, worked } from './stock-inputs.js';

const MEDIA = asked('mediaVolumeL', 'Vm', 'Mechanical media', 'L', [0.1, 10_000, 40]);
const LOAD_INPUTS = [
  MEDIA,
  asked('feedGPerDay', 'F', 'Food a day', 'g', [0, 100_000, 100]),
  asked('areaM2', 'A', 'Surface of the pond', 'm²', [0.1, 10_000, 12]),
];
/** A stocking is shown from a day on which nothing else hangs: the first of June, in even water. */
const RAMP_FROM = civilDay('2026-06-01');

/** The filter: what it takes, how it ripens, when it is rinsed. */
export const FILTER_FORMULAS: readonly Formula[] = [
  {
    id: 'nitrification-capacity',
    field: 'filter',
    title: 'Ammonia a filter takes',
    usedFor: 'Whether the filter carries the stock, and whether it takes the ammonia that chloramine sets free.',
    equations: ['r = r20 θ^(T − 20), level from 28 °C', 'capacity = r Am m', 'Am = V SSA'],
    inputs: [
      asked('mediaVolumeL', 'V', 'Biological media', 'L', [0, 10_000, 120]),
      asked('mediaAreaM2PerM3', 'SSA', 'Their surface to the volume', 'm²/m³', [10, 2000, 500]),
      { ...WATER, example: 25 },
      asked('maturityShare', 'm', 'Ripeness, 0 new to 1 ripe', '', [0, 1, 1]),
    ],
    symbols: [
      { symbol: 'r20', meaning: 'Rate at 20 °C; 0.1 to 0.9 in print', unit: 'g N/m²/d', value: '0.30' },
      { symbol: 'θ', meaning: 'Growth per °C; 1.025 to 1.10 in print', unit: '', value: '1.07' },
    ],
    validity:
      '−1 to 45 °C. No cut-off in the cold: a film kept at 1 °C still worked at 18 % of its rate at 20 °C (Hoang et al. 2014). Uncertain by a factor of three, most at the low ammonia of a good pond; clogging halves it.',
    source: 'Common practice inside published ranges (aquatext table; Timmons & Ebeling)',
    compute: (values) => {
      const areaM2 = mediaAreaM2({
        mediaVolumeL: values.number('mediaVolumeL'),
        mediaAreaM2PerM3: values.number('mediaAreaM2PerM3'),
      });
      const temperatureC = values.number('temperatureC');
      return [
        worked('Am', 'Surface of the media', areaM2, 'm²', 1),
        worked('r', 'Rate', nitrificationRateGNPerM2Day({ temperatureC }), 'g N/m²/d', 3),
        worked(
          'capacity',
          'Ammonia it takes a day',
          nitrificationCapacityGNPerDay({
            mediaAreaM2: areaM2,
            temperatureC,
            maturityShare: values.number('maturityShare'),
          }),
          'g N',
          1,
        ),
      ];
    },
  },
  {
    id: 'media-needed',
    field: 'filter',
    title: 'Media a load needs',
    usedFor: 'How large a filter has to be, and the oxygen its bacteria take.',
    equations: ['A = P / r(T)', 'O2 = 4.57 P'],
    inputs: [asked('load', 'P', 'Ammonia load a day', 'g N', [0, 10_000, 6.44]), WATER],
    symbols: [{ symbol: '4.57', meaning: 'Oxygen per nitrogen taken to nitrate, 64 / 14.007', unit: 'g/g' }],
    validity: 'Ripe media that get oxygen (above 2 mg/L in the filter) and alkalinity (above 40 mg/L).',
    source: 'Rate common practice; oxygen from the reaction (published source)',
    compute: (values) => {
      const load = { ammoniaLoadGNPerDay: values.number('load') };
      return [
        worked(
          'A',
          'Surface needed',
          mediaAreaNeededM2({ ...load, temperatureC: values.number('temperatureC') }),
          'm²',
          1,
        ),
        worked('O2', 'Oxygen a day', nitrificationOxygenGPerDay(load), 'g', 1),
      ];
    },
  },
  {
    id: 'filter-ripening',
    field: 'filter',
    title: 'How a new filter ripens',
    usedFor: 'The planned length of the run-in of a new pond.',
    equations: [
      'm = 1 / (1 + (1/m0 − 1) e^(−0.215 d)), d = days · 1.07^(T − 20)',
      'planned: max(42, 35 · 1.07^(20 − T)) days',
    ],
    inputs: [
      WATER,
      asked('days', 'd', 'Days since it was first fed', 'd', [0, 365, 28]),
      {
        kind: 'choice',
        name: 'start',
        symbol: 'm0',
        meaning: 'Media at the start',
        choices: [
          { value: 'new', label: 'New (0.01)' },
          { value: 'inoculated', label: 'A third of it live (0.3)' },
        ],
        example: 'new',
      },
    ],
    symbols: [],
    validity:
      'A filter that is fed with ammonia all along. Ripe means 0.95. In print 1 to 8 weeks in warm water; it plans, and only readings release a pond.',
    source: 'Logistic growth; constants derived from run-in times of common practice',
    compute: (values) => {
      const temperatureC = values.number('temperatureC');
      const startShare = values.choice('start') === 'inoculated' ? INOCULATED_SHARE : NEW_FILTER_SHARE;
      const temperaturesC = new Array<number>(Math.round(values.number('days'))).fill(temperatureC);
      return [
        worked('m', 'Ripeness', filterMaturityShare({ temperaturesC, startShare })),
        worked('ripe', 'Ripe after', ripeAfterDays({ temperatureC, startShare }), 'd', 0),
        worked('planned', 'Planned for new media', runInDays({ temperatureC }), 'd', 0),
      ];
    },
  },
  {
    id: 'stocking-in-parts',
    field: 'filter',
    title: 'Stocking a new pond in parts',
    usedFor: 'How much goes in at first and with each further part, and not before which day.',
    equations: [
      'part = 0.2 · the smaller of what is planned and what water and filter carry comfortably',
      'first: when the run-in is over by the water it has had; then 14 days each; never below 15 °C',
    ],
    inputs: [
      asked('plannedKg', 'W', 'Planned stock', 'kg', [0.1, 10_000, 10]),
      asked('capacityKg', 'Wc', 'Carried comfortably', 'kg', [0.1, 10_000, 12]),
      WATER,
    ],
    symbols: [],
    validity:
      'Days plan, readings release: two readings of ammonia below 0.25 and nitrite below 0.1 mg/L N, 48 hours apart before the first part and a week apart before each other one.',
    source:
      'A fifth at first: Hager et al. (2021), Kentucky State University (published source); the rest common practice',
    compute: (values) => {
      const temperatureC = values.number('temperatureC');
      const stages = stockingRamp({
        plannedKg: values.number('plannedKg'),
        capacityKg: values.number('capacityKg'),
        fedFrom: RAMP_FROM,
        waterTemperature7dMeanC: () => temperatureC,
      });
      const [first] = stages;
      const last = stages.at(-1);
      const after = (day: number | null | undefined) => (day == null ? 'the water stays too cold' : day - RAMP_FROM);
      return [
        worked('parts', 'Number of parts', stages.length, '', 0),
        worked('part', 'The first part, at most', first?.kg ?? 0, 'kg'),
        worked('first', 'Not before, counted from the first feeding', after(first?.notBefore), 'd', 0),
        worked('last', 'The last part not before', after(last?.notBefore), 'd', 0),
      ];
    },
  },
  {
    id: 'rinse-interval',
    field: 'filter',
    title: 'When the media are rinsed',
    usedFor: 'The due days of the rinse on the calendar, by the food of each day.',
    equations: [
      't = C Vm u / (y F η + B A)',
      'kept to 3 to 42 days in the feeding season, to 21 days for koi above 13 °C',
    ],
    inputs: [
      ...LOAD_INPUTS,
      {
        kind: 'choice',
        name: 'fish',
        symbol: 'koi',
        meaning: 'Koi in the pond',
        choices: [
          { value: 'koi', label: 'Yes' },
          { value: 'none', label: 'No' },
        ],
        example: 'koi',
      },
      { ...WATER, example: 22 },
    ],
    symbols: [
      { symbol: 'C', meaning: 'Dry solids a litre of media holds; 2 to 10', unit: 'g/L', value: '5' },
      { symbol: 'u', meaning: 'Part of it that is used', unit: '', value: '0.8' },
      { symbol: 'y, η, B', meaning: 'See the solids that reach the filter', unit: '' },
    ],
    validity: 'An even load. A drop of the flow by a fifth comes before any date, and teaches C.',
    source: 'Mass balance (derived); capacity and bounds common practice',
    compute: (values) => {
      const filter = {
        mediaVolumeL: values.number('mediaVolumeL'),
        feedGPerDay: values.number('feedGPerDay'),
        surfaceAreaM2: values.number('areaM2'),
      };
      return [
        worked('C Vm u', 'Solids until the rinse', rinseCapacityG(filter), 'g', 0),
        worked('t', 'By the balance', rinseIntervalDays(filter), 'd', 1),
        worked(
          'kept',
          'Kept to its bounds',
          seasonRinseIntervalDays({
            ...filter,
            hasKoi: values.choice('fish') === 'koi',
            waterTemperature7dMeanC: values.number('temperatureC'),
          }),
          'd',
          1,
        ),
      ];
    },
  },
  {
    id: 'rinse-capacity-learned',
    field: 'filter',
    title: 'What a clogged filter teaches',
    usedFor: 'The capacity of the media after a rinse that falling flow, not a date, called for.',
    equations: ['C ← 0.7 C + 0.3 load / Vm, kept to 2 to 10'],
    inputs: [
      asked('heldGPerL', 'C', 'Taken until now', 'g/L', [2, 10, 5]),
      asked('loadG', 'load', 'Solids since the last rinse', 'g', [0, 100_000, 280]),
      MEDIA,
    ],
    symbols: [],
    validity: 'One rinse moves it by a third at most; it never leaves 2 to 10 g/L.',
    source: 'Common practice',
    compute: (values) => [
      worked(
        'C',
        'Taken from now on',
        learnedHeldGPerL({
          heldGPerL: values.number('heldGPerL'),
          loadSinceRinseG: values.number('loadG'),
          mediaVolumeL: values.number('mediaVolumeL'),
        }),
        'g/L',
      ),
    ],
  },
];
