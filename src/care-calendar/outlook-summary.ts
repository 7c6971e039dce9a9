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
}
