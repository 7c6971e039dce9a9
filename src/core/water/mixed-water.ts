import { requireWithin } from '../errors.js';
import { type CarbonateSample, inorganicCarbonMmolPerL, phOf } from './carbonate.js';
import { mixedTemperatureC } from './water-change.js';

/** Largest change of pH by one water change: aimed at, and never passed (common practice). [-] */
export const LARGEST_PH_STEP = 0.3;
export const HARD_PH_STEP = 0.5;

/** How finely the share is searched, and halvings after that. */
const SHARE_STEP = 0.01;
const HALVINGS = 40;

export interface MixedWater extends CarbonateSample {
  readonly inorganicCarbonMmolPerL: number;
  /** The new pH less the old one. [-] */
  readonly phStep: number;
}

/**
 * What a pond becomes when a share of it is replaced: temperature, alkalinity and inorganic carbon mix in proportion, the
 * pH follows from the two (it does not mix in proportion itself).
 * An estimate before the air has its say: gas given off afterwards raises the pH, so read it again.
 * @param change.changeShare 0 to 1. [-]
 * @see `inorganicCarbonMmolPerL`; mass balance (derived).
 */
export function mixedWater(change: {
  pond: CarbonateSample;
  source: CarbonateSample;
  changeShare: number;
}): MixedWater {
  const { pond, source, changeShare } = change;
  requireWithin('change, share', changeShare, { min: 0, max: 1 });
  const mix = (old: number, added: number) => (1 - changeShare) * old + changeShare * added;
  const temperatureC = mixedTemperatureC({
    pondTemperatureC: pond.temperatureC,
    sourceTemperatureC: source.temperatureC,
    changeShare,
  });
  const alkalinityMgCaCO3PerL = mix(pond.alkalinityMgCaCO3PerL, source.alkalinityMgCaCO3PerL);
  const carbonMmolPerL = mix(inorganicCarbonMmolPerL(pond), inorganicCarbonMmolPerL(source));
  const ph = phOf({ temperatureC, alkalinityMgCaCO3PerL, inorganicCarbonMmolPerL: carbonMmolPerL });
  return { temperatureC, alkalinityMgCaCO3PerL, ph, inorganicCarbonMmolPerL: carbonMmolPerL, phStep: ph - pond.ph };
}

/**
 * The largest share up to which no change moves the pH by more than a step. [-]
 * The first crossing counts: between it and a whole change the pH may come back, yet nobody should pass through.
 * @param change.largestPhStep 0.05 to 0.5; 0.3 when left out. [-]
 */
export function largestChangeShareByPh(change: {
  pond: CarbonateSample;
  source: CarbonateSample;
  largestPhStep?: number;
}): number {
  const { pond, source, largestPhStep = LARGEST_PH_STEP } = change;
  requireWithin('largest change of pH', largestPhStep, { min: 0.05, max: HARD_PH_STEP });
  const isWithin = (changeShare: number) => Math.abs(mixedWater({ pond, source, changeShare }).phStep) <= largestPhStep;

  let within = 0;
  for (let step = 1; step <= Math.round(1 / SHARE_STEP); step++) {
    const share = Math.min(1, step * SHARE_STEP);
    if (!isWithin(share)) return firstBeyond(within, share, isWithin);
    within = share;
  }
  return 1;
}

function firstBeyond(within: number, beyond: number, isWithin: (share: number) => boolean): number {
  let [low, high] = [within, beyond];
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (low + high) / 2;
    if (isWithin(middle)) low = middle;
    else high = middle;
  }
  return low;
}
