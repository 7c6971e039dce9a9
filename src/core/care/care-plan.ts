import type { SiteClimate } from '../climate/station.js';
import type { WaterForecast } from '../thermal/water-forecast.js';
import type { CivilDay } from '../units/civil-day.js';
import type { CareEvent, CareRule, Consequence, QuantityRecipe, ReadingQuantity, TriggerKind } from './care-rule.js';
import type { PondFacts } from './pond-facts.js';

/** What has happened on a pond, oldest first. */
export interface CareHistory {
  /** Finished identities: they never return. */
  readonly finished: readonly FinishedTask[];
  readonly readings: readonly PondReading[];
  readonly events: readonly PondEvent[];
}

export interface FinishedTask {
  readonly ruleId: string;
  readonly cycle: string;
  readonly state: 'COMPLETED' | 'CANCELLED';
  /** The day it was really done, or cancelled. */
  readonly on: CivilDay;
  /** The actual state the closing teaches, e.g. `{ lampHours: 0, mediaShareRinsed: 0.33, changedL: 900 }`. */
  readonly actuals: Readonly<Record<string, number>>;
}

export interface PondReading {
  readonly id: string;
  readonly quantity: ReadingQuantity;
  /** Stored unit of the quantity: °C, -, mg/L as N, mg/L CaCO3, mg/L, mg/L Cl2, g/L, L/h. */
  readonly value: number;
  readonly on: CivilDay;
  /** Milliseconds since the epoch, for "at least 48 h apart". */
  readonly atMs: number;
  /** The machine it was taken at, where the record says. */
  readonly equipmentId?: string;
}

export interface PondEvent {
  readonly id: string;
  readonly kind: CareEvent;
  readonly on: CivilDay;
}

/** A dechlorinator or other product by label strength, as in `config/products/`. */
export interface DechlorinatorStrength {
  readonly id: string;
  readonly name: string;
  /** Product needed per milligram of chlorine. [mg per mg Cl2] */
  readonly productMgPerMgChlorine: number;
  readonly bindsAmmonia: boolean;
  readonly source: string;
}

export interface PlanInput {
  readonly pond: PondFacts;
  readonly today: CivilDay;
  /** Tasks due up to and with today + horizonDays. */
  readonly horizonDays: number;
  readonly forecast: WaterForecast;
  readonly climate: SiteClimate;
  readonly rules: readonly CareRule[];
  readonly history: CareHistory;
  readonly dechlorinator: DechlorinatorStrength;
  /** The day the pond's care began here; intervals and loads never done before count from the latest of this and installation. */
  readonly careSince: CivilDay;
  /** Who does an `either` rule where the agreement says nothing. */
  readonly defaultDoneBy: 'company' | 'homeowner';
}

/** Earliest, due and latest civil date; closed ends. Urgent tasks have latest = due. */
export interface TaskWindow {
  readonly earliest: CivilDay;
  readonly due: CivilDay;
  readonly latest: CivilDay;
}

/** An amount with its unit, what it was computed for, and by which formula. Rounded to the safe side. */
export interface Quantity {
  readonly recipe: QuantityRecipe;
  /** Machine name of what is measured out, e.g. `feed`, `dechlorinator`, `new-water`, `media`. */
  readonly of: string;
  /** Rounded amount to show. */
  readonly amount: number;
  readonly unit: 'g' | 'kg' | 'mL' | 'L' | 'h' | 'share' | 'm2' | 'cm' | 'count';
  /** `per-day` for feed. */
  readonly per: 'once' | 'per-day' | 'per-week';
  /** What is on the label, where a product is measured out. */
  readonly productName?: string;
  /** Before rounding. */
  readonly computed: number;
  /** The safe side: more of a dechlorinator, less of a food. A conversion of units rounds `computed` to the same side. */
  readonly roundedTo?: 'up' | 'down';
  /** What it was computed for, e.g. 10,600 L of pond, or 16.4 kg of fish. */
  readonly basis: { readonly of: string; readonly amount: number; readonly unit: string };
  readonly formula: string;
  readonly source: string;
  /** Remarks by code, e.g. `split-into-two-visits`, `made-up-solution`. */
  readonly remarks: readonly string[];
}

/** Why now: data first, words later. */
export interface Reason {
  readonly trigger: TriggerKind;
  readonly formula: string;
  readonly source: string;
  readonly inputs: readonly { readonly name: string; readonly value: number | string; readonly unit: string }[];
}

export interface PlannedTask {
  readonly ruleId: string;
  readonly cycle: string;
  /** The machine it is for, where each machine has its own. */
  readonly machine?: { readonly id: string; readonly name: string };
  /** Who does it on this pond, after the agreement and `neverHomeowner`. */
  readonly doneBy: 'homeowner' | 'technician';
  readonly consequence: Consequence;
  readonly routineLine: boolean;
  readonly window: TaskWindow;
  /** Share of the traces in which it comes due inside the horizon, 0 to 1; 1 for what is certain. */
  readonly confidence: number;
  readonly reason: Reason;
  readonly quantities: readonly Quantity[];
  readonly minutes: number;
  readonly people: 1 | 2;
}

/** "Why is there no winter shutdown on this pond?" */
export interface NotDue {
  readonly ruleId: string;
  /** The occurrence meant; absent when the rule as a whole gives no task. A rule may have a later occurrence planned all the same. */
  readonly cycle?: string;
  readonly because:
    | 'not-this-equipment'
    | 'has-equipment'
    | 'no-frost-climate'
    | 'not-this-tap'
    | 'no-livestock'
    | 'no-fish'
    | 'no-turtles'
    | 'no-plants'
    | 'no-trees'
    | 'no-waterfall'
    | 'not-in-run-in'
    | 'in-run-in'
    | 'in-stages'
    | 'all-stocked'
    | 'heated'
    | 'no-crossing'
    | 'gate-never-holds'
    | 'nothing-to-count'
    | 'not-this-climate'
    | 'not-this-stocking'
    | 'overtaken'
    | 'beyond-horizon'
    | 'already-finished'
    | 'no-reading'
    | 'no-event'
    | 'switched-off'
    | 'not-chosen'
    | 'input-missing';
  readonly detail: string;
}

export interface Conflict {
  readonly kind: 'not-within' | 'align-with' | 'before';
  readonly ruleId: string;
  readonly otherRuleId: string;
  readonly detail: string;
}

export interface CarePlan {
  readonly pondId: string;
  readonly today: CivilDay;
  /** In order of due day, then rule id. */
  readonly tasks: readonly PlannedTask[];
  readonly notDue: readonly NotDue[];
  readonly conflicts: readonly Conflict[];
  /** Plain verdicts of the pond itself, e.g. turnover not met, refuge too shallow. */
  readonly findings: readonly PondFinding[];
}

export interface PondFinding {
  readonly code:
    | 'turnover-not-met'
    | 'refuge-too-shallow'
    | 'overstocked'
    | 'filter-too-small'
    | 'oxygen-short'
    | 'stocking-in-stages'
    | 'volume-uncertain';
  readonly inputs: readonly { readonly name: string; readonly value: number | string; readonly unit: string }[];
}
