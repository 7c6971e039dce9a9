import { bucketFlow, timedFillVolume } from '../hydraulics/bucket-flow.js';
import { contourVolumeM3, frustumVolumeM3, prismoidVolumeM3 } from '../hydraulics/depth-contours.js';
import { doseVolumeL } from '../hydraulics/dose-volume.js';
import { linerSize } from '../hydraulics/liner-size.js';
import { circleAreaFromShorelineM2, type PlanShape, planAreaM2 } from '../hydraulics/plan-area.js';
import { pondVolume } from '../hydraulics/pond-volume.js';
import type { ChoiceInput, Formula, FormulaValues } from './formula.js';
import { asked, worked } from './stock-inputs.js';

const LENGTH = asked('lengthM', 'L', 'Longest length', 'm', [0.5, 100, 5]);
const WIDTH = asked('widthM', 'W', 'Widest width', 'm', [0.5, 100, 3]);
const MAX_DEPTH = asked('maxDepthM', 'Dmax', 'Deepest point', 'm', [0.1, 10, 1.2]);
const ROCKS = asked('rockShare', 'φ', 'Space taken by rocks and pots, share', '', [0, 0.35, 0.05]);

const OUTLINE: ChoiceInput = {
  kind: 'choice',
  name: 'outline',
  symbol: 'outline',
  meaning: 'Outline at the water line',
  choices: [
    { value: 'rectangle', label: 'Rectangle' },
    { value: 'ellipse', label: 'Oval' },
    { value: 'circle', label: 'Round, W across' },
    { value: 'stadium', label: 'Round ends' },
    { value: 'kidney', label: 'Kidney' },
  ],
  example: 'kidney',
};

function outlineOf(values: FormulaValues): PlanShape {
  const [lengthM, widthM] = [values.number('lengthM'), values.number('widthM')];
  const kind = values.choice('outline');
  if (kind === 'circle') return { kind, diameterM: widthM };
  if (kind === 'kidney') return { kind, lengthM, widthM, otherWidthM: values.number('otherWidthM') };
  // Over its round ends a stadium is at least as long as wide.
  if (kind === 'stadium') return { kind, lengthM: Math.max(lengthM, widthM), widthM: Math.min(lengthM, widthM) };
  return { kind: kind === 'rectangle' ? kind : 'ellipse', lengthM, widthM };
}

/** How much water a pond holds. */
export const HYDRAULICS_VOLUME_FORMULAS: readonly Formula[] = [
  {
    id: 'plan-area',
    field: 'hydraulics',
    title: 'Surface of common outlines',
    usedFor: 'The surface of every pond, and with it volume, evaporation and the heat balance.',
    equations: [
      'rectangle: A = L W',
      'oval: A = π L W / 4; round: A = π W² / 4',
      'round ends: A = π W² / 4 + W (L − W)',
      'kidney: A = 0.45 (W + W2) L',
    ],
    inputs: [OUTLINE, LENGTH, WIDTH, asked('otherWidthM', 'W2', 'Width of the other lobe', 'm', [0.5, 100, 2])],
    symbols: [],
    validity: 'Sides 0.1 to 1,000 m. A kidney is good to about 10 %; an outline surveyed by its widths is better.',
    source: 'Geometry (derived); the kidney is common practice, read at hunker.com/13418172',
    compute: (values) => [worked('A', 'Surface', planAreaM2(outlineOf(values)), 'm²')],
  },
  {
    id: 'pond-volume',
    field: 'hydraulics',
    title: 'Volume from surface and depth',
    usedFor: 'The volume of a pond typed as a shape, its method and its error.',
    equations: ['V = A D (1 − φ)', 'bowl: D = 0.4 Dmax; straight walls: D = Dmax'],
    inputs: [
      {
        kind: 'choice',
        name: 'depth',
        symbol: 'walls',
        meaning: 'Form of the basin',
        choices: [
          { value: 'bowl', label: 'A bowl' },
          { value: 'vertical', label: 'Straight walls' },
        ],
        example: 'bowl',
      },
      asked('areaM2', 'A', 'Surface', 'm²', [0.5, 10_000, 12]),
      MAX_DEPTH,
      ROCKS,
    ],
    symbols: [{ symbol: 'D', meaning: 'Mean depth', unit: 'm' }],
    validity:
      'Errors, one standard deviation: meter 2 %, salt 5 to 12 %, shelves and contours 5 % (8 % among rocks), straight walls 10 %, mean depth 20 %, bowl 25 %.',
    source:
      'Geometry; 0.4 of the deepest point from 35 mapped ponds: SEAFWA (1983) (published source); errors common practice',
    compute: (values) => {
      const maxDepthM = values.number('maxDepthM');
      const volume = pondVolume({
        kind: 'measured-area',
        areaM2: values.number('areaM2'),
        depth:
          values.choice('depth') === 'bowl' ? { kind: 'bowl', maxDepthM } : { kind: 'vertical', depthM: maxDepthM },
        rockShare: values.number('rockShare'),
      });
      return [
        worked('V', 'Volume', volume.volumeL, 'L', 0),
        worked('σ', 'One standard deviation', volume.volumeSigmaPct, '%', 0),
      ];
    },
  },
  {
    id: 'depth-contours',
    field: 'hydraulics',
    title: 'Volume from depth lines',
    usedFor: 'The volume of a pond of which the area inside each depth line is known.',
    equations: [
      'evenly spaced, an even number of layers: V = h / 3 (A0 + 4 A1 + 2 A2 + … + An)',
      'otherwise, layer by layer: V = Σ h (A + A′) / 2',
    ],
    inputs: [
      asked('a0', 'A0', 'Surface', 'm²', [15, 10_000, 20]),
      asked('a1', 'A1', 'Area inside the first line', 'm²', [9, 20, 15]),
      asked('a2', 'A2', 'Area inside the second', 'm²', [4, 15, 9]),
      asked('a3', 'A3', 'Area inside the third', 'm²', [0, 9, 4]),
      asked('stepM', 'h', 'Between the lines', 'm', [0.05, 2, 0.25]),
    ],
    symbols: [{ symbol: 'A4', meaning: 'The deepest point', unit: 'm²', value: '0' }],
    validity: 'Areas only shrink downwards. Shelves are summed instead: area open in a level times its height.',
    source: 'Simpson’s rule; average end areas (derived)',
    compute: (values) => {
      const stepM = values.number('stepM');
      const areas = [values.number('a1'), values.number('a2'), values.number('a3'), 0];
      const contours = areas.map((areaM2, i) => ({ depthM: stepM * (i + 1), areaM2 }));
      return [worked('V', 'Volume', contourVolumeM3({ surfaceAreaM2: values.number('a0'), contours }), 'm³')];
    },
  },
  {
    id: 'sloping-solids',
    field: 'hydraulics',
    title: 'Basins with sloping walls',
    usedFor: 'A check on depth lines: the same solid by its similar faces, and by its middle.',
    equations: ['similar faces: V = h / 3 (A + C + √(A C))', 'prismoid: V = h / 6 (A + 4 B + C)'],
    inputs: [
      asked('topM2', 'A', 'Area at the water line', 'm²', [0.5, 10_000, 12]),
      asked('middleM2', 'B', 'Area half way down', 'm²', [0, 10_000, 8.74]),
      asked('bottomM2', 'C', 'Area of the floor', 'm²', [0, 10_000, 6]),
      asked('heightM', 'h', 'Depth', 'm', [0.05, 10, 0.9]),
    ],
    symbols: [],
    validity: 'Walls that slope evenly.',
    source: 'Geometry; the prismoid is that of USDA NRCS (1997), Agriculture Handbook 590 (from memory)',
    compute: (values) => {
      const solid = {
        topM2: values.number('topM2'),
        middleM2: values.number('middleM2'),
        bottomM2: values.number('bottomM2'),
        heightM: values.number('heightM'),
      };
      return [
        worked('Vs', 'By similar faces', frustumVolumeM3(solid), 'm³'),
        worked('Vp', 'As a prismoid', prismoidVolumeM3(solid), 'm³'),
      ];
    },
  },
  {
    id: 'shoreline-circle',
    field: 'hydraulics',
    title: 'Surface of a round pond from its shore',
    usedFor: 'Ponds too wide for a tape across.',
    equations: ['A = P² / 4π'],
    inputs: [asked('shorelineM', 'P', 'Length of the shore', 'm', [0.5, 5000, 40])],
    symbols: [],
    validity: 'Round ponds; every other outline has less.',
    source: 'Geometry; Ohio State University Extension, fact sheet A-2 (published source)',
    compute: (values) => [
      worked('A', 'Surface', circleAreaFromShorelineM2({ shorelineM: values.number('shorelineM') }), 'm²', 1),
    ],
  },
  {
    id: 'timed-fill',
    field: 'hydraulics',
    title: 'Volume by a bucket and a watch',
    usedFor: 'A fill without a meter; the same bucket measures what a pump really moves.',
    equations: ['Q = b / t', 'V = Q T, its error √(σQ² + 10²) %'],
    inputs: [
      asked('bucketL', 'b', 'Bucket', 'L', [1, 100, 10]),
      asked('seconds', 't', 'Time to fill it', 's', [1, 600, 30]),
      asked('hours', 'T', 'Time of the fill', 'h', [0.1, 200, 8]),
    ],
    symbols: [{ symbol: 'σQ', meaning: 'Error of the timing, at least half a second', unit: '%' }],
    validity: 'The mains drift by 10 to 20 % over a fill: time the bucket at its start, middle and end.',
    source: 'Common practice',
    compute: (values) => {
      const flow = bucketFlow({ bucketL: values.number('bucketL'), secondsPerBucket: [values.number('seconds')] });
      const fill = timedFillVolume({ flow, hours: values.number('hours') });
      return [
        worked('Q', 'Flow', flow.flowLPerH, 'L/h', 0),
        worked('V', 'Volume', fill.volumeL, 'L', 0),
        worked('σ', 'One standard deviation', fill.volumeSigmaPct, '%', 0),
      ];
    },
  },
  {
    id: 'dose-volume',
    field: 'hydraulics',
    title: 'The volume a dose is worked out for',
    usedFor: 'Every dose: an uncertain volume is dosed on its safe side.',
    equations: ['σ ≤ 10 %: V', 'above, corrections: V (1 − σ); the dechlorinator of the first fill: V (1 + σ)'],
    inputs: [
      asked('volumeL', 'V', 'Volume', 'L', [50, 1_000_000, 10_000]),
      asked('sigmaPct', 'σ', 'Its error', '%', [0, 50, 20]),
    ],
    symbols: [],
    validity: 'Above 15 % the volume should be measured before anything is dosed.',
    source: 'Common practice',
    compute: (values) => {
      const pond = { volumeL: values.number('volumeL'), volumeSigmaPct: values.number('sigmaPct') };
      return [
        worked('Vc', 'For a correction', doseVolumeL({ ...pond, purpose: 'correction' }), 'L', 0),
        worked('Vf', 'For the first fill', doseVolumeL({ ...pond, purpose: 'first-fill' }), 'L', 0),
      ];
    },
  },
  {
    id: 'liner-size',
    field: 'hydraulics',
    title: 'Size of a liner',
    usedFor: 'What to order for a new basin, before rounding up to a stock width.',
    equations: ['side + 2 Dmax + 2 o'],
    inputs: [LENGTH, WIDTH, MAX_DEPTH, asked('overlapM', 'o', 'On each bank', 'm', [0.1, 1, 0.3])],
    symbols: [],
    validity: 'Shelves need nothing extra: their level parts lie inside the length. 0.45 m under heavy edging.',
    source: 'Geometry; the overlap is common practice',
    compute: (values) => {
      const liner = linerSize({
        lengthM: values.number('lengthM'),
        widthM: values.number('widthM'),
        maxDepthM: values.number('maxDepthM'),
        overlapM: values.number('overlapM'),
      });
      return [worked('Ll', 'Length', liner.lengthM, 'm'), worked('Lw', 'Width', liner.widthM, 'm')];
    },
  },
];
