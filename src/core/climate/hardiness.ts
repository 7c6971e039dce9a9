import { InvalidValueError, requireWithin } from '../errors.js';
import type { TwelveMonths } from './station.js';

const HALF_ZONE_F = 5;
const COLDEST_ZONE_F = -60;
const HALF_ZONES = 26;

/**
 * Plant hardiness zone, `1a` to `13b`, of the 30-year mean of the yearly lowest air temperature; lower limit included.
 * Below zone 1a it stays 1a, above 13b it stays 13b. USDA zones of 10 °F, edition 2023 (published source; the ends of
 * the scale from memory). A zone tells the worst night of the year and nothing of summer or season.
 * @param site.extremeMinC Mean yearly minimum, -90 to 40. [°C]
 */
export function hardinessZoneOf({ extremeMinC }: { extremeMinC: number }): string {
  requireWithin('mean yearly minimum, °C', extremeMinC, { min: -90, max: 40 });
  // A hundredth of a degree of rounding must not move 0 °F to the colder half zone.
  const extremeMinF = Math.round((extremeMinC * 9 * 1e6) / 5) / 1e6 + 32;
  const half = Math.min(HALF_ZONES - 1, Math.max(0, Math.floor((extremeMinF - COLDEST_ZONE_F) / HALF_ZONE_F)));
  return `${Math.floor(half / 2) + 1}${half % 2 === 0 ? 'a' : 'b'}`;
}

/** Lower limit of a zone such as `7b`. [°C] */
export function hardinessZoneMinC(zone: string): number {
  const parts = /^(1[0-3]|[1-9])([ab])$/.exec(zone);
  if (!parts) throw new InvalidValueError('hardiness zone', zone, 'Write 1a to 13b, for example 7b.');
  const half = (Number(parts[1]) - 1) * 2 + (parts[2] === 'b' ? 1 : 0);
  return ((COLDEST_ZONE_F + half * HALF_ZONE_F - 32) * 5) / 9;
}

/**
 * Rough mean yearly minimum: the lowest monthly mean minimum less 2.7 standard deviations of that month's daily means.
 * Derived (our rule), good to 2.5 °C, that is one half zone either way; let people override it. [°C]
 */
export function estimateExtremeMinC({ minC, dailySdC }: { minC: TwelveMonths; dailySdC: TwelveMonths }): number {
  let coldest = 0;
  for (let month = 0; month < 12; month++) {
    requireWithin('mean daily minimum, °C', minC[month] as number, { min: -90, max: 60 });
    requireWithin('standard deviation of daily means, °C', dailySdC[month] as number, { min: 0, max: 25 });
    if ((minC[month] as number) < (minC[coldest] as number)) coldest = month;
  }
  return (minC[coldest] as number) - 2.7 * (dailySdC[coldest] as number);
}
