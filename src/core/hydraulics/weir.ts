import { requireWithin } from '../errors.js';

/** Francis's coefficient: 3.33 in feet is 1.838 in metres, commonly printed 1.84. [m^0.5/s] */
const FRANCIS_SI = 3.33 * Math.sqrt(0.3048);
const M3_PER_S_IN_L_PER_H = 3.6e6;
/** Rehbock's surface-tension term is added to the head. [m] */
const REHBOCK_ADDED_M = 0.00125;
const TWO_THIRDS_ROOT_2G = (2 / 3) * Math.sqrt(2 * 9.80665);

const CREST_RANGE_M = { min: 0.05, max: 20 } as const;

/** Flow a waterfall wants per metre of crest: 100 US gal/h to the inch is a plain sheet (common practice, 50 to 200). [L/h per m] */
export const SHEET_L_PER_H_PER_M = { thin: 7451, plain: 14_902, heavy: 26_078 } as const;
export type Sheet = keyof typeof SHEET_L_PER_H_PER_M;

/** Flow for a waterfall's crest. [L/h] A plain sheet over 1 m: 14,900 L/h. */
export function sheetFlowLPerH(falls: { crestM: number; sheet: Sheet }): number {
  requireWithin('crest, m', falls.crestM, CREST_RANGE_M);
  return SHEET_L_PER_H_PER_M[falls.sheet] * falls.crestM;
}

/**
 * Flow over a sharp, level crest by Francis: Q = 3.33 b h^1.5 in feet, 1.838 b h^1.5 in metres. [L/h]
 * Half an inch of head: 63.6 US gal/h to the inch.
 * @param weir.headM Of the still water upstream over the crest, 0.003 to 0.5; the sheet on the crest is about 0.7 of it. [m]
 * @see Francis (1868) (from memory). Stones and lips are no sharp crest: good to about 15 %.
 */
export function weirFlowLPerH(weir: { crestM: number; headM: number }): number {
  requireWithin('crest, m', weir.crestM, CREST_RANGE_M);
  requireWithin('head over the crest, m', weir.headM, { min: 0.003, max: 0.5 });
  return FRANCIS_SI * weir.crestM * weir.headM ** 1.5 * M3_PER_S_IN_L_PER_H;
}

/** The head at which a crest carries a flow, the inverse of `weirFlowLPerH`. [m] */
export function weirHeadM(weir: { crestM: number; flowLPerH: number }): number {
  requireWithin('crest, m', weir.crestM, CREST_RANGE_M);
  requireWithin('flow, L/h', weir.flowLPerH, { min: 1, max: 1_000_000 });
  return (weir.flowLPerH / M3_PER_S_IN_L_PER_H / (FRANCIS_SI * weir.crestM)) ** (2 / 3);
}

/**
 * Flow over a full-width weir of some height by Rehbock, for streams and overflows deeper than a garden sheet. [L/h]
 *   Q = 2/3 sqrt(2g) (0.602 + 0.0832 h/p) b (h + 0.00125)^1.5
 * 0.3 m over a weir 0.4 m high and 2 m wide: 0.6487 m³/s.
 * @param weir.headM 0.03 to 0.75. [m]
 * @param weir.heightM Of the crest over the bed, at least 0.1 and no less than the head. [m]
 * @param weir.crestM 0.3 to 20. [m]
 * @see Rehbock (1929), Proc. ASCE 55 (published source, quoted by an open-source hydraulics package).
 */
export function rehbockFlowLPerH(weir: { crestM: number; headM: number; heightM: number }): number {
  requireWithin('crest, m', weir.crestM, { min: 0.3, max: CREST_RANGE_M.max });
  requireWithin('head over the crest, m', weir.headM, { min: 0.03, max: 0.75 });
  requireWithin('height of the weir, m', weir.heightM, { min: Math.max(0.1, weir.headM), max: 10 });
  const coefficient = 0.602 + 0.0832 * (weir.headM / weir.heightM);
  return TWO_THIRDS_ROOT_2G * coefficient * weir.crestM * (weir.headM + REHBOCK_ADDED_M) ** 1.5 * M3_PER_S_IN_L_PER_H;
}
