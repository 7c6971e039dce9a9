import { addDays, civilDay } from '../units/civil-day.js';
import { seenAtDose } from '../uv/dose-findings.js';
import { lampOutputShare, uvDoseMjPerCm2, uvEyeLimitS, uvPassesPerDay, uvWaterFactor } from '../uv/lamp.js';
import { lampLife } from '../uv/lamp-life.js';
import type { Formula } from './formula.js';
import { asked, worked } from './stock-inputs.js';

const RUN_HOURS = asked('lampRunHours', 'h', 'Hours run', 'h', [0, 100_000, 4500]);
const RATED_HOURS = asked('lampRatedHours', 'hr', 'Rated hours', 'h', [100, 100_000, 9000]);
const END_SHARE = asked('endShare', 'LAF', 'Output at the end of them', '', [0.3, 1, 0.8]);
/** The seasons of the example: so many years from a spring, each beginning a year after the one before. */
const FIRST_SPRING = civilDay('2026-04-15');
const YEAR_DAYS = 365;
const YEARS = 12;

/** The lamp: its light, its dose, its life. */
export const UV_FORMULAS: readonly Formula[] = [
  {
    id: 'uv-lamp-output',
    field: 'uv',
    title: 'Light of a lamp by its hours',
    usedFor: 'What a lamp still gives, on the page of a pond.',
    equations: ['f = 1 − (1 − LAF) min(h / hr, 1)'],
    inputs: [RUN_HOURS, RATED_HOURS, END_SHARE],
    symbols: [],
    validity:
      'Low-pressure mercury lamps. Rated hours 5,000 to 12,000 and LAF 0.65 to 0.85 in print; the blue glow tells nothing.',
    source: 'Common practice; rated hours and LAF from memory',
    compute: (values) => [
      worked(
        'f',
        'Output as a share of new',
        lampOutputShare({
          lampRunHours: values.number('lampRunHours'),
          lampRatedHours: values.number('lampRatedHours'),
          lampEndOutputShare: values.number('endShare'),
        }),
      ),
    ],
  },
  {
    id: 'uv-dose',
    field: 'uv',
    title: 'Dose of one pass',
    usedFor: 'Whether flow and lamp belong together; no pond is promised clear water by it.',
    equations: [
      'dose = I · water · lamp · sleeve · t, t = Vc / Q',
      'water = (1 − e^(−α ℓ)) / (α ℓ), α = −ln(transmittance of 1 cm)',
      'passes a day = 24 Q / V',
    ],
    inputs: [
      asked('intensity', 'I', 'Mean intensity of the new lamp in clear water', 'mW/cm²', [0, 1000, 8]),
      asked('chamberL', 'Vc', 'Lamp chamber', 'L', [0.01, 1000, 1.5]),
      asked('flowLPerH', 'Q', 'Flow through it', 'L/h', [1, 1_000_000, 6000]),
      asked('transmittance', 'UVT', 'Transmittance of 1 cm of water', '', [0.01, 1, 0.9]),
      asked('pathCm', 'ℓ', 'Path through the water', 'cm', [0, 100, 2]),
      { ...RUN_HOURS, example: 0 },
      asked('sleeve', 'sleeve', 'Light the sleeve lets through', '', [0, 1, 1]),
      asked('volumeL', 'V', 'Volume of the pond', 'L', [1, 1_000_000, 6000]),
    ],
    symbols: [{ symbol: 't', meaning: 'Time in the chamber', unit: 's' }],
    validity: 'The mean of one pass. Particles shelter what they hold; a clarifier is no steriliser.',
    source:
      'Dose as intensity times time; findings: Bullock & Stuckey (1977), Tao et al. (2010), Li et al. (2020) (published sources, abstracts)',
    caution: 'Papers found green algae not held back at 20 to 200 mJ/cm², or only for one to three days.',
    compute: (values) => {
      const waterFactor = uvWaterFactor({
        transmittancePerCm: values.number('transmittance'),
        pathCm: values.number('pathCm'),
      });
      const outputShare = lampOutputShare({ lampRunHours: values.number('lampRunHours') });
      const flowLPerH = values.number('flowLPerH');
      const dose = uvDoseMjPerCm2({
        intensityMwPerCm2: values.number('intensity'),
        chamberVolumeL: values.number('chamberL'),
        flowLPerH,
        waterFactor,
        lampOutputShare: outputShare,
        sleeveFactor: values.number('sleeve'),
      });
      const seen = seenAtDose(dose);
      return [
        worked('water', 'Left by the water', waterFactor, '', 3),
        worked('lamp', 'Left by the age of the lamp', outputShare),
        worked('dose', 'Dose of one pass', dose, 'mJ/cm²', 1),
        worked(
          'passes',
          'Passes of the whole pond',
          uvPassesPerDay({ flowLPerH, volumeL: values.number('volumeL') }),
          '1/d',
          1,
        ),
        worked('seen', 'Seen in print from such a dose on', seen.map(({ source }) => source).join('; ') || 'nothing'),
      ];
    },
  },
  {
    id: 'uv-lamp-life',
    field: 'uv',
    title: 'Useful life of a lamp that burns by season',
    usedFor: 'When a lamp is renewed: on its last hour, or at the start of a season it would not last.',
    equations: ['h = 24 · days on', 'renew at the spring start when hr − h < hours of that season'],
    inputs: [
      asked('seasonDays', 'd', 'Days on in a year', 'd', [1, 365, 200]),
      RATED_HOURS,
      { ...RUN_HOURS, meaning: 'Hours run before the first spring', example: 0 },
      END_SHARE,
    ],
    symbols: [],
    validity: 'A lamp that is not switched on and off by the hour: each start costs some hours of its life.',
    source: 'Common practice',
    compute: (values) => {
      const seasons = Array.from({ length: YEARS }, (_, year) => {
        const from = addDays(FIRST_SPRING, year * YEAR_DAYS);
        return { from, until: addDays(from, Math.round(values.number('seasonDays')) - 1) };
      });
      const life = lampLife({
        seasons,
        usedHours: values.number('lampRunHours'),
        ratedHours: values.number('lampRatedHours'),
        endOutputShare: values.number('endShare'),
      });
      const after = (day: number | null) => (day === null ? 'it lasts beyond twelve years' : day - FIRST_SPRING);
      return [
        worked('renew', 'Renewed, counted from the first spring', after(life.replaceOn), 'd', 0),
        worked('out', 'Its hours would be up', after(life.runsOutOn), 'd', 0),
        worked('left', 'Hours left when that season starts', life.hoursLeft ?? 'more than the seasons take', 'h', 0),
        worked('f', 'Its light by then', life.outputShare),
      ];
    },
  },
  {
    id: 'uv-eye-limit',
    field: 'uv',
    title: 'How soon a bare lamp hurts',
    usedFor: 'Why a lamp is never lit outside its housing.',
    equations: ['t = 6 mJ/cm² / I'],
    inputs: [asked('intensity', 'I', 'Intensity where the person is', 'mW/cm²', [0.0001, 1000, 1])],
    symbols: [],
    validity: 'Light of 254 nm on eyes and skin, the limit of eight hours.',
    source: 'CIE 187:2010, abstract; value of ACGIH and ICNIRP (published source)',
    compute: (values) => [
      worked('t', 'Until the limit of the day', uvEyeLimitS({ intensityMwPerCm2: values.number('intensity') }), 's', 1),
    ],
  },
];
