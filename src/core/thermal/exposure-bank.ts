/**
 * What no data could settle of a pond, learned from its readings: wind over the water, shade, the waterfall's approach to
 * the wet bulb and the conductivity of the ground. A bank of candidates runs beside the forecast, each with its own water
 * and its own filter; the likelihood of the readings so far decides (sequential Bayes over several models; climate
 * handbook 10.1, spreads of the prior derived there). Readings of one season cannot part wind from shade: until four
 * readings lie at least a season apart nothing is taken over, and afterwards the prior holds both near what was told.
 */
import { effectiveDepthM } from './effective-depth.js';
import { GROUND_CONDUCTIVITY_W_PER_M_K, groundOf } from './ground-heat.js';
import { smallPondFactor } from './heat-balance.js';
import { type DayWeather, PondForcing } from './pond-forcing.js';
import {
  advanceModelError,
  fadingErrorSdC,
  type ModelErrorState,
  priorModelError,
  READING_NOISE_SD_C,
  takeReading,
  totalVariance,
} from './readings-correction.js';
import { type ColumnSetting, WaterColumns } from './water-columns.js';
import type { PondHeat, WaterReading } from './water-forecast.js';
import { WATERFALL_APPROACH, waterfallExchangeWPerM2K } from './waterfall.js';

export const FEWEST_READINGS = 4;
/** First to last reading. [d] */
const SEASON_DAYS = 90;
/** Once wind and shade are free, less is left to a static offset. [°C] */
const OFFSET_SD_OF_CANDIDATE_C = 1.0;
/** How much likelier (natural logarithm) another exposure must be before it is taken over: keeps forecasts from fluttering. */
const MARGIN = 1;

const LN_WIND_SD = 0.6;
const SHADE_SD = 0.2;
const LN_GROUND_SD = 0.7;
const APPROACH_SD = 0.05;
const LN_WIND_STEPS = [-1.5, -0.75, 0, 0.75, 1.5] as const;
const SHADE_STEPS = [-0.3, -0.15, 0, 0.15, 0.3] as const;
const MOST_SHADE = 0.9;
const WIND_RANGE_M_PER_S = { min: 0.3, max: 12 } as const;

/** One guess of what a pond is exposed to. */
export class ExposureCandidate {
  readonly setting: ColumnSetting;
  readonly modelError: ModelErrorState;
  /** Natural logarithm of prior times likelihood, up to a constant. */
  logWeight: number;
  private readonly column: WaterColumns;
  private readonly forcing = new PondForcing();
  private readonly windFactor: number;

  constructor(
    readonly pond: PondHeat,
    yearMeanC: number,
    offsetSdC: number,
    /** Wind of this candidate over the wind told. */
    readonly windShare: number,
    logPrior: number,
  ) {
    const depthM = effectiveDepthM(pond);
    this.setting = columnSettingOf(pond, yearMeanC);
    this.column = new WaterColumns(1, this.setting);
    this.modelError = priorModelError(offsetSdC, fadingErrorSdC(depthM));
    this.windFactor = smallPondFactor(pond);
    this.logWeight = logPrior;
  }

  /** Water of this candidate without its error. [°C] */
  get balanceC(): number {
    return this.column.balanceC[0] as number;
  }

  get hasIce(): boolean {
    return (this.column.iceM[0] as number) > 0;
  }

  advance(airC: number, weather: DayWeather): void {
    if (!Number.isNaN(this.balanceC)) advanceModelError(this.modelError);
    this.forcing.fill(weather, this.pond, this.windFactor, this.windShare);
    this.column.advance(0, airC, weather, this.forcing);
  }

  weigh(reading: WaterReading, weatherVariance: number): void {
    const variance = totalVariance(this.modelError) + weatherVariance + READING_NOISE_SD_C ** 2;
    const { verdict } = takeReading(this.modelError, reading, this.balanceC, weatherVariance);
    const surprise = Math.min(verdict.innovationC ** 2, verdict.limitC ** 2);
    this.logWeight -= 0.5 * (surprise / variance + Math.log(variance));
  }
}

export function columnSettingOf(pond: PondHeat, yearMeanC: number): ColumnSetting {
  return {
    effectiveDepthM: effectiveDepthM(pond),
    ground: groundOf(pond.groundConductivityWPerMK ?? GROUND_CONDUCTIVITY_W_PER_M_K.value),
    waterfallWPerM2K: waterfallExchangeWPerM2K(pond),
    yearMeanC,
  };
}

/** All candidates of one pond. */
export class ExposureBank {
  private readonly candidates: readonly ExposureCandidate[];
  private current: ExposureCandidate;
  private used = 0;
  private firstOn = Number.NaN;

  constructor(pond: PondHeat, yearMeanC: number, offsetSdC: number) {
    const offset = Math.min(offsetSdC, OFFSET_SD_OF_CANDIDATE_C);
    this.candidates = candidatePonds(pond).map(
      ({ changed, windShare, logPrior }) =>
        new ExposureCandidate({ ...pond, ...changed }, yearMeanC, offset, windShare, logPrior),
    );
    this.current = this.candidates[0] as ExposureCandidate;
  }

  advance(airC: number, weather: DayWeather): void {
    for (const candidate of this.candidates) candidate.advance(airC, weather);
  }

  /**
   * Weighs a believed reading of open water.
   * @returns the exposure to go on with where it is another than before, else null.
   */
  take(reading: WaterReading, weatherVariance: number): ExposureCandidate | null {
    if (Number.isNaN(this.firstOn)) this.firstOn = reading.on;
    this.used++;
    for (const candidate of this.candidates) {
      if (!candidate.hasIce) candidate.weigh(reading, weatherVariance);
    }
    if (this.used < FEWEST_READINGS || reading.on - this.firstOn < SEASON_DAYS) return null;
    const best = this.candidates.reduce((a, b) => (b.logWeight > a.logWeight ? b : a));
    if (best === this.current || best.logWeight < this.current.logWeight + MARGIN) return null;
    this.current = best;
    return best;
  }
}

interface Change {
  readonly changed: Partial<PondHeat>;
  readonly windShare: number;
  readonly logPrior: number;
}

/** Wind by shade in a grid, then falls and ground one at a time; the pond as told comes first. */
function candidatePonds(pond: PondHeat): Change[] {
  const told: Change = { changed: {}, windShare: 1, logPrior: 0 };
  const exposures = LN_WIND_STEPS.flatMap((windStep) => SHADE_STEPS.map((step) => exposed(pond, windStep, step)));
  const moved = exposures.filter(({ windShare, changed }) => windShare !== 1 || changed.shadeShare !== pond.shadeShare);
  return [told, ...withoutTwins(moved), ...otherGrounds(pond), ...otherFalls(pond)];
}

function exposed(pond: PondHeat, windStep: number, shadeStep: number): Change {
  const { min, max } = WIND_RANGE_M_PER_S;
  const toldMPerS = Math.max(min, pond.windAt2mMPerS);
  const windAt2mMPerS =
    windStep === 0
      ? pond.windAt2mMPerS
      : Math.min(Math.max(max, toldMPerS), Math.max(min, toldMPerS * Math.exp(LN_WIND_SD * windStep)));
  const shadeShare = Math.min(Math.max(MOST_SHADE, pond.shadeShare), Math.max(0, pond.shadeShare + shadeStep));
  const lnWind = Math.log(Math.max(min, windAt2mMPerS) / toldMPerS);
  return {
    changed: { windAt2mMPerS, shadeShare },
    windShare: Math.max(min, windAt2mMPerS) / toldMPerS,
    logPrior: -0.5 * ((lnWind / LN_WIND_SD) ** 2 + ((shadeShare - pond.shadeShare) / SHADE_SD) ** 2),
  };
}

/** Steps cut off by the range give the same pond twice. */
function withoutTwins(changes: readonly Change[]): Change[] {
  const byPond = new Map<string, Change>();
  for (const change of changes) {
    byPond.set(`${change.changed.windAt2mMPerS} ${change.changed.shadeShare}`, change);
  }
  return [...byPond.values()];
}

function otherGrounds(pond: PondHeat): Change[] {
  const toldWPerMK = pond.groundConductivityWPerMK ?? GROUND_CONDUCTIVITY_W_PER_M_K.value;
  if (toldWPerMK === 0) return [];
  return [-1, 1].map((step) => ({
    changed: {
      groundConductivityWPerMK: Math.min(GROUND_CONDUCTIVITY_W_PER_M_K.max, toldWPerMK * Math.exp(LN_GROUND_SD * step)),
    },
    windShare: 1,
    logPrior: -0.5 * step * step,
  }));
}

function otherFalls(pond: PondHeat): Change[] {
  if (pond.waterfallFlowLPerH === 0) return [];
  const told = pond.waterfallApproach ?? WATERFALL_APPROACH.value;
  const { min, max } = WATERFALL_APPROACH;
  return [min, (told + max) / 2, max]
    .filter((approach) => Math.abs(approach - told) > 0.005)
    .map((waterfallApproach) => ({
      changed: { waterfallApproach },
      windShare: 1,
      logPrior: -0.5 * ((waterfallApproach - told) / APPROACH_SD) ** 2,
    }));
}
