/** The water forecast as the pages need it: daily figures rounded to 0.1 °C from `firstDay` on. */
export interface OutlookSummary {
  /** ISO date of the first figure. */
  readonly firstDay: string;
  readonly p10C: readonly number[];
  readonly p50C: readonly number[];
  readonly p90C: readonly number[];
  readonly median7dMeanC: readonly number[];
  /** Share of traces with ice, 0 to 1, in hundredths. */
  readonly iceShare: readonly number[];
  readonly koeppen: string | null;
  readonly hardinessZone: string;
  readonly winterClass: string;
  readonly stations: readonly {
    readonly id: string;
    readonly name: string;
    readonly period: string;
    readonly distanceKm: number;
    readonly weight: number;
  }[];
  readonly warnings: readonly string[];
  /** Whose uncertainty the band shows, nearest days first; absent in outlooks kept from before it was known. */
  readonly band?: readonly BandOfDays[];
  /** Wind and shade as readings have corrected them; absent where they stand as told. */
  readonly learned?: { readonly windAt2mMPerS: number; readonly shadeShare: number };
}

/** The band over the first days of the forecast; the shares make 1. */
export interface BandOfDays {
  readonly days: number;
  /** Mean distance from the median to either end. [°C] */
  readonly halfWidthC: number;
  readonly weatherShare: number;
  readonly modelShare: number;
  readonly thermometerShare: number;
}
