import type { PumpLine } from '../hydraulics/pump-line.js';
import type { CivilDay } from '../units/civil-day.js';

export type EquipmentKind =
  | 'pump'
  | 'mechanical-filter'
  | 'biological-filter'
  | 'uv-lamp'
  | 'aerator'
  | 'de-icer'
  | 'skimmer'
  | 'lights'
  | 'auto-fill'
  | 'heater';
export type Species = 'koi' | 'goldfish' | 'other-fish' | 'slider-turtle';
export type PlantKind = 'hardy-lily' | 'tropical-lily' | 'marginal' | 'submerged' | 'floating-tropical' | 'lotus';
export type TapSource = 'chlorine' | 'chloramine' | 'well' | 'unknown';
/** Handbook classes of a site's winter: W0 warm, W1 mild, W2 cold, W3 severe. */
export type WinterClass = 'W0' | 'W1' | 'W2' | 'W3';

/** One machine of the register, make-neutral. Rated figures are those of the plate; absent means not known. */
export interface Equipment {
  readonly id: string;
  readonly kind: EquipmentKind;
  readonly name: string;
  readonly installedOn: CivilDay | null;
  readonly warrantyUntil: CivilDay | null;
  readonly rated: {
    readonly flowLPerH?: number;
    readonly powerW?: number;
    /** Of a pump: the head at which nothing flows any more. */
    readonly maxHeadM?: number;
    /** Of a pump: what it pumps through. With this and both ends of its curve its real flow is known. */
    readonly line?: PumpLine;
    /** Rated lamp life. */
    readonly lampRatedHours?: number;
    /** Volume of mechanical media, or of biological media. */
    readonly mediaVolumeL?: number;
    readonly mediaAreaM2PerM3?: number;
    /** Expected life of the machine or its wearing part. */
    readonly serviceLifeDays?: number;
  };
}

export interface StockGroup {
  readonly species: Species;
  readonly count: number;
  /** Total length of a fish, shell length of a turtle. */
  readonly lengthCm: number;
}

/** Who does one rule on this pond, from when to when (inclusive, open where null). */
export interface AgreementTerm {
  readonly ruleId: string;
  readonly doneBy: 'company' | 'homeowner';
  readonly from: CivilDay | null;
  readonly until: CivilDay | null;
}

/** Everything the planner knows of a pond. A plain value, put together by `care-calendar` from the pond record. */
export interface PondFacts {
  readonly pondId: string;
  readonly latitude: number;
  readonly volumeL: number;
  /** One standard deviation of the volume, in percent. */
  readonly volumeSigmaPct: number;
  readonly surfaceAreaM2: number;
  readonly meanDepthM: number;
  readonly maxDepthM: number;
  readonly elevationM: number;
  /** First filled; null for a pond taken over with its history unknown. */
  readonly commissionedOn: CivilDay | null;
  /** Livestock released into it: run-in is over. Null while running in. */
  readonly stockedOn: CivilDay | null;
  readonly winterClass: WinterClass;
  readonly tap: { readonly source: TapSource; readonly totalChlorineMgPerL: number | null };
  readonly equipment: readonly Equipment[];
  readonly stock: readonly StockGroup[];
  /**
   * Part of the stock on the record that lives in it while a new pond is stocked in parts; 1 when left out. The planner
   * finds it from what was done.
   */
  readonly stockedShare?: number;
  readonly plants: readonly PlantKind[];
  readonly treesNear: boolean;
  readonly waterfall: boolean;
  readonly agreement: readonly AgreementTerm[];
}
