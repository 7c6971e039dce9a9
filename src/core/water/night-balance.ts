import { requireWithin } from '../errors.js';
import { aeratorExchange, type GasExchange, surfaceExchange } from './aeration.js';
import type { OxygenSample } from './oxygen.js';
import { type BottomLook, bottomUptakeMPerDay, type WaterLook, waterRespirationMgPerLH } from './pond-respiration.js';
import { type Waterfall, waterfallExchange } from './waterfall-aeration.js';

/** A well-mixed pond in the dark, and all that uses its oxygen or brings some in. */
export interface DarkPond extends OxygenSample {
  /** 1 to 10,000,000. [L] */
  readonly volumeL: number;
  /** Open surface, which stands for the bottom too. [m²] */
  readonly surfaceAreaM2: number;
  /** Fish, by `oxygenDemand`. [g/h] */
  readonly fishGPerH: number;
  /** Bacteria of the filter, by `nitrificationOxygenGPerDay`; 0 where the figure for fish is that of the feed. [g/h] */
  readonly filterGPerH: number;
  readonly waterLook: WaterLook;
  readonly bottomLook: BottomLook;
  /** Air that runs, catalogue figure; 0 for none. [g/h] */
  readonly aeratorStandardGPerH: number;
  /** A fall that runs, or null. */
  readonly waterfall: Waterfall | null;
  /** 0 under ice, 0.3 calm, 1.0 breezy. [m/day] */
  readonly transferVelocityMPerDay: number;
}

/** Where the oxygen of a night came from and went to. They close: end = start - uses + gains. [g] */
export interface NightBalance {
  readonly startG: number;
  readonly endG: number;
  readonly fishG: number;
  readonly filterG: number;
  readonly waterG: number;
  readonly bottomG: number;
  readonly aeratorG: number;
  readonly waterfallG: number;
  readonly surfaceG: number;
}

/** Uses at full oxygen, and the exchanges with the air. */
export interface NightRates {
  readonly volumeM3: number;
  readonly fishGPerH: number;
  readonly filterGPerH: number;
  readonly waterGPerH: number;
  readonly bottomM3PerH: number;
  readonly aerator: GasExchange;
  readonly waterfall: GasExchange;
  readonly surface: GasExchange;
}

/** The rates of a pond; everything is checked here. */
export function nightRates(pond: DarkPond): NightRates {
  requireWithin('pond volume, L', pond.volumeL, { min: 1, max: 10_000_000 });
  requireWithin('oxygen used by fish, g/h', pond.fishGPerH, { min: 0, max: 100_000 });
  requireWithin('oxygen used by the filter, g/h', pond.filterGPerH, { min: 0, max: 100_000 });
  const bottomMPerDay = bottomUptakeMPerDay({ look: pond.bottomLook, temperatureC: pond.temperatureC });
  return {
    volumeM3: pond.volumeL / 1000,
    fishGPerH: pond.fishGPerH,
    filterGPerH: pond.filterGPerH,
    waterGPerH:
      waterRespirationMgPerLH({ look: pond.waterLook, temperatureC: pond.temperatureC }) * (pond.volumeL / 1000),
    bottomM3PerH: (bottomMPerDay * pond.surfaceAreaM2) / 24,
    aerator: aeratorExchange({ ...pond, standardGPerH: pond.aeratorStandardGPerH }),
    waterfall: pond.waterfall
      ? waterfallExchange({ ...pond, ...pond.waterfall })
      : { perDeficitM3PerH: 0, towardsMgPerL: 0 },
    surface: surfaceExchange(pond),
  };
}

/** The same pond with all its uses larger or smaller; what air brings in stays. */
export function withUses(rates: NightRates, share: number): NightRates {
  return {
    ...rates,
    fishGPerH: rates.fishGPerH * share,
    filterGPerH: rates.filterGPerH * share,
    waterGPerH: rates.waterGPerH * share,
    bottomM3PerH: rates.bottomM3PerH * share,
  };
}

/** V dC/dt = gain - loss C. [g/h, m³/h] */
function linear(rates: NightRates): { gainGPerH: number; lossM3PerH: number } {
  const exchanges = [rates.aerator, rates.waterfall, rates.surface];
  const broughtIn = exchanges.reduce(
    (sum, { perDeficitM3PerH, towardsMgPerL }) => sum + perDeficitM3PerH * towardsMgPerL,
    0,
  );
  return {
    gainGPerH: broughtIn - rates.fishGPerH - rates.filterGPerH - rates.waterGPerH,
    lossM3PerH: exchanges.reduce((sum, { perDeficitM3PerH }) => sum + perDeficitM3PerH, rates.bottomM3PerH),
  };
}

/** (1 - exp(-x)) / x, the mean of a decay; 1 at 0. */
function meanDecay(x: number): number {
  return x === 0 ? 1 : -Math.expm1(-x) / x;
}

/** Concentration after hours in the dark, were it allowed below zero. [mg/L] */
export function concentrationAfter(rates: NightRates, fromMgPerL: number, hours: number): number {
  const { gainGPerH, lossM3PerH } = linear(rates);
  const x = (lossM3PerH * hours) / rates.volumeM3;
  const slopeMgPerLH = (gainGPerH - lossM3PerH * fromMgPerL) / rates.volumeM3;
  return fromMgPerL + slopeMgPerLH * hours * meanDecay(x);
}

/** Hours until a falling concentration reaches a limit; 0 when it is there, null when it never does. [h] */
export function hoursTo(rates: NightRates, fromMgPerL: number, limitMgPerL: number): number | null {
  if (fromMgPerL <= limitMgPerL && (fromMgPerL < limitMgPerL || slopeAt(rates, fromMgPerL) < 0)) return 0;
  const slopeNow = slopeAt(rates, fromMgPerL);
  const slopeThere = slopeAt(rates, limitMgPerL);
  if (slopeNow >= 0 || slopeThere >= 0) return null;
  const { lossM3PerH } = linear(rates);
  const perHour = lossM3PerH / rates.volumeM3;
  if (perHour === 0) return (fromMgPerL - limitMgPerL) / -slopeNow;
  return Math.log(slopeNow / slopeThere) / perHour;
}

function slopeAt(rates: NightRates, mgPerL: number): number {
  const { gainGPerH, lossM3PerH } = linear(rates);
  return (gainGPerH - lossM3PerH * mgPerL) / rates.volumeM3;
}

/** What each use took and each exchange brought, in the hours with oxygen and in those without. */
export function balanceOf(night: {
  rates: NightRates;
  duskMgPerL: number;
  dawnMgPerL: number;
  fallingH: number;
  emptyH: number;
}): NightBalance {
  const { rates, duskMgPerL, dawnMgPerL, fallingH, emptyH } = night;
  const { gainGPerH, lossM3PerH } = linear(rates);
  const x = (lossM3PerH * fallingH) / rates.volumeM3;
  const slope = (gainGPerH - lossM3PerH * duskMgPerL) / rates.volumeM3;
  /** Concentration summed over the hours in which there was any. [mg/L h] */
  const doseMgHPerL = duskMgPerL * fallingH + slope * fallingH ** 2 * meanOfMeanDecay(x);
  const gained = ({ perDeficitM3PerH, towardsMgPerL }: GasExchange) =>
    perDeficitM3PerH * (towardsMgPerL * (fallingH + emptyH) - doseMgHPerL);
  /** Of the water empty of oxygen, fish, filter and water share what comes in. */
  const wantedGPerH = rates.fishGPerH + rates.filterGPerH + rates.waterGPerH;
  const servedShare = wantedGPerH === 0 ? 0 : (gainGPerH + wantedGPerH) / wantedGPerH;
  const used = (gPerH: number) => gPerH * (fallingH + servedShare * emptyH);
  return {
    startG: duskMgPerL * rates.volumeM3,
    endG: dawnMgPerL * rates.volumeM3,
    fishG: used(rates.fishGPerH),
    filterG: used(rates.filterGPerH),
    waterG: used(rates.waterGPerH),
    bottomG: rates.bottomM3PerH * doseMgHPerL,
    aeratorG: gained(rates.aerator),
    waterfallG: gained(rates.waterfall),
    surfaceG: gained(rates.surface),
  };
}

/** Integral of t meanDecay over the time, by its square: (x - 1 + exp(-x)) / x²; 1/2 at 0. */
function meanOfMeanDecay(x: number): number {
  if (Math.abs(x) < 1e-4) return 0.5 - x / 6 + (x * x) / 24;
  return (x + Math.expm1(-x)) / (x * x);
}
