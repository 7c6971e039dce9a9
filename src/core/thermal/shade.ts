/** What the surroundings keep off a pond: sun and wind. */
import { daylightHours } from '../climate/fao56.js';
import { InvalidValueError, requireWithin } from '../errors.js';

const MIDSUMMER_NORTH = 172;
const MIDSUMMER_SOUTH = 355;
const SHADE_RANGE = { min: 0.1, max: 0.9 } as const;

/**
 * Share of the sun kept off, from the hours of direct sun at midsummer: 1 - hours / daylight, never under 0.1 (rim,
 * plants) nor over 0.9 (sky light remains). Climate handbook 7.2 (derived, unproved on garden ponds). [-]
 * @param pond.directSunHours 0 to 24; more than the daylight there is counts as all of it. [h]
 * @param pond.latitude Degrees, north positive.
 */
export function shadeShareFrom(pond: { directSunHours: number; latitude: number }): number {
  requireWithin('hours of direct sun', pond.directSunHours, { min: 0, max: 24 });
  const dayOfYear = pond.latitude >= 0 ? MIDSUMMER_NORTH : MIDSUMMER_SOUTH;
  const daylight = daylightHours({ latitude: pond.latitude, dayOfYear });
  const share = 1 - pond.directSunHours / daylight;
  return Math.min(SHADE_RANGE.max, Math.max(SHADE_RANGE.min, share));
}

export type WindShelter = 'open' | 'suburban' | 'walled';

/** Wind at 2 m over grass as a share of wind at 10 m: FAO-56 eq 47 (ruling 37). */
const TEN_TO_TWO_METRES = 0.748;
/** Climate handbook 7.1, common practice; the typical wind is that over the water. */
const SHELTERS: Readonly<Record<WindShelter, { exposureShare: number; typicalMPerS: number }>> = {
  open: { exposureShare: 1, typicalMPerS: 4 },
  suburban: { exposureShare: 0.5, typicalMPerS: 1.5 },
  walled: { exposureShare: 0.3, typicalMPerS: 0.8 },
};

/**
 * Mean wind at 2 m over the water: from the wind at 10 m in the open where it is known, else a typical value for the
 * shelter (open 4, suburban garden 1.5, walled or wooded 0.8). Wrong exposure costs the forecast more than anything
 * else; readings correct it. [m/s]
 * @param site.openWindMPerS Mean wind at 10 m at the nearest open station, 0 to 30. [m/s]
 */
export function windOverPond(site: { shelter: WindShelter; openWindMPerS?: number }): number {
  const shelter = SHELTERS[site.shelter];
  if (!shelter) throw new InvalidValueError('wind shelter', site.shelter, 'Choose open, suburban or walled.');
  if (site.openWindMPerS === undefined) return shelter.typicalMPerS;
  requireWithin('wind in the open, m/s', site.openWindMPerS, { min: 0, max: 30 });
  return site.openWindMPerS * TEN_TO_TWO_METRES * shelter.exposureShare;
}
