import type { CivilDay } from '../units/civil-day.js';

/** What the heat balance needs to know of a pond. */
export interface PondHeat {
  readonly latitude: number;
  readonly elevationM: number;
  readonly surfaceAreaM2: number;
  /** Volume over area; see `effectiveDepthM`. */
  readonly meanDepthM: number;
  /** Share of the sun kept off, 0 to 0.9. */
  readonly shadeShare: number;
  /** Mean wind over this water. */
  readonly windAt2mMPerS: number;
  /** Flow over a waterfall, 0 where there is none. */
  readonly waterfallFlowLPerH: number;
  /** Share of the way to the wet bulb that falling water comes; see `WATERFALL_APPROACH`. */
  readonly waterfallApproach?: number;
  /** See `GROUND_CONDUCTIVITY_W_PER_M_K`. */
  readonly groundConductivityWPerMK?: number;
}

/** One thermometer reading, assigned to its civil day in the pond's zone. */
export interface WaterReading {
  readonly on: CivilDay;
  readonly waterTemperatureC: number;
}

/** What became of a reading. */
export interface ReadingVerdict {
  readonly reading: WaterReading;
  /** `rejected`: too far from what was expected, ask for it again; `under-ice`: tells nothing of the open water. */
  readonly verdict: 'used' | 'rejected' | 'under-ice';
  /** Reading less expectation. [°C] */
  readonly innovationC: number;
  /** Largest difference that would have been believed. [°C] */
  readonly limitC: number;
}

/** One day of measured air; what is null comes from the climate. */
export interface DailyAir {
  readonly on: CivilDay;
  readonly airTemperatureC: number;
  readonly airTemperatureMinC: number | null;
  readonly airTemperatureMaxC: number | null;
  readonly solarMjPerM2: number | null;
  readonly windMPerS: number | null;
  readonly relativeHumidityPct: number | null;
  /** Rain, or snow as water; it cools or warms open water by itself. [mm] */
  readonly precipitationMm?: number | null;
}

/** What keeps sun and wind off, as the forecast used it at its end. */
export interface LearnedExposure {
  readonly windAt2mMPerS: number;
  readonly shadeShare: number;
  /** Whether readings moved it from what was told. */
  readonly isLearned: boolean;
}

/** What is unknown of each day, by where it comes from. Variances; each may be 0. [days, °C2] */
export interface BandVariances {
  readonly weatherC2: Float32Array;
  /** The model's error that a perfect thermometer at the same readings would leave. */
  readonly modelC2: Float32Array;
  /** What the errors of the real thermometer add to it. */
  readonly thermometerC2: Float32Array;
}

/** A pond's daily water, as an ensemble of equally likely traces. Row-major: trace by trace, day by day. */
export interface WaterForecast {
  readonly firstDay: CivilDay;
  readonly days: number;
  readonly traces: number;
  /** Daily mean water temperature. [traces x days, °C] */
  readonly waterC: Float32Array;
  /** Trailing 7-day mean of it; the first days use the days before `firstDay` as well. [traces x days, °C] */
  readonly water7dMeanC: Float32Array;
  /** Ice thickness. [traces x days, cm] */
  readonly iceCm: Float32Array;
  /** Daily mean air temperature behind each trace. [traces x days, °C] */
  readonly airC: Float32Array;
  /** Quantiles over the traces of the daily mean. [days, °C] */
  readonly p10C: Float64Array;
  readonly p50C: Float64Array;
  readonly p90C: Float64Array;
  /** Median over the traces of the trailing 7-day mean. [days, °C] */
  readonly median7dMeanC: Float64Array;
  /** What became of the readings handed in, in the order of their days; absent where the forecast was not computed. */
  readonly readings?: readonly ReadingVerdict[];
  readonly band?: BandVariances;
  readonly exposure?: LearnedExposure;
}

/** When a threshold is crossed, over the traces. */
export interface CrossingDates {
  /** Share of traces in which the crossing happens inside the window. */
  readonly share: number;
  /** Quantiles of the date over the traces that cross; null when fewer than half do. */
  readonly p10: CivilDay | null;
  readonly p50: CivilDay | null;
  readonly p90: CivilDay | null;
  /** Why there is no date. Never 1 January. */
  readonly none: 'always-above' | 'always-below' | null;
}
