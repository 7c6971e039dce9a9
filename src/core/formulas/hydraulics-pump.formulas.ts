import type { WinterClass } from '../care/pond-facts.js';
import { atOtherSpeed } from '../hydraulics/pump-curve.js';
import { energyCostMinor, energyKWh, hydraulicPowerW } from '../hydraulics/pump-energy.js';
import { circuitFlow, lineHeadM, type PumpLine } from '../hydraulics/pump-line.js';
import { turnover } from '../hydraulics/turnover.js';
import { refugeDepth } from '../hydraulics/winter-refuge.js';
import type { Formula, FormulaValues } from './formula.js';
import { asked, worked } from './stock-inputs.js';

const FREE_FLOW = asked('freeFlowLPerH', 'Q0', 'Flow without head, on the plate', 'L/h', [500, 100_000, 10_000]);
const SHUT_OFF = asked('maxHeadM', 'H0', 'Greatest height, on the plate', 'm', [0.5, 30, 5]);
const POWER = asked('powerW', 'P', 'Power', 'W', [1, 5000, 120]);

function lineOf(values: FormulaValues): PumpLine {
  return {
    liftM: values.number('liftM'),
    lengthM: values.number('lengthM'),
    insideDiameterMm: values.number('insideDiameterMm'),
    wall: 'smooth-plastic',
    elbows: values.number('elbows'),
  };
}

/** What pumps move, cost and keep free. */
export const HYDRAULICS_PUMP_FORMULAS: readonly Formula[] = [
  {
    id: 'working-point',
    field: 'hydraulics',
    title: 'What a pump really moves',
    usedFor: 'Turnover, the heat of a waterfall and the finding on circuits, once lift and pipe are on the record.',
    equations: ['pump: H = H0 (1 − (Q / Q0)²)', 'line: H = lift + filter + h(Q)', 'solved for Q by bisection'],
    inputs: [
      FREE_FLOW,
      SHUT_OFF,
      asked('liftM', 'lift', 'Open water to outlet', 'm', [0, 20, 1.5]),
      asked('lengthM', 'L', 'Length of the pipe', 'm', [0, 200, 8]),
      asked('insideDiameterMm', 'd', 'Inside diameter, smooth', 'mm', [15, 150, 40.9]),
      asked('elbows', 'n', 'Right-angle bends', '', [0, 20, 3]),
    ],
    symbols: [{ symbol: 'h(Q)', meaning: 'Loss of the pipe, its bends and its outlet', unit: 'm' }],
    validity:
      'One pump, one line. The parabola through both ends of a curve may be off by a tenth in the middle; a measured flow is better. Where lift is more than H0 nothing flows, and that is said.',
    source: 'Darcy and Weisbach; the parabola is common practice',
    compute: (values) => {
      const plate = { flowLPerH: values.number('freeFlowLPerH'), maxHeadM: values.number('maxHeadM') };
      const line = lineOf(values);
      const flowLPerH = circuitFlow(plate, line)?.flowLPerH ?? 0;
      return [
        worked('Q', 'Flow', flowLPerH, 'L/h', 0),
        worked('H', 'Head at that flow', lineHeadM(line, flowLPerH), 'm'),
      ];
    },
  },
  {
    id: 'turnover',
    field: 'hydraulics',
    title: 'Turnover',
    usedFor: 'Whether the filter circuits move the water often enough, and what one more would have to bring.',
    equations: ['N = (Q1 + Q2 + …) / V', 'missing: V N0 − (Q1 + Q2 + …)'],
    inputs: [
      asked('volumeL', 'V', 'Volume', 'L', [100, 1_000_000, 4000]),
      asked('firstLPerH', 'Q1', 'First circuit', 'L/h', [0, 100_000, 3600]),
      asked('secondLPerH', 'Q2', 'Second circuit', 'L/h', [0, 100_000, 0]),
      asked('neededPerHour', 'N0', 'Wanted, volumes an hour', '1/h', [0.1, 4, 1]),
    ],
    symbols: [],
    validity: '1 for koi (0.5 to 2 in print), 0.5 for a garden pond (0.25 to 1).',
    source: 'Common practice',
    compute: (values) => {
      const found = turnover({
        volumeL: values.number('volumeL'),
        circuitFlowsLPerH: [values.number('firstLPerH'), values.number('secondLPerH')],
        neededPerHour: values.number('neededPerHour'),
      });
      return [
        worked('N', 'Volumes an hour', found.perHour, '1/h'),
        worked('Qm', 'Missing', found.missingLPerH, 'L/h', 0),
      ];
    },
  },
  {
    id: 'pump-energy',
    field: 'hydraulics',
    title: 'Energy and its cost',
    usedFor: 'Energy of the pumps, on the page of a pond.',
    equations: ['E = P h d / 1000', 'cost = E × price, rounded to whole minor units'],
    inputs: [
      POWER,
      asked('hoursPerDay', 'h', 'Hours a day', 'h', [0, 24, 24]),
      asked('days', 'd', 'Days', 'd', [0, 366, 365]),
      asked('priceMinorPerKWh', 'price', 'Price, in cents', 'ct/kWh', [0, 200, 17]),
    ],
    symbols: [],
    validity: 'What the machine draws at the socket, at one price.',
    source: 'The form US DOE publishes (published source)',
    compute: (values) => {
      const kWh = energyKWh({
        powerW: values.number('powerW'),
        hoursPerDay: values.number('hoursPerDay'),
        days: values.number('days'),
      });
      const cost = energyCostMinor({ energyKWh: kWh, priceMinorPerKWh: values.number('priceMinorPerKWh') });
      return [worked('E', 'Energy', kWh, 'kWh', 1), worked('cost', 'Cost', cost, 'ct', 0)];
    },
  },
  {
    id: 'hydraulic-power',
    field: 'hydraulics',
    title: 'Power that lifting water takes',
    usedFor: 'A floor under every pump’s watts.',
    equations: ['P = ρ g Q H'],
    inputs: [asked('flowLPerH', 'Q', 'Flow', 'L/h', [0, 100_000, 5000]), asked('headM', 'H', 'Head', 'm', [0, 50, 3])],
    symbols: [],
    validity: 'Without any loss: a pond pump draws two to five times as much.',
    source: 'Mechanics (derived)',
    compute: (values) => [
      worked(
        'P',
        'Power',
        hydraulicPowerW({ flowLPerH: values.number('flowLPerH'), headM: values.number('headM') }),
        'W',
        1,
      ),
    ],
  },
  {
    id: 'affinity',
    field: 'hydraulics',
    title: 'A pump at another speed',
    usedFor: 'What a slower pump gives and saves.',
    equations: ['Q ∝ n, H ∝ n², P ∝ n³'],
    inputs: [
      asked('flowLPerH', 'Q', 'Flow', 'L/h', [0, 100_000, 8000]),
      asked('headM', 'H', 'Head', 'm', [0, 50, 3]),
      POWER,
      asked('speedShare', 'n', 'New speed over old', '', [0.1, 2, 0.8]),
    ],
    symbols: [],
    validity: 'Moves the curve of the pump; with lift the working point moves otherwise.',
    source: 'Affinity laws; Crane Technical Paper 410, problem 7.33 (published source)',
    compute: (values) => {
      const after = atOtherSpeed({
        flowLPerH: values.number('flowLPerH'),
        headM: values.number('headM'),
        powerW: values.number('powerW'),
        speedShare: values.number('speedShare'),
      });
      return [
        worked('Qn', 'Flow', after.flowLPerH, 'L/h', 0),
        worked('Hn', 'Head', after.headM, 'm'),
        worked('Pn', 'Power', after.powerW, 'W', 1),
      ];
    },
  },
  {
    id: 'winter-refuge',
    field: 'hydraulics',
    title: 'Depth to winter in',
    usedFor: 'The finding that fish cannot winter at the deepest point.',
    equations: ['free = Dmax − ice', 'wanted free: 0.45 m, 0.60 m in severe winters; Dmax at least 0.84 m'],
    inputs: [
      asked('maxDepthM', 'Dmax', 'Deepest point', 'm', [0.1, 5, 1]),
      asked('iceCm', 'ice', 'Ice of a hard winter', 'cm', [0, 150, 25]),
      {
        kind: 'choice',
        name: 'winterClass',
        symbol: 'class',
        meaning: 'Winter class of the site',
        choices: [
          { value: 'W0', label: 'Warm' },
          { value: 'W1', label: 'Mild' },
          { value: 'W2', label: 'Cold' },
          { value: 'W3', label: 'Severe' },
        ],
        example: 'W2',
      },
    ],
    symbols: [],
    validity: 'Ice: mean of the 3 coldest of 30 winters. No question where there is no frost.',
    source: 'Common practice (0.3 to 0.6 m free)',
    compute: (values) => {
      const refuge = refugeDepth({
        maxDepthM: values.number('maxDepthM'),
        iceThicknessCm: values.number('iceCm'),
        winterClass: values.choice('winterClass') as WinterClass,
      });
      return [
        worked('free', 'Water below the ice', refuge.freeDepthM, 'm'),
        worked('enough', 'Enough', refuge.isEnough ? 'yes' : 'no'),
      ];
    },
  },
];
