import { InvalidValueError, requireWithin } from '../errors.js';

/** The most salt the product ever proposes, the volume test included (common practice). [g/L] */
export const LARGEST_PROPOSED_SALINITY_G_PER_L = 1;

/** Rise a volume test aims at, and the least it can work with: there a meter of 0.05 g/L errs by 24 %. [g/L] */
const TEST_RISE_G_PER_L = 0.8;
const SMALLEST_TEST_RISE_G_PER_L = 0.3;
/** Usual errors of a kitchen scale and of a pocket salt meter (common practice). [%, g/L] */
const SCALE_SIGMA_PCT = 2;
const METER_SIGMA_G_PER_L = 0.05;

const VOLUME_RANGE_L = { min: 1, max: 10_000_000 } as const;
const SALINITY_RANGE_G_PER_L = { min: 0, max: 40 } as const;

/**
 * Salt that raises a volume by a salinity: plain arithmetic for an amount a person has decided on. [g]
 * 100 US gallons by 1 g/L: 379 g. For what the product itself proposes see `proposedSaltG`.
 * @param dose.salinityRiseGPerL Rise, a difference, 0 to 10. [g/L]
 */
export function saltG(dose: { volumeL: number; salinityRiseGPerL: number }): number {
  requireWithin('pond volume, L', dose.volumeL, VOLUME_RANGE_L);
  requireWithin('rise of salinity, g/L', dose.salinityRiseGPerL, { min: 0, max: 10 });
  return dose.volumeL * dose.salinityRiseGPerL;
}

/**
 * Salt the product proposes, from a measured salinity to a target of at most 1.0 g/L; 0 when the target is met. [g]
 * Throws above that: more salt is a decision of a person, never a proposal. Not for ponds with turtles, zeolite or
 * plants that salt harms; the caller sees to that.
 */
export function proposedSaltG(dose: { volumeL: number; salinityGPerL: number; targetSalinityGPerL: number }): number {
  requireWithin('salinity, g/L', dose.salinityGPerL, SALINITY_RANGE_G_PER_L);
  requireWithin('target salinity, g/L', dose.targetSalinityGPerL, { min: 0, max: LARGEST_PROPOSED_SALINITY_G_PER_L });
  const salinityRiseGPerL = Math.max(0, dose.targetSalinityGPerL - dose.salinityGPerL);
  return saltG({ volumeL: dose.volumeL, salinityRiseGPerL });
}

/** Days over which any rise of salinity is spread at least (common practice). */
export const LEAST_SALT_DAYS = 3;

/**
 * The equal parts in which salt goes in, dissolved first, one a day. [g]
 * 36 kg: 12 kg on each of three days.
 * @param dose.days 3 to 60; 3 when left out.
 */
export function dailySaltG(dose: { saltG: number; days?: number }): number {
  const { days = LEAST_SALT_DAYS } = dose;
  requireWithin('salt, g', dose.saltG, { min: 0, max: 100_000_000 });
  requireWithin('days of salting', days, { min: LEAST_SALT_DAYS, max: 60 });
  return dose.saltG / days;
}

/** Salt that leaves with changed water; evaporation takes none. [g] */
export function saltLostByChangeG(change: { volumeL: number; salinityGPerL: number; changeShare: number }): number {
  requireWithin('pond volume, L', change.volumeL, VOLUME_RANGE_L);
  requireWithin('salinity, g/L', change.salinityGPerL, SALINITY_RANGE_G_PER_L);
  requireWithin('change, share', change.changeShare, { min: 0, max: 1 });
  return change.volumeL * change.salinityGPerL * change.changeShare;
}

/** Conductivity of pond salt at 25 °C: 2 µS/cm for each mg/L, 1.9 to 2.1 (from memory). [µS/cm per g/L] */
const CONDUCTIVITY_PER_SALINITY = 2000;

/**
 * Rise of salinity from a rise of conductivity at 25 °C, where salt was all that was added. [g/L]
 * 1,600 µS/cm: 0.8 g/L.
 * @param rise.conductivityUSPerCm A difference, 0 to 20,000. [µS/cm]
 */
export function salinityRiseGPerL(rise: { conductivityUSPerCm: number }): number {
  requireWithin('rise of conductivity, µS/cm', rise.conductivityUSPerCm, { min: 0, max: 20_000 });
  return rise.conductivityUSPerCm / CONDUCTIVITY_PER_SALINITY;
}

/** A volume found by weighing salt in and reading the salinity before and after. */
export interface SaltVolume {
  readonly volumeL: number;
  readonly method: 'salt-dilution';
  /** One standard deviation. [%] */
  readonly volumeSigmaPct: number;
}

/**
 * Pond volume by salt dilution, with its error.
 *   V = m / dS        sigma_V / V = sqrt( (sigma_m / m)^2 + 2 (sigma_S / dS)^2 )
 * 10 kg that take the salinity from 1.2 to 2.0 g/L: 12.5 m³. Fully mixed water is taken for granted.
 * @param test.saltKg Salt dissolved in it, more than 0. [kg]
 * @param test.saltSigmaPct Error of the weighing, 2 when left out. [%]
 * @param test.meterSigmaGPerL Error of one salinity reading, 0.05 when left out. [g/L]
 * @see Propagation of errors (derived).
 */
export function saltVolume(test: {
  saltKg: number;
  salinityBeforeGPerL: number;
  salinityAfterGPerL: number;
  saltSigmaPct?: number;
  meterSigmaGPerL?: number;
}): SaltVolume {
  const { saltKg, saltSigmaPct = SCALE_SIGMA_PCT, meterSigmaGPerL = METER_SIGMA_G_PER_L } = test;
  requireWithin('salt, kg', saltKg, { min: 0.01, max: 10_000 });
  requireWithin('salinity before, g/L', test.salinityBeforeGPerL, SALINITY_RANGE_G_PER_L);
  requireWithin('salinity after, g/L', test.salinityAfterGPerL, SALINITY_RANGE_G_PER_L);
  requireWithin('error of the weighing, %', saltSigmaPct, { min: 0, max: 50 });
  requireWithin('error of the salt meter, g/L', meterSigmaGPerL, { min: 0, max: 1 });

  const riseGPerL = test.salinityAfterGPerL - test.salinityBeforeGPerL;
  if (riseGPerL <= meterSigmaGPerL || riseGPerL < 0.01) {
    throw new InvalidValueError(
      'salinity after, g/L',
      test.salinityAfterGPerL,
      `It must be more than the meter can err above the ${test.salinityBeforeGPerL} g/L before. Mix longer and read again.`,
    );
  }
  const sigmaShare = Math.sqrt((saltSigmaPct / 100) ** 2 + 2 * (meterSigmaGPerL / riseGPerL) ** 2);
  return { volumeL: (saltKg * 1000) / riseGPerL, method: 'salt-dilution', volumeSigmaPct: sigmaShare * 100 };
}

/**
 * Salt for a volume test: the rise is 0.8 g/L, or what is left below 1.0 g/L. [g]
 * Throws where less than 0.3 g/L is left: such a test shows nothing.
 */
export function saltForVolumeTestG(test: { volumeL: number; salinityGPerL: number }): number {
  requireWithin('salinity, g/L', test.salinityGPerL, SALINITY_RANGE_G_PER_L);
  const riseGPerL = Math.min(TEST_RISE_G_PER_L, LARGEST_PROPOSED_SALINITY_G_PER_L - test.salinityGPerL);
  if (riseGPerL < SMALLEST_TEST_RISE_G_PER_L) {
    throw new InvalidValueError(
      'salinity, g/L',
      test.salinityGPerL,
      'Too salty for a volume test, which needs a rise of 0.3 and may not pass 1.0 g/L. Meter the next fill instead.',
    );
  }
  return saltG({ volumeL: test.volumeL, salinityRiseGPerL: riseGPerL });
}
