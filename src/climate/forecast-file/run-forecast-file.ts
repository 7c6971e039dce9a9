import { siteClimateFor, withOverrides } from '../../core/climate/site-climate.js';
import type { SiteClimate, Station } from '../../core/climate/station.js';
import { forecastWater } from '../../core/thermal/forecast-water.js';
import { ensembleSeed } from '../../core/thermal/seed.js';
import type { DailyAir, WaterForecast, WaterReading } from '../../core/thermal/water-forecast.js';
import { addDays, type CivilDay, civilDay, isoDateOf, yearOf } from '../../core/units/civil-day.js';
import { readAirFile } from './air-file.js';
import { ForecastFileError } from './forecast-file-error.js';
import { meanWindOver, withWindOverPond } from './pond-wind.js';
import { readReadingsFile } from './readings-file.js';
import { type ForecastSite, readSiteFile } from './site-file.js';

/**
 * Spread of the model offset where the wind over the water is told. Derived: three lakes have biases up to 0.5 °C; 0.7
 * leaves room for shade and springs and puts 83 to 90 % of their days inside p10 to p90. [°C]
 */
const OFFSET_SD_WIND_KNOWN_C = 0.7;
const OFFSET_SD_WIND_GUESSED_C = 2.0;
const LONGEST_DAYS = 20_000;
const RANGES_SHOWN = 5;

export interface ForecastFileRequest {
  readonly siteFile: string;
  readonly airFile?: string | undefined;
  /** First and last day, YYYY-MM-DD; with an air file its own first and last unless given. */
  readonly from?: string | undefined;
  readonly to?: string | undefined;
  readonly readingsFile?: string | undefined;
  /** Whole years of daily air of the place, in the form of an air file: the weather to come is drawn from them. */
  readonly historyFile?: string | undefined;
  readonly stations: readonly Station[];
}

export interface ForecastFileResult {
  /** `date,p10_c,p50_c,p90_c`, one line a day. */
  readonly csv: string;
  /** What a person should know of this run; for stderr. */
  readonly notices: readonly string[];
  readonly forecast: WaterForecast;
}

/**
 * The forecast command: site, daily air and readings in files, daily water out. Day d uses air through d and readings
 * strictly before d. The run before the first day starts from normals; days without air are bridged from normals and
 * reported; without an air file it is the forecast from normals alone. The same input gives the same output on any
 * machine in any zone.
 * @throws ForecastFileError naming file, line, field, value and what is allowed.
 */
export function runForecastFile(request: ForecastFileRequest): ForecastFileResult {
  const site = readSiteFile(request.siteFile);
  const airFile = request.airFile === undefined ? null : readAirFile(request.airFile);
  const readings = request.readingsFile === undefined ? [] : readReadingsFile(request.readingsFile);
  const history = request.historyFile === undefined ? null : readAirFile(request.historyFile);
  const air = airFile ? withWindOverPond(airFile.air, site) : [];
  const { first, last } = periodOf(request, air);
  const climate = climateOf(site, request.stations);
  const forecast = forecastWater({
    pond: {
      latitude: site.latitude,
      elevationM: site.elevationM,
      surfaceAreaM2: site.areaM2,
      meanDepthM: site.meanDepthM,
      shadeShare: site.shadeFraction,
      windAt2mMPerS: meanWindOver(site),
      waterfallFlowLPerH: 0,
    },
    climate,
    firstDay: first,
    days: last - first + 1,
    seed: ensembleSeed(`${site.latitude},${site.longitude}`, climate.stations[0]?.id ?? ''),
    readings,
    air,
    ...(history ? { history: history.air } : {}),
    offsetSdC: site.windMPerS === undefined ? OFFSET_SD_WIND_GUESSED_C : OFFSET_SD_WIND_KNOWN_C,
  });
  return {
    csv: csvOf(forecast),
    notices: [
      ...(airFile?.notices ?? []),
      ...climateNotices(climate),
      ...(site.windMPerS === undefined
        ? [`windMPerS not given: ${meanWindOver(site)} m/s over the water assumed.`]
        : []),
      ...gapNotices(request.airFile, air, first, last),
      ...(history ? [`Weather to come drawn from ${yearsOf(history.air)} years of ${request.historyFile}.`] : []),
      ...readingNotices(forecast, readings, first, last),
      ...exposureNotices(forecast),
    ],
    forecast,
  };
}

function yearsOf(days: readonly DailyAir[]): number {
  return new Set(days.map(({ on }) => yearOf(on))).size;
}

function exposureNotices({ exposure }: WaterForecast): string[] {
  if (!exposure?.isLearned) return [];
  const shade = `${Math.round(100 * exposure.shadeShare)} % of the sun kept off`;
  return [`The readings point to a wind of ${exposure.windAt2mMPerS.toFixed(1)} m/s over the water and ${shade}.`];
}

function climateOf(site: ForecastSite, stations: readonly Station[]): SiteClimate {
  const climate = siteClimateFor(site, stations);
  return site.sunFraction === undefined ? climate : withOverrides(climate, { sunShare: site.sunFraction });
}

function periodOf(request: ForecastFileRequest, air: readonly DailyAir[]): { first: CivilDay; last: CivilDay } {
  const first = request.from === undefined ? air[0]?.on : dayFrom('--from', request.from);
  const last = request.to === undefined ? air.at(-1)?.on : dayFrom('--to', request.to);
  if (first === undefined || last === undefined) {
    throw new ForecastFileError('Without an air file the first and last day must be given: --from DATE --to DATE.');
  }
  if (last < first || last - first >= LONGEST_DAYS) {
    throw new ForecastFileError(
      `From ${isoDateOf(first)} to ${isoDateOf(last)} are ${last - first + 1} days. Allowed: 1 to ${LONGEST_DAYS}.`,
    );
  }
  return { first, last };
}

function dayFrom(option: string, written: string): CivilDay {
  try {
    return civilDay(written);
  } catch {
    throw new ForecastFileError(`${option}: ${JSON.stringify(written)}. Allowed: a calendar date as YYYY-MM-DD.`);
  }
}

function csvOf(forecast: WaterForecast): string {
  const lines = ['date,p10_c,p50_c,p90_c'];
  for (let i = 0; i < forecast.days; i++) {
    const figures = [forecast.p10C, forecast.p50C, forecast.p90C].map((curve) => (curve[i] as number).toFixed(2));
    lines.push(`${isoDateOf(addDays(forecast.firstDay, i))},${figures.join(',')}`);
  }
  return `${lines.join('\n')}\n`;
}

function climateNotices(climate: SiteClimate): string[] {
  const names = climate.stations.map(
    ({ name, distanceKm, period }) => `${name} (${Math.round(distanceKm)} km, ${period})`,
  );
  const warnings = climate.warnings.map((warning) =>
    warning.code === 'station-far'
      ? `The nearest station is ${Math.round(warning.distanceKm)} km away: the climate may differ.`
      : `The nearest station lies ${Math.round(Math.abs(warning.elevationDifferenceM))} m ` +
        `${warning.elevationDifferenceM > 0 ? 'lower' : 'higher'} than the site: the climate may differ.`,
  );
  return [`Climate from ${names.join(', ')}.`, ...warnings];
}

function gapNotices(airFile: string | undefined, air: readonly DailyAir[], first: CivilDay, last: CivilDay): string[] {
  if (airFile === undefined) return ['No air file: forecast from normals alone.'];
  const known = new Set(air.map((day) => day.on));
  const ranges: string[] = [];
  let missing = 0;
  for (let day = first; day <= last; day = addDays(day, 1)) {
    if (known.has(day)) continue;
    let end = day;
    while (end < last && !known.has(addDays(end, 1))) end = addDays(end, 1);
    missing += end - day + 1;
    ranges.push(end === day ? isoDateOf(day) : `${isoDateOf(day)} to ${isoDateOf(end)}`);
    day = end;
  }
  if (missing === 0) return [];
  const shown = ranges.slice(0, RANGES_SHOWN).join(', ');
  const more = ranges.length > RANGES_SHOWN ? ` and ${ranges.length - RANGES_SHOWN} more gaps` : '';
  return [
    `${missing} of ${last - first + 1} days have no air temperature and are bridged from normals: ${shown}${more}.`,
  ];
}

function readingNotices(
  forecast: WaterForecast,
  readings: readonly WaterReading[],
  first: CivilDay,
  last: CivilDay,
): string[] {
  const rejected = (forecast.readings ?? []).filter((verdict) => verdict.verdict === 'rejected');
  const notices = rejected.map(
    ({ reading, innovationC, limitC }) =>
      `Reading of ${isoDateOf(reading.on)}, ${reading.waterTemperatureC} °C, is ${Math.abs(innovationC).toFixed(1)} °C from ` +
      `what was expected (limit ${limitC.toFixed(1)}) and was not used: measure again.`,
  );
  const late = readings.filter((reading) => reading.on >= last).length;
  if (late > 0) notices.push(`${late} readings on or after ${isoDateOf(last)} change nothing in this period.`);
  if (readings.some((reading) => reading.on < first - 425)) {
    notices.push('Readings more than fourteen months before the first day were not used.');
  }
  return notices;
}
