import type { Equipment, PondFacts, StockGroup } from '../../core/care/pond-facts.js';
import { type CivilDay, dayFromParts } from '../../core/units/civil-day.js';

export type ChurnPond = Omit<PondFacts, 'latitude' | 'elevationM' | 'winterClass'>;

/** Three unlike ponds that were filled three years before the year they are followed through. */
export function churnPonds(year: number): readonly ChurnPond[] {
  const filledOn = dayFromParts(year - 3, 5, 1);
  return [
    pondOf('patio', filledOn, { volumeL: 1_500, surfaceAreaM2: 3, maxDepthM: 0.7 }, [
      { species: 'goldfish', count: 4, lengthCm: 12 },
    ]),
    pondOf('garden', filledOn, { volumeL: 10_000, surfaceAreaM2: 11, maxDepthM: 1.3 }, [
      { species: 'koi', count: 5, lengthCm: 40 },
    ]),
    pondOf('large', filledOn, { volumeL: 45_000, surfaceAreaM2: 32, maxDepthM: 2 }, [
      { species: 'koi', count: 20, lengthCm: 50 },
    ]),
  ];
}

function pondOf(
  name: string,
  filledOn: CivilDay,
  size: Pick<PondFacts, 'volumeL' | 'surfaceAreaM2' | 'maxDepthM'>,
  stock: readonly StockGroup[],
): ChurnPond {
  const machine = (kind: Equipment['kind'], rated: Equipment['rated'] = {}): Equipment => ({
    id: kind,
    kind,
    name: kind,
    installedOn: filledOn,
    warrantyUntil: null,
    rated,
  });
  return {
    pondId: name,
    ...size,
    volumeSigmaPct: 5,
    meanDepthM: size.volumeL / 1000 / size.surfaceAreaM2,
    commissionedOn: filledOn,
    stockedOn: (filledOn + 60) as CivilDay,
    tap: { source: 'chloramine', totalChlorineMgPerL: 2 },
    equipment: [
      machine('pump', { flowLPerH: size.volumeL }),
      machine('mechanical-filter', { mediaVolumeL: size.volumeL / 300 }),
      machine('biological-filter', { mediaVolumeL: size.volumeL / 100, mediaAreaM2PerM3: 500 }),
      machine('uv-lamp', { lampRatedHours: 9000 }),
      machine('aerator'),
    ],
    stock,
    plants: ['hardy-lily', 'marginal'],
    treesNear: true,
    waterfall: true,
    agreement: [],
  };
}
