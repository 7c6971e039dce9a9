import { type LeakTest, leakVerdict } from '../water-loss/leak-finder.js';
import type { LossReference } from '../water-loss/loss-errors.js';
import { measuringDays, testSigmaMmPerDay } from '../water-loss/measuring-time.js';
import type { ChoiceInput, Formula, FormulaValues } from './formula.js';
import { asked, worked } from './stock-inputs.js';
import { AREA, EVAPORATION, FALLS, hasFalls } from './water-loss-inputs.js';

const REFERENCE: ChoiceInput = {
  kind: 'choice',
  name: 'reference',
  symbol: 'beside',
  meaning: 'What evaporation is taken from',
  choices: [
    { value: 'climate', label: 'The climate of the place' },
    { value: 'bucket', label: 'A bucket in the pond' },
  ],
  example: 'bucket',
};

function twoLevels(values: FormulaValues): LeakTest {
  const days = values.number('days');
  const mmPerDay = values.number('evaporationMmPerDay');
  return {
    readings: [
      { atDay: 0, belowMarkMm: 0, rainMm: 0, addedL: 0 },
      { atDay: days, belowMarkMm: values.number('fallMm'), rainMm: 0, addedL: values.number('addedL') },
    ],
    surfaceAreaM2: values.number('surfaceAreaM2'),
    evaporation:
      values.choice('reference') === 'climate'
        ? { from: 'climate', mmPerDay }
        : { from: 'bucket', fallMm: mmPerDay * days },
    hasWaterfall: hasFalls(values),
  };
}

/** What leaves a pond without a reason. */
export const WATER_LOSS_LEAK_FORMULAS: readonly Formula[] = [
  {
    id: 'leak-verdict',
    field: 'water-loss',
    title: 'Leak test',
    usedFor: 'The verdict of a leak test and its certainty.',
    equations: [
      'x = (fall + added / A) / t − E × 1.2 while the falls run + rain / t',
      'σ² = (ruler √2 / t)² + (0.15 E)² + (0.37 t^−0.25 E)² + (0.09 E, falls)² + (0.1 rain)² + (0.05 added)²',
      'with a bucket: (ruler · 2 / t)² + (0.1 E)² in place of the first three',
      'P = share of a normal distribution (x, σ) above 2 mm/d; a verdict from 95 %, either way',
    ],
    inputs: [
      asked('days', 't', 'Length of the test', 'd', [1, 30, 3]),
      asked('fallMm', 'fall', 'Fall of the level', 'mm', [-200, 1000, 30]),
      asked('addedL', 'added', 'Water added', 'L', [0, 10_000, 0]),
      EVAPORATION,
      AREA,
      FALLS,
      REFERENCE,
    ],
    symbols: [
      { symbol: 'ruler', meaning: 'Error of one reading', unit: 'mm', value: '1' },
      { symbol: '0.37 t^−0.25', meaning: 'Weather of t days against an average year', unit: '' },
      { symbol: '0.15', meaning: 'Shelter, shade and heat stored in the water', unit: '' },
    ],
    validity:
      'Six hours to 60 days. With more than two levels the fall is the line of least squares through them. All the loss is reckoned over the whole surface: a pond with flat banks loses less.',
    source:
      'Balance and propagation of errors (derived; the weather from De Bilt 1980-2019, KNMI); 2 and 5 mm/d are common practice',
    caution: 'A leak that began or was mended during the test is averaged away.',
    compute: (values) => {
      const found = leakVerdict(twoLevels(values));
      return [
        worked('x', 'Lost without a reason', found.unexplainedMmPerDay, 'mm/d'),
        worked('σ', 'One standard deviation', found.sigmaMmPerDay, 'mm/d'),
        worked('xA', 'The same as water', found.unexplainedLPerDay, 'L/d', 0),
        worked('P', 'Likely a leak', 100 * found.leakProbability, '%', 0),
        worked('verdict', 'Verdict', found.verdict),
      ];
    },
  },
  {
    id: 'leak-test-length',
    field: 'water-loss',
    title: 'How long to measure',
    usedFor: 'The advice above a leak test.',
    equations: ['the first t with 2 · 1.645 σ(t) ≤ 5 − 2 mm/d; a fortnight at most'],
    inputs: [EVAPORATION, FALLS, { ...REFERENCE, example: 'climate' }],
    symbols: [],
    validity: 'At least two days. Tells a leak of 5 mm a day from a tight pond, each with 95 %.',
    source: 'Propagation of errors (derived)',
    compute: (values) => {
      const planned = {
        reference: values.choice('reference') as LossReference,
        evaporationMmPerDay: values.number('evaporationMmPerDay'),
        hasWaterfall: hasFalls(values),
      };
      const days = measuringDays(planned);
      return [
        worked('t', 'Days', days ?? 'a fortnight is not enough', days === null ? '' : 'd', 0),
        worked('σ7', 'Error after a week', testSigmaMmPerDay(planned, 7), 'mm/d'),
      ];
    },
  },
];
