/** Twelve values, January first. */
export type TwelveMonths = readonly [
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
];

/** Long-term monthly figures of one weather station, as carried in `config/stations/`. */
export interface Station {
  /** Unique inside the table, e.g. `wmo-72658` or `us-minneapolis-st-paul-mn`. */
  readonly id: string;
  readonly name: string;
  readonly country: string;
  readonly latitude: number;
  /** East positive. */
  readonly longitude: number;
  readonly elevationM: number;
  /** 1991-2020 are WMO normals; 2003-2021 are 18-year means and must be called so. */
  readonly period: '1991-2020' | '2003-2021';
  /** Key of an origin (source, licence) in the table's head. */
  readonly origin: string;
  readonly meanC: TwelveMonths;
  /** Means of the daily extremes. */
  readonly maxC: TwelveMonths;
  readonly minC: TwelveMonths;
  readonly vapourPressureHPa: TwelveMonths | null;
  /** Hours of sunshine in the month. */
  readonly sunshineHours: TwelveMonths | null;
  readonly precipitationMm: TwelveMonths | null;
  /** Standard deviation between years of the monthly mean. */
  readonly betweenYearsSdC: TwelveMonths;
  /** Standard deviation of daily means within the month. */
  readonly dailySdC: TwelveMonths;
  /** Median dates, MM-DD, where published. */
  readonly lastFreezeP50: string | null;
  readonly firstFreezeP50: string | null;
}

/** The climate of one pond: nearest stations blended and moved to its elevation. */
export interface SiteClimate {
  readonly latitude: number;
  readonly elevationM: number;
  readonly meanC: TwelveMonths;
  readonly maxC: TwelveMonths;
  readonly minC: TwelveMonths;
  readonly vapourPressureHPa: TwelveMonths;
  /** Mean share of extraterrestrial radiation that reaches the ground, per month. */
  readonly sunShare: TwelveMonths;
  readonly precipitationMm: TwelveMonths | null;
  readonly betweenYearsSdC: TwelveMonths;
  readonly dailySdC: TwelveMonths;
  /** Koeppen-Geiger class, e.g. `Dfa`. */
  readonly koeppen: string | null;
  /** USDA hardiness zone, e.g. `7b`. */
  readonly hardinessZone: string;
  readonly stations: readonly {
    readonly id: string;
    readonly name: string;
    readonly period: Station['period'];
    readonly distanceKm: number;
    readonly elevationDifferenceM: number;
    readonly weight: number;
  }[];
  /** What a person should know of this choice, e.g. the nearest station is far. */
  readonly warnings: readonly ClimateWarning[];
}

export type ClimateWarning =
  | { readonly code: 'station-far'; readonly distanceKm: number }
  | { readonly code: 'station-other-elevation'; readonly elevationDifferenceM: number };
