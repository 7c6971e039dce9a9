import type { PondFacts, WinterClass } from '../core/care/pond-facts.js';
import { type CivilDay, civilDay } from '../core/units/civil-day.js';
import type { PondRecord } from './pond-record.js';

/** What the planner knows of a pond, as a plain value. */
export function pondFacts(record: PondRecord, site: { winterClass: WinterClass }): PondFacts {
  const { pond } = record;
  return {
    pondId: pond.id,
    latitude: pond.latitude,
    volumeL: pond.volumeL,
    volumeSigmaPct: pond.volumeSigmaPct,
    surfaceAreaM2: pond.surfaceAreaM2,
    meanDepthM: pond.meanDepthM,
    maxDepthM: pond.maxDepthM,
    elevationM: pond.elevationM,
    commissionedOn: dayOrNull(pond.commissionedOn),
    stockedOn: dayOrNull(pond.stockedOn),
    winterClass: site.winterClass,
    tap: { source: pond.tapSource, totalChlorineMgPerL: pond.tapTotalChlorineMgPerL },
    equipment: record.equipment
      .filter((machine) => machine.removedOn === null)
      .map(({ id, kind, name, installedOn, warrantyUntil, rated }) => ({
        id,
        kind,
        name,
        installedOn: dayOrNull(installedOn),
        warrantyUntil: dayOrNull(warrantyUntil),
        rated,
      })),
    stock: record.stock.map(({ species, headCount, lengthCm }) => ({ species, count: headCount, lengthCm })),
    plants: pond.plants,
    treesNear: pond.treesNear,
    waterfall: pond.waterfall,
    agreement: record.agreement.map(({ ruleId, doneBy, fromOn, untilOn }) => ({
      ruleId,
      doneBy,
      from: dayOrNull(fromOn),
      until: dayOrNull(untilOn),
    })),
  };
}

function dayOrNull(isoDate: string | null): CivilDay | null {
  return isoDate === null ? null : civilDay(isoDate);
}
