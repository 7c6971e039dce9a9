import type { EquipmentKind, PlantKind, TapSource, WinterClass } from './pond-facts.js';

/** Where a number comes from. Exactly four words; see DEVELOPERS.md, "Provenance". */
export type Provenance = 'published source' | 'common practice' | 'from memory' | 'derived';

/** A number a company may change, inside the range. */
export interface RuleParameter {
  readonly value: number;
  readonly min: number;
  readonly max: number;
  readonly unit: string;
  readonly provenance: Provenance;
  readonly source?: string;
}

/** A parameter given in place, or the name of one in the rule's `parameters`. */
export type ParameterName = string;

export type RunningLoad = 'lamp-hours' | 'pump-days' | 'aerator-days' | 'filter-solids-g' | 'evaporation-l';
export type WaterMean = '7-day-mean';
export type CareEvent =
  | 'commissioning'
  | 'fish-added'
  | 'large-water-change'
  | 'task-completed'
  | 'house-sold'
  | 'full-clean-out'
  | 'leak-test'
  | 'power-failure'
  | 'algaecide-asked'
  | 'algaecide-applied'
  | 'warranty-end'
  | 'ice-forecast'
  | 'heat-forecast';
export type ReadingQuantity =
  | 'water-temperature'
  | 'ph'
  | 'total-ammonia'
  | 'nitrite'
  | 'nitrate'
  | 'alkalinity'
  | 'hardness'
  | 'dissolved-oxygen'
  | 'total-chlorine'
  | 'salinity'
  | 'pump-flow'
  | 'unionised-ammonia'
  | 'clarity'
  | 'algae-cover'
  | 'sludge-depth'
  | 'snow-depth'
  | 'weekly-top-up';
export type SeasonMark = 'last-freeze' | 'first-freeze' | 'leaf-fall' | 'first-ice' | 'ice-out';

/** The closed set of six trigger kinds. Every number is the name of a parameter of the rule. */
export type Trigger =
  | {
      readonly kind: 'crossing';
      readonly threshold: ParameterName;
      readonly direction: 'rising' | 'falling';
      /** Days before the crossing; negative for days after it. */
      readonly leadDays?: ParameterName;
      readonly earliestQuantile?: number;
      readonly latestQuantile?: number;
      /** Slack of the work itself, before the earliest and after the latest crossing. */
      readonly earlyDays?: ParameterName;
      readonly lateDays?: ParameterName;
      /** Days of the trailing mean that must lie beyond; 7 unless the rule says else. */
      readonly persistenceDays?: number;
    }
  | {
      readonly kind: 'accumulation';
      readonly load: RunningLoad;
      readonly limit: ParameterName;
      /** Share of the limit before and after which the window opens and closes, in percent. */
      readonly tolerancePct: ParameterName;
      /** Never sooner than this after the last time, unless the pond has this other equipment. */
      readonly minDays?: ParameterName;
      readonly minDaysUnlessEquipment?: EquipmentKind;
      /** Never sooner than this after the last time, whatever the equipment. */
      readonly floorDays?: ParameterName;
      /** Due at the start of the season whose end the rest would not reach. Only for `lamp-hours`. */
      readonly notLastingSeason?: { readonly earlyDays: ParameterName; readonly lateDays: ParameterName };
    }
  | {
      readonly kind: 'interval';
      readonly days: ParameterName;
      readonly minDays?: ParameterName;
      readonly maxDays?: ParameterName;
      /** Days are counted only while the median 7-day mean lies inside. */
      readonly season?: {
        readonly aboveC?: ParameterName;
        readonly belowC?: ParameterName;
        readonly iceFree?: boolean;
      };
      readonly slackDays: ParameterName;
      /** Asked only of ponds like this; for all others the trigger does not exist. */
      readonly onlyIf?: Applicability;
      /** Counts from the last time that rule was done, or this one if that was later. */
      readonly fromRule?: string;
      /** Never done before, it counts from the day the machine was fitted, however long before care began. */
      readonly fromInstallation?: boolean;
    }
  | {
      readonly kind: 'event';
      readonly event: CareEvent;
      readonly ofRule?: string;
      readonly afterDays: ParameterName;
      readonly earlyDays?: ParameterName;
      readonly lateDays?: ParameterName;
    }
  | {
      readonly kind: 'season';
      readonly mark: SeasonMark;
      readonly probability: number;
      readonly leadDays?: ParameterName;
      readonly earlyDays?: ParameterName;
      readonly lateDays?: ParameterName;
    }
  | {
      readonly kind: 'reading';
      readonly quantity: ReadingQuantity;
      readonly limit: ParameterName;
      readonly when: 'above' | 'below';
      readonly severity: 'care' | 'urgent';
      readonly withinDays: ParameterName;
      /** It must have been beyond the limit for so long before anything is due. */
      readonly lastingDays?: ParameterName;
      /** Also when the trend of the readings passes the limit within so many days. */
      readonly trendDays?: ParameterName;
    };
export type TriggerKind = Trigger['kind'];

/** All gates must hold on the due day, else the task waits (moves to the first day on which they hold) or does not fire. */
export type Gate = GateCondition & {
  /** Asked only of ponds like this; holds for all others. */
  readonly onlyIf?: Applicability;
};

export type GateCondition =
  | {
      readonly kind: 'water-above';
      readonly threshold: ParameterName;
      /** Compare the lowest daily mean of the last n days instead of the 7-day mean. */
      readonly lowestOfDays?: number;
    }
  | { readonly kind: 'water-below'; readonly threshold: ParameterName }
  | { readonly kind: 'ice-free' }
  | { readonly kind: 'no-hard-frost-within'; readonly days: ParameterName; readonly airBelowC: ParameterName }
  | {
      readonly kind: 'reading-below';
      readonly quantity: ReadingQuantity;
      readonly limit: ParameterName;
      /** How many readings, and how far apart at least. */
      readonly readings: number;
      readonly hoursApart: number;
      /** Only readings taken after this rule was completed count. */
      readonly sinceRule?: string;
      /** Nor do those from before this one was completed, if it ever was. */
      readonly orSinceRule?: string;
    }
  | {
      /** The last reading, not older than a month, stands at the limit or above; without a reading it is closed. */
      readonly kind: 'reading-above';
      readonly quantity: ReadingQuantity;
      readonly limit: ParameterName;
      /** Only a reading as fresh as this can close it: without one it is open. */
      readonly freshDays?: ParameterName;
    }
  | { readonly kind: 'rule-completed'; readonly ruleId: string };

/** What a pond must be for the rule to apply. Every key given must hold; a list means "any of". */
export interface Applicability {
  readonly equipment?: readonly EquipmentKind[];
  readonly withoutEquipment?: readonly EquipmentKind[];
  readonly winterClass?: readonly WinterClass[];
  readonly tap?: readonly TapSource[];
  readonly fish?: boolean;
  readonly turtles?: boolean;
  readonly livestock?: boolean;
  readonly plants?: readonly PlantKind[];
  readonly treesNear?: boolean;
  readonly waterfall?: boolean;
  /** New ponds only: not yet released for stocking. */
  readonly inRunIn?: boolean;
  readonly heated?: boolean;
  /** `heavy`: koi, or more than 1 kg of fish per m³. */
  readonly stocking?: Stocking;
  /** Whether koi live in it. */
  readonly koi?: boolean;
  /** Stocked in parts, of which some are still to come. */
  readonly inStages?: boolean;
  /** Whether the volume is known too badly to dose by: one sigma above 15 %. */
  readonly volumeUncertain?: boolean;
}

export type Stocking = 'light' | 'heavy';

export type Audience = 'homeowner' | 'technician' | 'either';
export type Consequence = 'routine' | 'care' | 'urgent';

/** How the amounts of a task are worked out: one of the named recipes in `core/care/quantities/`. */
export type QuantityRecipe =
  | 'feed-ration'
  | 'water-change'
  | 'top-up'
  | 'dechlorinator-for-change'
  | 'dechlorinator-for-top-up'
  | 'dechlorinator-first-fill'
  | 'lamp-hours'
  | 'rinse-media-share'
  | 'alkalinity-dose'
  | 'ice-opening'
  | 'net-area'
  | 'staged-stocking'
  | 'following-stock'
  | 'flush-standing-water'
  | 'outage-hours'
  | 'barley-straw';

/** One care rule: a file in `config/care-rules/`. */
export interface CareRule {
  readonly id: string;
  readonly title: string;
  readonly appliesTo: Applicability;
  /** One task for each machine of the kinds in `appliesTo.equipment`, instead of one for the pond. */
  readonly perMachine?: boolean;
  /** Only on ponds whose care agreement names it. */
  readonly optIn?: boolean;
  readonly anyOf: readonly Trigger[];
  readonly gates: readonly Gate[];
  readonly parameters: Readonly<Record<ParameterName, RuleParameter>>;
  readonly audience: Audience;
  /** Work that is never the homeowner's, whatever the agreement says. */
  readonly neverHomeowner: boolean;
  readonly consequence: Consequence;
  /** A standing line of the digest (feed, skim, top up) instead of one of its tasks. */
  readonly routineLine: boolean;
  readonly minutes: RuleParameter;
  readonly people: 1 | 2;
  readonly skills: readonly string[];
  readonly parts: readonly string[];
  readonly steps: readonly string[];
  readonly quantities: readonly QuantityRecipe[];
  /** Ids of `config/cautions.yaml`, the most important first. */
  readonly cautions: readonly string[];
  readonly evidence: readonly string[];
  readonly reason: string;
  readonly wouldChangeIf: string;
  readonly notWithin: readonly { readonly ruleId: string; readonly days: number }[];
  /** Not before so many days after something happened. */
  readonly notAfter?: readonly { readonly event: CareEvent; readonly days: number }[];
  readonly alignWith: readonly string[];
  readonly before: readonly string[];
  /** Once one of these comes due in the same season, this task is overtaken and lapses. */
  readonly overtakenBy?: readonly string[];
  /** The rules table line or paragraph this follows. */
  readonly source: string;
  /** `all-year`, or the half of the year whose cycle year names the task. */
  readonly cycle: 'count' | 'cooling' | 'warming' | 'event' | 'reading';
}
