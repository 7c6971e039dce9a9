import type { SiteClimate } from '../climate/station.js';
import { InvalidValueError, requireWithin } from '../errors.js';
import { addDays, type CivilDay } from '../units/civil-day.js';
import { Ensemble } from './ensemble.js';
import { OFFSET_SD_C } from './readings-correction.js';
import { spinUpStart } from './spin-up.js';
import type { DailyAir, PondHeat, ReadingVerdict, WaterForecast, WaterReading } from './water-forecast.js';
import { WeatherHistory } from './weather-history.js';

export const DEFAULT_TRACES = 40;
const MEAN_DAYS = 7;

export interface ForecastRequest {
  readonly pond: PondHeat;
  readonly climate: SiteClimate;
  readonly firstDay: CivilDay;
  /** 1 to 20,000. */
  readonly days: number;
  /** See `ensembleSeed`. */
  readonly seed: number;
  /** 1 to 400, 40 unless given. */
  readonly traces?: number;
  /** Any order; a reading changes the days after it. */
  readonly readings?: readonly WaterReading[];
  /** Measured air, any order; it replaces the weather of its days in every trace. Wind is that over the water. */
  readonly air?: readonly DailyAir[];
  /** What is unknown of wind, shade and springs, as a standard deviation of the water temperature; 2.0 unless given. [°C] */
  readonly offsetSdC?: number;
  /** Whole years of daily air of the place: the weather to come is then drawn from them instead of from a chance process. */
  readonly history?: readonly DailyAir[];
}

/**
 * Daily water temperature of a pond as an ensemble of equally likely traces.
 *
 * Each trace is the climate's normals with a day-to-day and a monthly disturbance, or past years of the place one after
 * another where they are given, and measured air where it is given; driven through the heat balance with ice and ground,
 * plus an error of the model drawn for the trace. The error is what the readings
 * have not yet settled: with readings its middle moves and its width shrinks. The run starts at the midsummer before,
 * at least 60 days back, so that what is forecast for a day does not hang on the day of the forecast.
 *
 * Skill without any fitting, daily air given: RMSE 1.1 to 1.3 °C on two shallow lakes (`npm run validate:forecast`).
 * No year-round record of a garden pond was found: wind, shade and waterfall of small ponds are unproved.
 * @throws OutOfRangeError, InvalidValueError naming field and value.
 * @see Climate handbook sections 7, 8 and 10; `heat-balance.ts`, `ice.ts`, `ensemble-noise.ts`, `readings-correction.ts`.
 */
export function forecastWater(request: ForecastRequest): WaterForecast {
  const traces = request.traces ?? DEFAULT_TRACES;
  requireRequest(request, traces);
  const start = spinUpStart(request.firstDay, request.climate.latitude);
  const spinUpDays = request.firstDay - start;
  const ensemble = new Ensemble({
    pond: request.pond,
    climate: request.climate,
    start,
    days: spinUpDays + request.days,
    seed: request.seed,
    traces,
    air: request.air ?? [],
    offsetSdC: request.offsetSdC ?? OFFSET_SD_C.value,
    readings: request.readings?.length ?? 0,
    history: request.history === undefined ? null : new WeatherHistory(request.history),
  });
  const sheet = new ForecastSheet(request.firstDay, request.days, traces);
  const verdicts: ReadingVerdict[] = [];
  const readings = [...(request.readings ?? [])].sort((a, b) => a.on - b.on);
  let next = readings.findIndex((reading) => reading.on >= start);

  for (let i = 0; i < spinUpDays + request.days; i++) {
    ensemble.advance();
    sheet.write(i - spinUpDays, ensemble);
    for (; next >= 0 && next < readings.length && readings[next]!.on === addDays(start, i); next++) {
      verdicts.push(ensemble.take(readings[next] as WaterReading));
    }
  }
  return { ...sheet.asForecast(), readings: verdicts, exposure: ensemble.exposure };
}

function requireRequest(request: ForecastRequest, traces: number): void {
  const { pond } = request;
  if (!Number.isInteger(request.firstDay)) {
    throw new InvalidValueError('first day', request.firstDay, 'Give a civil day, a whole number.');
  }
  if (!Number.isInteger(request.days) || !Number.isInteger(traces)) {
    throw new InvalidValueError('days and traces', [request.days, traces], 'Give whole numbers.');
  }
  requireWithin('days', request.days, { min: 1, max: 20_000 });
  requireWithin('traces', traces, { min: 1, max: 400 });
  requireWithin('seed', request.seed, { min: Number.MIN_SAFE_INTEGER, max: Number.MAX_SAFE_INTEGER });
  requireWithin('latitude, degrees', request.climate.latitude, { min: -90, max: 90 });
  requireWithin('mean depth, m', pond.meanDepthM, { min: 0.05, max: 30 });
  requireWithin('shade share', pond.shadeShare, { min: 0, max: 0.95 });
  requireWithin('wind over the pond, m/s', pond.windAt2mMPerS, { min: 0, max: 20 });
  for (const reading of request.readings ?? []) {
    requireWithin('water temperature, °C', reading.waterTemperatureC, { min: -1, max: 45 });
  }
  for (const day of request.air ?? []) requireAir(day);
}

function requireAir(day: DailyAir): void {
  requireWithin('air temperature, °C', day.airTemperatureC, { min: -60, max: 55 });
  const { solarMjPerM2, windMPerS, relativeHumidityPct, precipitationMm = null } = day;
  if (solarMjPerM2 !== null) requireWithin('solar radiation, MJ/m2/d', solarMjPerM2, { min: 0, max: 45 });
  if (windMPerS !== null) requireWithin('wind, m/s', windMPerS, { min: 0, max: 60 });
  if (relativeHumidityPct !== null) requireWithin('relative humidity, %', relativeHumidityPct, { min: 0, max: 100 });
  if (precipitationMm !== null) requireWithin('precipitation, mm', precipitationMm, { min: 0, max: 2000 });
}

/** Collects the traces of the asked days and their quantiles. */
class ForecastSheet {
  private readonly waterC: Float32Array;
  private readonly water7dMeanC: Float32Array;
  private readonly iceCm: Float32Array;
  private readonly airC: Float32Array;
  private readonly p10C: Float64Array;
  private readonly p50C: Float64Array;
  private readonly p90C: Float64Array;
  private readonly median7dMeanC: Float64Array;
  private readonly weatherC2: Float32Array;
  private readonly modelC2: Float32Array;
  private readonly thermometerC2: Float32Array;
  private readonly recent: Float64Array;
  private readonly recentSum: Float64Array;
  private readonly means: Float64Array;
  private seen = 0;

  constructor(
    private readonly firstDay: CivilDay,
    private readonly days: number,
    private readonly traces: number,
  ) {
    this.waterC = new Float32Array(days * traces);
    this.water7dMeanC = new Float32Array(days * traces);
    this.iceCm = new Float32Array(days * traces);
    this.airC = new Float32Array(days * traces);
    this.p10C = new Float64Array(days);
    this.p50C = new Float64Array(days);
    this.p90C = new Float64Array(days);
    this.median7dMeanC = new Float64Array(days);
    this.weatherC2 = new Float32Array(days);
    this.modelC2 = new Float32Array(days);
    this.thermometerC2 = new Float32Array(days);
    this.recent = new Float64Array(MEAN_DAYS * traces);
    this.recentSum = new Float64Array(traces);
    this.means = new Float64Array(traces);
  }

  /** Notes today's traces; before the first asked day they only enter the trailing mean. */
  write(dayIndex: number, ensemble: Ensemble): void {
    if (dayIndex <= -MEAN_DAYS) return;
    const { days, traces, recent, recentSum, means } = this;
    const slot = (this.seen++ % MEAN_DAYS) * traces;
    for (let trace = 0; trace < traces; trace++) {
      const waterC = ensemble.waterC[trace] as number;
      recentSum[trace]! += waterC - (recent[slot + trace] as number);
      recent[slot + trace] = waterC;
      if (dayIndex < 0) continue;
      const at = trace * days + dayIndex;
      means[trace] = (recentSum[trace] as number) / MEAN_DAYS;
      this.waterC[at] = waterC;
      this.water7dMeanC[at] = means[trace] as number;
      this.iceCm[at] = ensemble.iceCm[trace] as number;
      this.airC[at] = ensemble.airC[trace] as number;
    }
    if (dayIndex < 0) return;
    ensemble.sortWater();
    this.p10C[dayIndex] = ensemble.waterQuantile(0.1);
    this.p50C[dayIndex] = ensemble.waterQuantile(0.5);
    this.p90C[dayIndex] = ensemble.waterQuantile(0.9);
    this.median7dMeanC[dayIndex] = ensemble.medianOf(means);
    this.weatherC2[dayIndex] = ensemble.weatherVariance;
    this.modelC2[dayIndex] = ensemble.modelVariance;
    this.thermometerC2[dayIndex] = ensemble.thermometerVariance;
  }

  asForecast(): WaterForecast {
    const { firstDay, days, traces, waterC, water7dMeanC, iceCm, airC, p10C, p50C, p90C, median7dMeanC } = this;
    const { weatherC2, modelC2, thermometerC2 } = this;
    const band = { weatherC2, modelC2, thermometerC2 };
    return { firstDay, days, traces, waterC, water7dMeanC, iceCm, airC, p10C, p50C, p90C, median7dMeanC, band };
  }
}
