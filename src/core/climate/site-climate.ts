import { InvalidValueError, requireWithin } from '../errors.js';
import { saturationVapourPressureKPa } from './fao56.js';
import { greatCircleKm } from './great-circle.js';
import { estimateExtremeMinC, hardinessZoneMinC, hardinessZoneOf } from './hardiness.js';
import { koeppenClass } from './koeppen.js';
import type { ClimateWarning, SiteClimate, Station, TwelveMonths } from './station.js';
import { sunShareFromKoeppen, sunShareFromSunshine } from './sun-share.js';
import { ofMonth, twelveMonths } from './twelve-months.js';

/** Fall of the monthly mean and maximum with height, and of the minimum. Common practice. [°C/m] */
const MEAN_LAPSE_C_PER_M = -0.0065;
const MIN_LAPSE_C_PER_M = -0.0055;
/** A station 100 m higher or lower counts as 30 km farther away. Common practice. [km/m] */
const PENALTY_KM_PER_M = 0.3;
const BLENDED_STATIONS = 3;
const BLEND_WITHIN_KM = 250;
const FAR_KM = 150;
const OTHER_ELEVATION_M = 500;
const DEFAULT_RELATIVE_HUMIDITY = 0.7;
const SUN_SHARE_RANGE = { min: 0.1, max: 0.8 } as const;

interface Site {
  /** Degrees, north positive. */
  readonly latitude: number;
  /** Degrees, east positive. */
  readonly longitude: number;
  readonly elevationM: number;
}

/**
 * How far a station counts as being away: a hundred metres of height for thirty kilometres. Common practice. [km]
 * @param station.elevationDifferenceM Site minus station, -6000 to 6000. [m]
 */
export function penalisedDistanceKm(station: { distanceKm: number; elevationDifferenceM: number }): number {
  requireWithin('distance, km', station.distanceKm, { min: 0, max: 20_100 });
  requireWithin('difference of elevation, m', station.elevationDifferenceM, { min: -9000, max: 9000 });
  return station.distanceKm + PENALTY_KM_PER_M * Math.abs(station.elevationDifferenceM);
}

/**
 * A monthly temperature moved from the station's height to the site's: -0.0065 °C/m, minima -0.0055. Common practice. [°C]
 * @param station.elevationDifferenceM Site minus station. [m]
 */
export function movedToElevationC(station: {
  temperatureC: number;
  elevationDifferenceM: number;
  of: 'mean' | 'max' | 'min';
}): number {
  requireWithin('temperature, °C', station.temperatureC, { min: -90, max: 60 });
  requireWithin('difference of elevation, m', station.elevationDifferenceM, { min: -9000, max: 9000 });
  const lapse = station.of === 'min' ? MIN_LAPSE_C_PER_M : MEAN_LAPSE_C_PER_M;
  return station.temperatureC + lapse * station.elevationDifferenceM;
}

interface Neighbour {
  readonly station: Station;
  readonly distanceKm: number;
  /** Site minus station. */
  readonly elevationDifferenceM: number;
  readonly penalisedKm: number;
  readonly weight: number;
}

/**
 * The climate of a site from the stations around it (climate handbook section 12; common practice).
 * Nearest by great circle plus 30 km for every 100 m of height; the nearest three are blended with weights 1/d2 when all
 * lie within 250 km. Temperatures are moved to the site's elevation, -0.0065 °C/m (minima -0.0055). Where no station has
 * sunshine the share of sun follows the Koeppen class; where none has vapour pressure the relative humidity is 70 %.
 * Warns when the nearest is more than 150 km away or more than 500 m higher or lower.
 * @param options.stationId A station chosen by hand: it alone is used.
 * @throws InvalidValueError without stations, or when the chosen one is not among them.
 */
export function siteClimateFor(
  site: Site,
  stations: readonly Station[],
  options: { stationId?: string } = {},
): SiteClimate {
  requireWithin('elevation, m', site.elevationM, { min: -500, max: 6000 });
  const neighbours = chooseStations(site, stations, options.stationId);
  const blend = blendOf(neighbours);

  const meanC = movedBlend(neighbours, 'mean');
  const maxC = movedBlend(neighbours, 'max');
  const minC = movedBlend(neighbours, 'min');
  const precipitationMm = blend((station) => station.precipitationMm);
  const dailySdC = blend((station) => station.dailySdC) as TwelveMonths;
  const koeppen = precipitationMm && koeppenClass({ meanC, precipitationMm });
  const relativeHumidity = blend(relativeHumidityOf) ?? twelveMonths(() => DEFAULT_RELATIVE_HUMIDITY);
  return {
    latitude: site.latitude,
    elevationM: site.elevationM,
    meanC,
    maxC,
    minC,
    vapourPressureHPa: twelveMonths(
      (month) =>
        10 * ofMonth(relativeHumidity, month) * saturationVapourPressureKPa({ temperatureC: ofMonth(meanC, month) }),
    ),
    sunShare: blend(sunShareOf) ?? sunShareFromKoeppen({ latitude: site.latitude, koeppen }),
    precipitationMm,
    betweenYearsSdC: blend((station) => station.betweenYearsSdC) as TwelveMonths,
    dailySdC,
    koeppen,
    hardinessZone: hardinessZoneOf({ extremeMinC: estimateExtremeMinC({ minC, dailySdC }) }),
    stations: neighbours.map(({ station, distanceKm, elevationDifferenceM, weight }) => ({
      id: station.id,
      name: station.name,
      period: station.period,
      distanceKm,
      elevationDifferenceM,
      weight,
    })),
    warnings: warningsOf(neighbours[0] as Neighbour),
  };
}

/** What a person may know better than the stations. */
export interface ClimateOverrides {
  readonly koeppen?: string;
  readonly hardinessZone?: string;
  /** Mean share of extraterrestrial radiation, the same all year or per month; 0.1 to 0.8. */
  readonly sunShare?: number | TwelveMonths;
}

/**
 * The climate with what a person has entered in place of what was computed; what is left out stays.
 * A Koeppen class given by hand changes the label and nothing else.
 * @throws InvalidValueError, OutOfRangeError naming the field.
 */
export function withOverrides(climate: SiteClimate, overrides: ClimateOverrides): SiteClimate {
  const { koeppen, hardinessZone, sunShare } = overrides;
  if (koeppen !== undefined && !/^(A[fmw]|B[WS][hk]|C[fsw][abc]|D[fsw][abcd]|E[TF])$/.test(koeppen)) {
    throw new InvalidValueError('climate class', koeppen, 'Write a Koeppen-Geiger class such as Cfb or Dfa.');
  }
  if (hardinessZone !== undefined) hardinessZoneMinC(hardinessZone);
  const shares = typeof sunShare === 'number' ? twelveMonths(() => sunShare) : sunShare;
  for (const share of shares ?? []) requireWithin('share of sun', share, SUN_SHARE_RANGE);
  return {
    ...climate,
    koeppen: koeppen ?? climate.koeppen,
    hardinessZone: hardinessZone ?? climate.hardinessZone,
    sunShare: shares ?? climate.sunShare,
  };
}

function chooseStations(site: Site, stations: readonly Station[], stationId: string | undefined): Neighbour[] {
  const candidates = stationId === undefined ? stations : stations.filter((station) => station.id === stationId);
  if (candidates.length === 0) {
    throw new InvalidValueError('climate station', stationId ?? null, 'Choose one of the bundled stations.');
  }
  const nearest = candidates
    .map((station) => neighbourOf(site, station))
    .sort((a, b) => a.penalisedKm - b.penalisedKm || (a.station.id < b.station.id ? -1 : 1))
    .slice(0, BLENDED_STATIONS);
  const isBlended = nearest.length === BLENDED_STATIONS && nearest.every((near) => near.distanceKm <= BLEND_WITHIN_KM);
  return weighted(isBlended ? nearest : nearest.slice(0, 1));
}

function neighbourOf(site: Site, station: Station): Neighbour {
  const distanceKm = greatCircleKm(site, station);
  const elevationDifferenceM = site.elevationM - station.elevationM;
  const penalisedKm = penalisedDistanceKm({ distanceKm, elevationDifferenceM });
  return { station, distanceKm, elevationDifferenceM, penalisedKm, weight: 1 };
}

/** Inverse squares of the penalised distance, summing to 1; nearer than 1 km counts as 1 km. */
function weighted(neighbours: readonly Neighbour[]): Neighbour[] {
  const inverse = neighbours.map((near) => 1 / Math.max(1, near.penalisedKm) ** 2);
  const total = inverse.reduce((sum, weight) => sum + weight, 0);
  return neighbours.map((near, i) => ({ ...near, weight: (inverse[i] as number) / total }));
}

/** Blends a monthly figure over the stations that have it; null when none has. */
function blendOf(neighbours: readonly Neighbour[]) {
  return (figureOf: (station: Station) => TwelveMonths | null): TwelveMonths | null => {
    const having = neighbours.flatMap(({ station, weight }) => {
      const values = figureOf(station);
      return values ? [{ values, weight }] : [];
    });
    const total = having.reduce((sum, { weight }) => sum + weight, 0);
    if (having.length === 0) return null;
    return twelveMonths(
      (month) => having.reduce((sum, { values, weight }) => sum + weight * ofMonth(values, month), 0) / total,
    );
  };
}

function movedBlend(neighbours: readonly Neighbour[], of: 'mean' | 'max' | 'min'): TwelveMonths {
  const figuresOf = ({ meanC, maxC, minC }: Station) => ({ mean: meanC, max: maxC, min: minC })[of];
  return twelveMonths((month) =>
    neighbours.reduce((sum, { station, elevationDifferenceM, weight }) => {
      const temperatureC = ofMonth(figuresOf(station), month);
      return sum + weight * movedToElevationC({ temperatureC, elevationDifferenceM, of });
    }, 0),
  );
}

/** Ratio of the mean vapour pressure to saturation at the mean temperature: what carries over to another elevation. */
function relativeHumidityOf(station: Station): TwelveMonths | null {
  const vapour = station.vapourPressureHPa;
  if (!vapour) return null;
  return twelveMonths((month) => {
    const saturationHPa = 10 * saturationVapourPressureKPa({ temperatureC: ofMonth(station.meanC, month) });
    return Math.min(1, Math.max(0.1, ofMonth(vapour, month) / saturationHPa));
  });
}

function sunShareOf(station: Station): TwelveMonths | null {
  if (!station.sunshineHours) return null;
  return sunShareFromSunshine({ latitude: station.latitude, sunshineHours: station.sunshineHours });
}

function warningsOf({ distanceKm, elevationDifferenceM }: Neighbour): ClimateWarning[] {
  const warnings: ClimateWarning[] = [];
  if (distanceKm > FAR_KM) warnings.push({ code: 'station-far', distanceKm });
  if (Math.abs(elevationDifferenceM) > OTHER_ELEVATION_M) {
    warnings.push({ code: 'station-other-elevation', elevationDifferenceM });
  }
  return warnings;
}
