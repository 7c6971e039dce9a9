import { equivalentLengthM, type FittingKind, fittingK } from '../hydraulics/fittings.js';
import { frictionFactor, swameeJainFactor } from '../hydraulics/friction-factor.js';
import { HAZEN_WILLIAMS_C, hazenWilliamsLoss } from '../hydraulics/hazen-williams.js';
import { type PipeWall, pipeLoss } from '../hydraulics/pipe-loss.js';
import { waterDensityKgPerM3, waterViscosityM2PerS } from '../hydraulics/water-viscosity.js';
import { rehbockFlowLPerH, type Sheet, sheetFlowLPerH, weirFlowLPerH, weirHeadM } from '../hydraulics/weir.js';
import type { ChoiceInput, Formula } from './formula.js';
import { asked, worked } from './stock-inputs.js';

const FLOW = asked('flowLPerH', 'Q', 'Flow', 'L/h', [100, 30_000, 5000]);
const PIPE_LENGTH = asked('lengthM', 'L', 'Length of the pipe', 'm', [0, 100, 10]);
const INSIDE = asked('insideDiameterMm', 'd', 'Inside diameter', 'mm', [15, 150, 40.9]);
const CREST = asked('crestM', 'b', 'Crest', 'm', [0.3, 10, 1]);

const WALL: ChoiceInput = {
  kind: 'choice',
  name: 'wall',
  symbol: 'pipe',
  meaning: 'Inside of the pipe',
  choices: [
    { value: 'smooth-plastic', label: 'Smooth plastic' },
    { value: 'ribbed-hose', label: 'Ribbed hose' },
  ],
  example: 'smooth-plastic',
};

const FITTING: ChoiceInput = {
  kind: 'choice',
  name: 'fitting',
  symbol: 'fitting',
  meaning: 'Kind of fitting',
  choices: [
    { value: 'elbow-90', label: 'Right-angle bend' },
    { value: 'elbow-45', label: 'Bend of 45°' },
    { value: 'tee-branch', label: 'Tee, round the corner' },
    { value: 'tee-run', label: 'Tee, straight through' },
    { value: 'ball-valve', label: 'Ball valve, open' },
    { value: 'swing-check', label: 'Swing check valve' },
  ],
  example: 'elbow-90',
};

/** What a pipe and a weir take and carry. */
export const HYDRAULICS_PIPE_FORMULAS: readonly Formula[] = [
  {
    id: 'water-viscosity',
    field: 'hydraulics',
    title: 'Density and viscosity of water',
    usedFor: 'The Reynolds number of every pipe.',
    equations: [
      'ρ = 1000 (1 − (T + 288.9414)(T − 3.9863)² / (508929.2 (T + 68.12963)))',
      'log10(μ / 0.001002) = (20 − T) / (T + 96) · (1.2364 − 0.00137 (20 − T) + 0.0000057 (20 − T)²)',
      'ν = μ / ρ',
    ],
    inputs: [asked('temperatureC', 'T', 'Water temperature', '°C', [0, 40, 15])],
    symbols: [{ symbol: 'μ', meaning: 'Dynamic viscosity', unit: 'Pa s' }],
    validity: 'Fresh water, 0 to 40 °C; refused outside.',
    source: 'Kestin, Sokolov & Wakeham (1978); McCutcheon, Martin & Barnwell (1993) (both from memory)',
    compute: (values) => {
      const temperatureC = values.number('temperatureC');
      return [
        worked('ρ', 'Density', waterDensityKgPerM3({ temperatureC }), 'kg/m³'),
        worked('ν', 'Kinematic viscosity', waterViscosityM2PerS({ temperatureC }), 'm²/s', 9),
      ];
    },
  },
  {
    id: 'friction-factor',
    field: 'hydraulics',
    title: 'Friction factor of a pipe',
    usedFor: 'The loss of every pump line.',
    equations: [
      'Re < 2000: f = 64 / Re',
      'Re ≥ 4000: 1 / √f = −2 log10(r / 3.7 + 2.51 / (Re √f))',
      'between: straight from one to the other',
    ],
    inputs: [
      asked('reynolds', 'Re', 'Reynolds number', '', [5000, 1e7, 1e5]),
      asked('roughnessRatio', 'r', 'Roughness over inside diameter', '', [0.000001, 0.05, 0.0001]),
    ],
    symbols: [],
    validity:
      'r up to 0.05. From Re 2000 to 4000 no law holds and the result is marked: it may be off by a third. Swamee and Jain stand beside it for comparison, from Re 5000 up.',
    source: 'Colebrook (1939); Swamee & Jain (1976), J. Hydraulics Div. ASCE 102(5), 657-664 (published sources)',
    compute: (values) => {
      const pipe = { reynolds: values.number('reynolds'), roughnessRatio: values.number('roughnessRatio') };
      const { factor, regime } = frictionFactor(pipe);
      return [
        worked('f', 'By Colebrook', factor, '', 5),
        worked('flow', 'Kind of flow', regime),
        worked('fSJ', 'By Swamee and Jain', swameeJainFactor(pipe), '', 5),
      ];
    },
  },
  {
    id: 'pipe-loss',
    field: 'hydraulics',
    title: 'Head lost in a pipe',
    usedFor: 'Where a pump really works.',
    equations: ['h = (f (L + Leq) / d + K) v² / 2g', 'v = Q / (π d² / 4), Re = v d / ν'],
    inputs: [FLOW, PIPE_LENGTH, INSIDE, WALL, asked('elbows', 'n', 'Right-angle bends', '', [0, 20, 3])],
    symbols: [
      { symbol: 'Leq', meaning: 'Bends as length of pipe, 30 d each', unit: 'm' },
      { symbol: 'K', meaning: 'Velocity lost at the outlet', unit: '', value: '1' },
      { symbol: 'g', meaning: 'Free fall', unit: 'm/s²', value: '9.80665' },
      { symbol: 'e', meaning: 'Roughness, smooth plastic and ribbed hose', unit: 'mm', value: '0.0015 and 0.5' },
    ],
    validity: 'Inside diameter 10 to 300 mm, water of 15 °C. Sources of bends differ by two: never better than 0.1 m.',
    source: 'Darcy and Weisbach; roughness of ribbed hose is common practice (0.3 to 1 mm)',
    compute: (values) => {
      const run = {
        lengthM: values.number('lengthM'),
        insideDiameterMm: values.number('insideDiameterMm'),
        wall: values.choice('wall') as PipeWall,
        fittings: [{ kind: 'elbow-90' as const, count: values.number('elbows') }],
      };
      const loss = pipeLoss({ flowLPerH: values.number('flowLPerH'), run });
      return [
        worked('h', 'Head lost', loss.headM, 'm'),
        worked('v', 'Velocity', loss.velocityMPerS, 'm/s'),
        worked('Re', 'Reynolds number', loss.reynolds, '', 0),
        worked('flow', 'Kind of flow', loss.regime),
      ];
    },
  },
  {
    id: 'fittings',
    field: 'hydraulics',
    title: 'Fittings',
    usedFor: 'Bends and valves of a pump line.',
    equations: ['Leq = n d', 'K = n f'],
    inputs: [FITTING, INSIDE, asked('frictionFactor', 'f', 'Friction factor', '', [0.008, 0.1, 0.02])],
    symbols: [
      { symbol: 'n', meaning: 'Diameters: bend 30, 45° 14, tee 60 and 20, ball valve 8, swing check 100', unit: '' },
    ],
    validity: 'Screwed fittings. Other tables print from half to twice as much.',
    source:
      'International Residential Code (2018), table A.2.2 for bends and branch (published source); the rest from memory of Crane TP-410',
    compute: (values) => {
      const kind = values.choice('fitting') as FittingKind;
      const fittings = [{ kind, count: 1 }];
      const insideDiameterMm = values.number('insideDiameterMm');
      return [
        worked('Leq', 'As length of pipe', equivalentLengthM({ insideDiameterMm, fittings }), 'm'),
        worked('K', 'Velocity heads', fittingK({ kind, frictionFactor: values.number('frictionFactor') })),
      ];
    },
  },
  {
    id: 'hazen-williams',
    field: 'hydraulics',
    title: 'Head lost by Hazen and Williams',
    usedFor: 'A comparison only: the product works with Darcy and Weisbach.',
    equations: ['h = 10.67 L Q^1.852 / (C^1.852 d^4.8704)'],
    inputs: [
      FLOW,
      PIPE_LENGTH,
      INSIDE,
      asked('c', 'C', 'Smoothness', '', [100, 150, HAZEN_WILLIAMS_C['smooth-plastic']]),
    ],
    symbols: [],
    validity: 'Water near 15 °C, wider than 15 mm, below 3 m/s. Below 1 m/s it comes out up to a sixth too low.',
    source: 'Hazen & Williams in SI (from memory); within 3 % of Ill. Adm. Code 77 § 906 (published source)',
    compute: (values) => {
      const loss = hazenWilliamsLoss({
        flowLPerH: values.number('flowLPerH'),
        lengthM: values.number('lengthM'),
        insideDiameterMm: values.number('insideDiameterMm'),
        c: values.number('c'),
      });
      return [
        worked('h', 'Head lost', loss.headM, 'm'),
        worked('holds', 'In the range it was made for', loss.isInRange ? 'yes' : 'no: faster than 3 m/s'),
      ];
    },
  },
  {
    id: 'weir',
    field: 'hydraulics',
    title: 'Flow over a waterfall’s crest',
    usedFor: 'What a waterfall wants of its pump, and its flow from the height of the water on the sill.',
    equations: ['Q = 1.838 b h^1.5', 'h = (Q / 1.838 b)^(2/3)', 'plain sheet: 14.9 m³/h per metre'],
    inputs: [
      CREST,
      asked('headM', 'h', 'Still water over the crest', 'm', [0.003, 0.5, 0.017]),
      {
        kind: 'choice',
        name: 'sheet',
        symbol: 'sheet',
        meaning: 'Kind of sheet',
        choices: [
          { value: 'thin', label: 'Thin' },
          { value: 'plain', label: 'Plain' },
          { value: 'heavy', label: 'Heavy' },
        ],
        example: 'plain',
      },
    ],
    symbols: [],
    validity: 'Sharp, level crests; stones are good to about 15 %. The sheet on the lip is about 0.7 h.',
    source: 'Francis (1868) (from memory); the flow for a sheet is common practice',
    compute: (values) => {
      const crestM = values.number('crestM');
      const wantedLPerH = sheetFlowLPerH({ crestM, sheet: values.choice('sheet') as Sheet });
      return [
        worked('Q', 'Flow', weirFlowLPerH({ crestM, headM: values.number('headM') }), 'L/h', 0),
        worked('Qs', 'Flow wanted for the sheet', wantedLPerH, 'L/h', 0),
        worked('hs', 'Still water over the crest then', weirHeadM({ crestM, flowLPerH: wantedLPerH }), 'm', 4),
      ];
    },
  },
  {
    id: 'weir-rehbock',
    field: 'hydraulics',
    title: 'Flow over a deeper weir',
    usedFor: 'Streams and overflows.',
    equations: ['Q = 2/3 √(2g) (0.602 + 0.0832 h / p) b (h + 0.00125)^1.5'],
    inputs: [
      { ...CREST, example: 2 },
      asked('headM', 'h', 'Still water over the crest', 'm', [0.03, 0.4, 0.3]),
      asked('heightM', 'p', 'Height of the crest over the bed', 'm', [0.3, 5, 0.4]),
    ],
    symbols: [],
    validity: 'Full width, h 0.03 to 0.75 m and no more than p, b at least 0.3 m; refused outside.',
    source: 'Rehbock (1929), Proc. ASCE 55 (published source, quoted)',
    compute: (values) => [
      worked(
        'Q',
        'Flow',
        rehbockFlowLPerH({
          crestM: values.number('crestM'),
          headM: values.number('headM'),
          heightM: values.number('heightM'),
        }),
        'L/h',
        0,
      ),
    ],
  },
];
