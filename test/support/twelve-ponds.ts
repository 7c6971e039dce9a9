import type { CareHistory, PlanInput } from '../../src/core/care/care-plan.js';
import type { PondFacts } from '../../src/core/care/pond-facts.js';
import type { TwelveMonths } from '../../src/core/climate/station.js';
import { type CivilDay, civilDay } from '../../src/core/units/civil-day.js';
import { aClimate, aMachine, aPlanInput, aPond, NO_HISTORY } from './a-pond.js';
import { shippedRules } from './shipped-rules.js';
import { type Sinusoid, sinusoidForecast } from './sinusoid-forecast.js';

/** A reference pond: its water is a cosine, so that every crossing can be worked out by hand. */
export interface ReferencePond {
  readonly name: string;
  readonly water: Sinusoid;
  /** Monthly means of the air as a cosine: mean and half the swing. [°C] */
  readonly air: readonly [number, number];
  readonly today: string;
  readonly koeppen: string;
  readonly rainMm: number;
  readonly pond: Partial<PondFacts>;
  readonly history?: CareHistory;
}

const NORTH = 205;
const SOUTH = 22;
const MACHINES = aPond().equipment.map((machine) => ({ ...machine, installedOn: civilDay('2025-04-15') }));
const ofSize = (volumeL: number, surfaceAreaM2: number, maxDepthM: number) => ({
  volumeL,
  surfaceAreaM2,
  meanDepthM: volumeL / 1000 / surfaceAreaM2,
  maxDepthM,
});
const goldfish = (count: number) => [{ species: 'goldfish', count, lengthCm: 15 }] as const;
const koi = (count: number) => [{ species: 'koi', count, lengthCm: 45 }] as const;

/** Twelve ponds from hot desert to subarctic, 800 L to 60 m³, with every kind of stock, tap and winter. */
export const TWELVE_PONDS: readonly ReferencePond[] = [
  {
    name: 'new-york-koi',
    water: { meanC: 12, amplitudeC: 12, warmestDayOfYear: NORTH },
    air: [13, 12.2],
    today: '2026-03-01',
    koeppen: 'Cfa',
    rainMm: 105,
    pond: { equipment: MACHINES },
  },
  {
    name: 'phoenix-koi-desert',
    water: { meanC: 21, amplitudeC: 8, warmestDayOfYear: NORTH },
    air: [24.6, 11],
    today: '2026-03-01',
    koeppen: 'BWh',
    rainMm: 15,
    pond: { latitude: 33.4, winterClass: 'W0', equipment: MACHINES, plants: ['hardy-lily', 'tropical-lily'] },
  },
  {
    name: 'melbourne-koi-south',
    water: { meanC: 14, amplitudeC: 8, warmestDayOfYear: SOUTH },
    air: [15, 6],
    today: '2026-03-01',
    koeppen: 'Cfb',
    rainMm: 55,
    pond: { latitude: -37.8, winterClass: 'W1', equipment: [...MACHINES, aMachine('de-icer')] },
  },
  {
    name: 'minneapolis-koi-heavy-60-m3',
    water: { meanC: 10, amplitudeC: 14, warmestDayOfYear: NORTH },
    air: [8, 17],
    today: '2026-03-01',
    koeppen: 'Dfa',
    rainMm: 65,
    pond: {
      latitude: 45,
      winterClass: 'W3',
      ...ofSize(60_000, 40, 2.4),
      stock: koi(40),
      tap: { source: 'chlorine', totalChlorineMgPerL: 1 },
      equipment: [
        ...MACHINES,
        { ...aMachine('pump', { flowLPerH: 30_000 }, civilDay('2025-04-15')), id: 'pump-2', name: 'second pump' },
        {
          ...aMachine('uv-lamp', { lampRatedHours: 9000 }, civilDay('2026-02-01')),
          id: 'uv-lamp-2',
          name: 'second lamp',
        },
        aMachine('skimmer'),
        aMachine('de-icer'),
      ],
    },
  },
  {
    name: 'fairbanks-goldfish-subarctic',
    water: { meanC: 6, amplitudeC: 11, warmestDayOfYear: NORTH },
    air: [-2, 20],
    today: '2026-04-01',
    koeppen: 'Dfc',
    rainMm: 25,
    pond: {
      latitude: 64.8,
      winterClass: 'W3',
      ...ofSize(20_000, 15, 2),
      stock: goldfish(10),
      tap: { source: 'well', totalChlorineMgPerL: null },
      plants: ['submerged'],
      equipment: [...MACHINES, aMachine('de-icer')],
    },
  },
  {
    name: 'london-patio-800-l',
    water: { meanC: 12, amplitudeC: 7.5, warmestDayOfYear: NORTH },
    air: [11.5, 6.8],
    today: '2026-03-01',
    koeppen: 'Cfb',
    rainMm: 52,
    pond: {
      latitude: 51.5,
      winterClass: 'W1',
      ...ofSize(800, 2, 0.5),
      stock: goldfish(3),
      tap: { source: 'chlorine', totalChlorineMgPerL: 0.5 },
      plants: ['hardy-lily', 'marginal'],
      waterfall: false,
      equipment: [aMachine('pump', { flowLPerH: 1000 }), aMachine('mechanical-filter', { mediaVolumeL: 6 })],
    },
  },
  {
    name: 'miami-turtles',
    water: { meanC: 25, amplitudeC: 4.5, warmestDayOfYear: NORTH },
    air: [24.8, 4.6],
    today: '2026-03-01',
    koeppen: 'Am',
    rainMm: 130,
    pond: {
      latitude: 25.8,
      winterClass: 'W0',
      ...ofSize(8000, 9, 1.2),
      stock: [{ species: 'slider-turtle', count: 3, lengthCm: 20 }],
      plants: ['floating-tropical'],
      treesNear: false,
      equipment: MACHINES.filter(({ kind }) => kind !== 'aerator'),
    },
  },
  {
    name: 'seattle-new-pond-well-water',
    water: { meanC: 12, amplitudeC: 8, warmestDayOfYear: NORTH },
    air: [11.5, 7],
    today: '2026-05-01',
    koeppen: 'Csb',
    rainMm: 80,
    pond: {
      latitude: 47.6,
      winterClass: 'W1',
      ...ofSize(15_000, 14, 1.4),
      stock: goldfish(20),
      tap: { source: 'well', totalChlorineMgPerL: null },
      plants: ['hardy-lily', 'marginal', 'submerged'],
      commissionedOn: civilDay('2026-05-01'),
      stockedOn: null,
      equipment: aPond().equipment.map((machine) => ({ ...machine, installedOn: civilDay('2026-05-01') })),
    },
  },
  {
    name: 'denver-empty-plant-pond',
    water: { meanC: 11, amplitudeC: 11, warmestDayOfYear: NORTH },
    air: [10.4, 12],
    today: '2026-03-01',
    koeppen: 'BSk',
    rainMm: 30,
    pond: {
      latitude: 39.7,
      winterClass: 'W2',
      ...ofSize(5000, 8, 1),
      stock: [],
      plants: ['hardy-lily', 'tropical-lily', 'lotus'],
      equipment: [aMachine('pump', { flowLPerH: 4000 }, civilDay('2025-04-15')), aMachine('lights')],
    },
  },
  {
    name: 'toronto-heated-koi',
    water: { meanC: 17, amplitudeC: 5, warmestDayOfYear: NORTH },
    air: [9.5, 13.5],
    today: '2026-03-01',
    koeppen: 'Dfb',
    rainMm: 68,
    pond: {
      latitude: 43.7,
      winterClass: 'W3',
      ...ofSize(18_000, 14, 1.8),
      stock: koi(12),
      equipment: [...MACHINES, aMachine('heater')],
    },
  },
  {
    name: 'queenstown-koi-cold-south',
    water: { meanC: 10, amplitudeC: 9, warmestDayOfYear: SOUTH },
    air: [10.5, 6.5],
    today: '2026-09-01',
    koeppen: 'Cfb',
    rainMm: 62,
    pond: {
      latitude: -45,
      winterClass: 'W2',
      ...ofSize(20_000, 16, 1.8),
      stock: koi(8),
      tap: { source: 'unknown', totalChlorineMgPerL: null },
      equipment: MACHINES,
    },
  },
  {
    name: 'indoor-koi-tank',
    water: { meanC: 21, amplitudeC: 1, warmestDayOfYear: NORTH },
    air: [20, 3],
    today: '2026-03-01',
    koeppen: 'Cfa',
    rainMm: 0,
    pond: {
      winterClass: 'W0',
      ...ofSize(3000, 4, 0.9),
      stock: koi(4),
      plants: [],
      treesNear: false,
      waterfall: false,
      equipment: [...MACHINES.filter(({ kind }) => kind !== 'uv-lamp'), aMachine('heater')],
    },
  },
];

/** What is planned for a reference pond: a year from its day, with the shipped rules, nothing done before. */
export function referenceInput({ water, air, today, koeppen, rainMm, pond, history }: ReferencePond): PlanInput {
  const firstDay: CivilDay = civilDay(today);
  const warmestMonth = water.warmestDayOfYear / 30.4;
  const months = (offsetC: number) =>
    Array.from(
      { length: 12 },
      (_, month) => air[0] + offsetC + air[1] * Math.cos((2 * Math.PI * (month + 0.5 - warmestMonth)) / 12),
    ) as unknown as TwelveMonths;
  return aPlanInput({
    forecast: sinusoidForecast({ ...water, firstDay, spreadDays: 5 }),
    climate: aClimate({
      latitude: pond.latitude ?? 40.8,
      meanC: months(0),
      maxC: months(5),
      minC: months(-5),
      precipitationMm: Array.from({ length: 12 }, () => rainMm) as unknown as TwelveMonths,
      koeppen,
    }),
    rules: shippedRules(),
    pond: aPond({ pondId: 'reference', ...pond }),
    careSince: firstDay,
    history: history ?? NO_HISTORY,
  });
}
