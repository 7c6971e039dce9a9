import { requireWithin } from '../errors.js';
import type { GasExchange } from './aeration.js';
import { type OxygenSample, oxygenSaturationMgPerL } from './oxygen.js';

/** Purity of the water: 1.8 clean, 1.6 slightly, 1.0 moderately, 0.65 grossly polluted. Fed ponds are taken as 1.0. [-] */
const POND_PURITY = 1;
/** Form of the edge: 0.8 a sharp crest over a vertical face; 0.7 to 0.9 a flat broad one, 1.05 a sloping face. [-] */
const FALL_FORM = 0.8;

export interface Waterfall {
  /** Drop of free fall, 0.05 to 3. [m] */
  readonly fallHeightM: number;
  /** 0 to 1,000,000. [L/h] */
  readonly flowLPerH: number;
  /** 0.65 to 1.8; 1.0 when left out. [-] */
  readonly purity?: number;
  /** 0.05 to 1.05; 0.8 when left out. [-] */
  readonly form?: number;
}

/**
 * How many times smaller the oxygen deficit of water is after a fall. [-]
 *   r = 1 + 0.38 a b h (1 - 0.11 h)(1 + 0.046 T)
 * Half a metre at 25 °C: 1.31, so about a quarter of the deficit is made good on each pass. Made for river weirs, where
 * the sheet is thick: a thin sheet over stones does better. Higher falls than 3 m throw.
 * @see Butts & Evans (1983) (published source, quoted by the theory of a river model); purity and form as named there.
 */
export function fallDeficitRatio(fall: Omit<Waterfall, 'flowLPerH'> & { readonly temperatureC: number }): number {
  const { fallHeightM, temperatureC, purity = POND_PURITY, form = FALL_FORM } = fall;
  requireWithin('height of the fall, m', fallHeightM, { min: 0.05, max: 3 });
  requireWithin('water temperature, °C', temperatureC, { min: 0, max: 40 });
  requireWithin('purity of the water', purity, { min: 0.65, max: 1.8 });
  requireWithin('form of the fall', form, { min: 0.05, max: 1.05 });
  return 1 + 0.38 * purity * form * fallHeightM * (1 - 0.11 * fallHeightM) * (1 + 0.046 * temperatureC);
}

/** The fall as an exchange of the pond with the air: its flow times the part of the deficit made good. */
export function waterfallExchange(fall: Waterfall & OxygenSample): GasExchange {
  requireWithin('flow over the fall, L/h', fall.flowLPerH, { min: 0, max: 1_000_000 });
  return {
    perDeficitM3PerH: (fall.flowLPerH / 1000) * (1 - 1 / fallDeficitRatio(fall)),
    towardsMgPerL: oxygenSaturationMgPerL(fall),
  };
}
