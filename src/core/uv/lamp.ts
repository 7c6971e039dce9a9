import { requireWithin } from '../errors.js';

/** Rated life and output at its end where the plate says nothing (from memory; 5,000 to 12,000 h, 0.65 to 0.85). */
export const LAMP_RATED_HOURS = 9000;
export const LAMP_END_OUTPUT_SHARE = 0.8;

/**
 * Output of a low-pressure lamp by its hours, as a share of new; falls evenly to the end share and stays there. [-]
 *   f = 1 - (1 - end) min(h / rated, 1)
 * 4,500 of 9,000 h at an end share of 0.8: 0.90. The blue glow tells nothing.
 * @param lamp.lampRunHours 0 to 1,000,000. [h]
 * @param lamp.lampRatedHours 100 to 100,000; 9,000 when left out. [h]
 * @param lamp.lampEndOutputShare 0.3 to 1; 0.8 when left out. [-]
 * @see Common practice.
 */
export function lampOutputShare(lamp: {
  lampRunHours: number;
  lampRatedHours?: number;
  lampEndOutputShare?: number;
}): number {
  const { lampRunHours, lampRatedHours = LAMP_RATED_HOURS, lampEndOutputShare = LAMP_END_OUTPUT_SHARE } = lamp;
  requireWithin('lamp hours, h', lampRunHours, { min: 0, max: 1_000_000 });
  requireWithin('rated lamp hours, h', lampRatedHours, { min: 100, max: 100_000 });
  requireWithin('output at the end of lamp life, share', lampEndOutputShare, { min: 0.3, max: 1 });
  return 1 - (1 - lampEndOutputShare) * Math.min(lampRunHours / lampRatedHours, 1);
}

/**
 * Dose one pass through a lamp chamber gives. [mJ/cm²]
 *   dose = I x water x lamp x sleeve x V / Q, with V / Q in seconds
 * 8 mW/cm², water factor 0.9, 1.5 L at 6,000 L/h: 6.5. It tells of one pass; clearing green water is not proved by it.
 * @param pass.intensityMwPerCm2 Mean intensity of a new lamp in clear water, 0 to 1,000. [mW/cm²]
 * @param pass.chamberVolumeL 0.01 to 1,000. [L]
 * @param pass.flowLPerH 1 to 1,000,000. [L/h]
 * @param pass.waterFactor `uvWaterFactor`; 1 when left out. [-]
 * @param pass.lampOutputShare `lampOutputShare`; 1 when left out. [-]
 * @param pass.sleeveFactor Light the sleeve lets through, 1 clean, less when scaled; 1 when left out. [-]
 */
export function uvDoseMjPerCm2(pass: {
  intensityMwPerCm2: number;
  chamberVolumeL: number;
  flowLPerH: number;
  waterFactor?: number;
  lampOutputShare?: number;
  sleeveFactor?: number;
}): number {
  const { waterFactor = 1, lampOutputShare: outputShare = 1, sleeveFactor = 1 } = pass;
  requireWithin('UV intensity, mW/cm²', pass.intensityMwPerCm2, { min: 0, max: 1000 });
  requireWithin('lamp chamber, L', pass.chamberVolumeL, { min: 0.01, max: 1000 });
  requireWithin('flow, L/h', pass.flowLPerH, { min: 1, max: 1_000_000 });
  requireWithin('water factor, share', waterFactor, { min: 0, max: 1 });
  requireWithin('lamp output, share', outputShare, { min: 0, max: 1 });
  requireWithin('light through the sleeve, share', sleeveFactor, { min: 0, max: 1 });

  const exposureS = (pass.chamberVolumeL / pass.flowLPerH) * 3600;
  return pass.intensityMwPerCm2 * waterFactor * outputShare * sleeveFactor * exposureS;
}

/**
 * Mean light left over a path through absorbing water. [-]
 *   (1 - e^(-a l)) / (a l), a = -ln(transmittance of 1 cm)
 * Transmittance 0.90 over 2 cm: 0.902.
 * @param water.transmittancePerCm 0.01 to 1. [-]
 * @param water.pathCm 0 to 100. [cm]
 */
export function uvWaterFactor(water: { transmittancePerCm: number; pathCm: number }): number {
  requireWithin('UV transmittance of 1 cm, share', water.transmittancePerCm, { min: 0.01, max: 1 });
  requireWithin('path through the water, cm', water.pathCm, { min: 0, max: 100 });
  const absorbance = -Math.log(water.transmittancePerCm) * water.pathCm;
  return absorbance < 1e-9 ? 1 : (1 - Math.exp(-absorbance)) / absorbance;
}

/**
 * How often a day the whole pond passes the lamp, on the mean. One turnover an hour: 24. [per day]
 * @param circuit.flowLPerH Through the lamp, 0 to 1,000,000. [L/h]
 * @param circuit.volumeL 1 to 10,000,000. [L]
 */
export function uvPassesPerDay(circuit: { flowLPerH: number; volumeL: number }): number {
  requireWithin('flow, L/h', circuit.flowLPerH, { min: 0, max: 1_000_000 });
  requireWithin('pond volume, L', circuit.volumeL, { min: 1, max: 10_000_000 });
  return (24 * circuit.flowLPerH) / circuit.volumeL;
}

/** Most that eyes and skin may get of 254 nm light in eight hours (published source: CIE 187:2010). [mJ/cm²] */
const EYE_LIMIT_MJ_PER_CM2 = 6;

/**
 * How long a bare lamp may shine on eyes or skin before the day's limit is reached. [s]
 * 1 mW/cm²: 6 s. Never power a lamp outside its housing.
 * @param light.intensityMwPerCm2 Where the person is, 0.0001 to 1,000. [mW/cm²]
 * @see CIE 187:2010, abstract; the value of ACGIH and ICNIRP (published source).
 */
export function uvEyeLimitS(light: { intensityMwPerCm2: number }): number {
  requireWithin('UV intensity, mW/cm²', light.intensityMwPerCm2, { min: 0.0001, max: 1000 });
  return EYE_LIMIT_MJ_PER_CM2 / light.intensityMwPerCm2;
}
