import type { CareHistory, DechlorinatorStrength, PlanInput } from '../../src/core/care/care-plan.js';
import type { CareRule } from '../../src/core/care/care-rule.js';
import type { Equipment, EquipmentKind, PondFacts } from '../../src/core/care/pond-facts.js';
import type { SiteClimate, TwelveMonths } from '../../src/core/climate/station.js';
import type { WaterForecast } from '../../src/core/thermal/water-forecast.js';
import { type CivilDay, civilDay } from '../../src/core/units/civil-day.js';

/** One machine of the register. */
export function aMachine(
  kind: EquipmentKind,
  rated: Equipment['rated'] = {},
  installedOn: CivilDay | null = civilDay('2024-05-01'),
): Equipment {
  return { id: kind, kind, name: kind.replace('-', ' '), installedOn, warrantyUntil: null, rated };
}

/** A koi pond of 12 m² and 12 m³ in a cold winter (W2), with the usual machinery, chloramine and trees near. */
export function aPond(changes: Partial<PondFacts> = {}): PondFacts {
  return {
    pondId: 'pond-1',
    latitude: 40.8,
    volumeL: 12_000,
    volumeSigmaPct: 5,
    surfaceAreaM2: 12,
    meanDepthM: 1,
    maxDepthM: 1.5,
    elevationM: 40,
    commissionedOn: civilDay('2024-05-01'),
    stockedOn: civilDay('2024-07-01'),
    winterClass: 'W2',
    tap: { source: 'chloramine', totalChlorineMgPerL: 2 },
    equipment: [
      aMachine('pump', { flowLPerH: 14_000 }),
      aMachine('mechanical-filter', { mediaVolumeL: 40 }),
      aMachine('biological-filter', { mediaVolumeL: 120, mediaAreaM2PerM3: 500 }),
      aMachine('uv-lamp', { lampRatedHours: 9000 }),
      aMachine('aerator'),
    ],
    stock: [{ species: 'koi', count: 6, lengthCm: 45 }],
    plants: ['hardy-lily'],
    treesNear: true,
    waterfall: true,
    agreement: [],
    ...changes,
  };
}

function twelve(...values: number[]): TwelveMonths {
  return values as unknown as TwelveMonths;
}

/** Normals like those of New York. */
export function aClimate(changes: Partial<SiteClimate> = {}): SiteClimate {
  return {
    latitude: 40.8,
    elevationM: 40,
    meanC: twelve(0.9, 2.2, 6.0, 11.9, 17.3, 22.1, 25.3, 24.5, 20.9, 14.8, 9.0, 3.9),
    maxC: twelve(4.4, 6.0, 10.1, 16.6, 22.1, 26.8, 29.8, 28.8, 25.2, 18.9, 12.7, 7.2),
    minC: twelve(-2.6, -1.6, 2.0, 7.2, 12.6, 17.5, 20.8, 20.1, 16.5, 10.6, 5.4, 0.6),
    vapourPressureHPa: twelve(4.0, 4.1, 5.2, 7.5, 11.9, 16.7, 20.1, 19.9, 16.3, 11.1, 7.4, 5.2),
    sunShare: twelve(0.45, 0.48, 0.5, 0.5, 0.5, 0.51, 0.52, 0.51, 0.5, 0.48, 0.44, 0.42),
    precipitationMm: twelve(92, 81, 109, 104, 101, 115, 117, 116, 109, 111, 91, 111),
    betweenYearsSdC: twelve(2.4, 2.2, 2.0, 1.4, 1.4, 1.2, 1.2, 1.2, 1.2, 1.5, 1.6, 2.2),
    dailySdC: twelve(5.0, 4.8, 5.0, 4.6, 4.2, 3.6, 2.8, 2.8, 3.5, 4.2, 4.8, 5.0),
    koeppen: 'Cfa',
    hardinessZone: '7b',
    stations: [],
    warnings: [],
    ...changes,
  };
}

export const NO_HISTORY: CareHistory = { finished: [], readings: [], events: [] };

/** Thiosulfate crystals, as shipped. */
export const THIOSULFATE: DechlorinatorStrength = {
  id: 'thiosulfate-crystals',
  name: 'Sodium thiosulfate, crystals (pentahydrate)',
  productMgPerMgChlorine: 7,
  bindsAmmonia: false,
  source: 'label',
};

/** A plan input around a forecast and rules; care began with the pond. */
export function aPlanInput(
  given: { readonly forecast: WaterForecast; readonly rules: readonly CareRule[] } & Partial<PlanInput>,
): PlanInput {
  return {
    pond: aPond(),
    today: given.forecast.firstDay,
    horizonDays: 365,
    climate: aClimate(),
    history: NO_HISTORY,
    dechlorinator: THIOSULFATE,
    careSince: civilDay('2024-05-01'),
    defaultDoneBy: 'company',
    ...given,
  };
}
