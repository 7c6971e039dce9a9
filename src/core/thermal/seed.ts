/**
 * Seed of a pond's ensemble, from the pond and the station its climate comes from: a re-run gives the same dates, another
 * pond other noise. FNV-1a, 32 bits (Fowler, Noll & Vo; from memory).
 */
export function ensembleSeed(pondId: string, stationId: string): number {
  let hash = 0x811c9dc5;
  for (const unit of `${pondId}|${stationId}`) {
    hash = Math.imul(hash ^ (unit.codePointAt(0) as number), 0x01000193);
  }
  return hash >>> 0;
}
