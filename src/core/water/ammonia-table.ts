import { unionisedAmmoniaShare } from './ammonia.js';

/** Un-ionised share by pH (rows) and temperature (columns), as the tables on paper are laid out. */
export interface UnionisedAmmoniaTable {
  readonly temperaturesC: readonly number[];
  readonly rows: readonly { readonly ph: number; readonly shares: readonly number[] }[];
}

const TEMPERATURES_C = [0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32];
const PHS = [6.6, 6.8, 7, 7.2, 7.4, 7.6, 7.8, 8, 8.2, 8.4, 8.6, 8.8, 9, 9.2, 9.4];

/**
 * The whole table a person would look a reading up in: total ammonia as N times the share is un-ionised ammonia as N.
 * 6.6 to 9.4 in steps of 0.2, 0 to 32 °C in steps of 2.
 * @see `unionisedAmmoniaShare` for range and source.
 */
export function unionisedAmmoniaTable(): UnionisedAmmoniaTable {
  return {
    temperaturesC: TEMPERATURES_C,
    rows: PHS.map((ph) => ({
      ph,
      shares: TEMPERATURES_C.map((temperatureC) => unionisedAmmoniaShare({ temperatureC, ph })),
    })),
  };
}
