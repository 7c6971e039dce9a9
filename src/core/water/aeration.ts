import { requireWithin } from '../errors.js';
import { type OxygenSample, oxygenSaturationMgPerL } from './oxygen.js';

/** A catalogue rates an aerator in clean water of this temperature without oxygen, at sea level. [°C] */
const RATED_AT_C = 20;
/** Growth of the transfer per °C (published source). [-] */
export const TRANSFER_THETA = 1.024;
/** Transfer and saturation of pond water over those of clean water (from memory). [-] */
export const POND_TRANSFER_ALPHA = 0.85;
export const POND_SATURATION_BETA = 0.98;
/** Oxygen in a litre of air at 20 °C: 0.2315 x 1.204 (derived). [g/L] */
const OXYGEN_G_PER_L_AIR = 0.2787;

/** The water an aerator stands in. */
export interface AeratedWater extends OxygenSample {
  /** Transfer in this water over clean water, 0.3 to 1.1; 0.85 when left out. [-] */
  readonly alpha?: number;
  /** Saturation of this water over clean water, 0.8 to 1; 0.98 when left out. [-] */
  readonly beta?: number;
}

/**
 * Oxygen an aerator really delivers, from what it delivers under standard conditions. [g/h]
 *   OTR = SOTR alpha 1.024^(T - 20) (beta Cp - C) / Cs(20)
 * A catalogue kilogram an hour is 326 g at 25 °C in water that holds 5 mg/L, and 124 g at 30 °C and 1600 m. Below zero
 * where the water holds more than it can: then the aerator drives oxygen out.
 * @param aerator.standardGPerH Catalogue figure, 0 to 100,000. [g/h]
 * @param aerator.dissolvedOxygenMgPerL Oxygen of the water it works in, 0 to 40. [mg/L]
 * @see ASCE 2-91 (published source, quoted by a calculator); alpha 0.7 to 0.95 and beta from memory.
 */
export function fieldTransferGPerH(
  aerator: AeratedWater & { readonly standardGPerH: number; readonly dissolvedOxygenMgPerL: number },
): number {
  requireWithin('dissolved oxygen, mg/L', aerator.dissolvedOxygenMgPerL, { min: 0, max: 40 });
  const { perDeficitM3PerH, towardsMgPerL } = aeratorExchange(aerator);
  return perDeficitM3PerH * (towardsMgPerL - aerator.dissolvedOxygenMgPerL);
}

/** Exchange of a pond with the air, as a flow of water that is brought to a concentration. */
export interface GasExchange {
  /** [m³/h] */
  readonly perDeficitM3PerH: number;
  /** [mg/L] */
  readonly towardsMgPerL: number;
}

/** The same aerator as an exchange: transfer is this flow times what is missing to `towardsMgPerL`. */
export function aeratorExchange(aerator: AeratedWater & { readonly standardGPerH: number }): GasExchange {
  const { standardGPerH, alpha = POND_TRANSFER_ALPHA, beta = POND_SATURATION_BETA } = aerator;
  requireWithin('standard transfer, g/h', standardGPerH, { min: 0, max: 100_000 });
  requireWithin('alpha of the aerator', alpha, { min: 0.3, max: 1.1 });
  requireWithin('beta of the water', beta, { min: 0.8, max: 1 });
  const warmth = TRANSFER_THETA ** (aerator.temperatureC - RATED_AT_C);
  return {
    perDeficitM3PerH: (standardGPerH * alpha * warmth) / oxygenSaturationMgPerL({ temperatureC: RATED_AT_C }),
    towardsMgPerL: beta * oxygenSaturationMgPerL(aerator),
  };
}

/** Taken up on each metre of rise where nobody knows the stones: between coarse and fine (from memory). [%/m] */
export const UNKNOWN_BUBBLES_PCT_PER_M = 3;

/**
 * Standard transfer of an air pump with a diffuser. [g/h]
 *   q 60 0.2787 e D
 * 60 L/min at 0.8 m and 3 % a metre: 24.1.
 * @param pump.airLPerMin Air really moved at that depth, 0 to 10,000. [L/min]
 * @param pump.depthM Water over the diffuser, 0.05 to 10. [m]
 * @param pump.efficiencyPctPerM Oxygen taken up on each metre of rise: 1.5 to 3 coarse bubbles, 4 to 7 fine ones (from
 *        memory); 0.5 to 10. [%/m]
 * @see Composition of air (derived).
 */
export function airPumpStandardGPerH(pump: { airLPerMin: number; depthM: number; efficiencyPctPerM: number }): number {
  requireWithin('air, L/min', pump.airLPerMin, { min: 0, max: 10_000 });
  requireWithin('depth of the diffuser, m', pump.depthM, { min: 0.05, max: 10 });
  requireWithin('oxygen taken up, % per m', pump.efficiencyPctPerM, { min: 0.5, max: 10 });
  return pump.airLPerMin * 60 * OXYGEN_G_PER_L_AIR * (pump.efficiencyPctPerM / 100) * pump.depthM;
}

/** Transfer velocity of a still surface, from calm to breezy (from memory). [m/day] */
export const CALM_TRANSFER_VELOCITY_M_PER_DAY = 0.3;
export const BREEZY_TRANSFER_VELOCITY_M_PER_DAY = 1;

/**
 * Exchange through the open surface.        flux = k A (Cp - C)
 * A calm 10 m² that lack 3 mg/L gain 9 g a day; ice stops it.
 * @param surface.surfaceAreaM2 Open surface, 0 to 1,000,000. [m²]
 * @param surface.transferVelocityMPerDay 0 to 5; 0.3 calm, 1.0 breezy. [m/day]
 * @see Two-film theory; velocities from memory.
 */
export function surfaceExchange(
  surface: OxygenSample & { readonly surfaceAreaM2: number; readonly transferVelocityMPerDay: number },
): GasExchange {
  requireWithin('open surface, m²', surface.surfaceAreaM2, { min: 0, max: 1_000_000 });
  requireWithin('transfer velocity, m/day', surface.transferVelocityMPerDay, { min: 0, max: 5 });
  return {
    perDeficitM3PerH: (surface.surfaceAreaM2 * surface.transferVelocityMPerDay) / 24,
    towardsMgPerL: oxygenSaturationMgPerL(surface),
  };
}

/** Oxygen through the open surface at a concentration; below zero when the water gives off. [g/day] */
export function surfaceTransferGPerDay(
  surface: Parameters<typeof surfaceExchange>[0] & { readonly dissolvedOxygenMgPerL: number },
): number {
  requireWithin('dissolved oxygen, mg/L', surface.dissolvedOxygenMgPerL, { min: 0, max: 40 });
  const { perDeficitM3PerH, towardsMgPerL } = surfaceExchange(surface);
  return 24 * perDeficitM3PerH * (towardsMgPerL - surface.dissolvedOxygenMgPerL);
}
