import { requireWithin } from '../errors.js';

/** Mean radius of the earth (IUGG). [km] */
const EARTH_RADIUS_KM = 6371.0088;

interface Place {
  /** Degrees, north positive. */
  readonly latitude: number;
  /** Degrees, east positive. */
  readonly longitude: number;
}

/** Great-circle distance by the haversine formula. [km] */
export function greatCircleKm(from: Place, to: Place): number {
  for (const place of [from, to]) {
    requireWithin('latitude, degrees', place.latitude, { min: -90, max: 90 });
    requireWithin('longitude, degrees', place.longitude, { min: -180, max: 180 });
  }
  const rad = Math.PI / 180;
  const halfSine = (a: number, b: number) => Math.sin(((b - a) * rad) / 2) ** 2;
  const chord =
    halfSine(from.latitude, to.latitude) +
    Math.cos(from.latitude * rad) * Math.cos(to.latitude * rad) * halfSine(from.longitude, to.longitude);
  return 2 * EARTH_RADIUS_KM * Math.asin(Math.min(1, Math.sqrt(chord)));
}
