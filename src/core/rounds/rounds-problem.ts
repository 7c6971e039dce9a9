/**
 * The problem of the rounds: which crew attends which pond on which day, in which order, at what time.
 *
 * All times, services and travel share ONE unit (minutes for a company, tenths of a distance unit for a benchmark) on
 * one running axis that never jumps: the caller counts elapsed time from its own origin, so midnight is nothing special
 * and a night with a clock change is simply 23 or 25 hours long.
 */
export interface RoundsProblem {
  /** Number of places; `travel[from * places + to]` is the driving between two of them, never negative. */
  readonly places: number;
  readonly travel: Int32Array | Float64Array;
  readonly crewDays: readonly CrewDay[];
  readonly visits: readonly RoundVisit[];
  readonly prices?: Partial<RoundPrices>;
}

/** Part of the time axis; both ends count. */
export interface TimeWindow {
  readonly open: number;
  readonly close: number;
}

/** One crew on one day: the vehicle of the routing problem. */
export interface CrewDay {
  readonly id: string;
  /** The same text for the same people on other days: what "the same crew" means for a published visit. */
  readonly crew: string;
  /** Number of the day, any origin; two crew-days of one day carry the same number. */
  readonly day: number;
  readonly persons: readonly string[];
  readonly startPlace: number;
  readonly endPlace: number;
  /** Nobody leaves before `open`; work past `close` is overtime. */
  readonly hours: TimeWindow;
  /** Overtime allowed beyond `hours.close`; 0 if not given. */
  readonly overtimeAllowed?: number;
  /** A pause of `length` that must begin within [open, close], between two stops. */
  readonly pause?: TimeWindow & { readonly length: number };
  readonly skills?: readonly string[];
  /** Load the vehicle carries; unlimited if not given. */
  readonly capacity?: number;
}

export interface RoundVisit {
  readonly id: string;
  readonly place: number;
  readonly service: number;
  /** When work may START: any number of windows, on any days, in time order and apart from each other. */
  readonly windows: readonly TimeWindow[];
  /** The work must also be over when its window closes. */
  readonly endsInside?: boolean;
  readonly skills?: readonly string[];
  /** Least number of persons; 1 if not given. */
  readonly crewSize?: number;
  readonly load?: number;
  /** What leaving the visit out costs: its priority, in units of driving. 100 000 if not given. */
  readonly penalty?: number;
  readonly preferredCrew?: string;
  /** A sick pond: only other sick ponds may follow it in a round. */
  readonly isLast?: boolean;
  readonly published?: PublishedVisit;
  readonly lock?: VisitLock;
}

/** What the homeowner has been told. `span`: how far the start may move before the promise is broken. */
export interface PublishedVisit {
  readonly crew: string;
  readonly day: number;
  readonly start: number;
  readonly span: number;
  /** Share of the usual prices of change: 1 if not given, less for a visit planned but not yet announced. */
  readonly weight?: number;
}

/**
 * What the search must not touch. `crewDay` holds crew and day; `start` also the hour (replacing the windows);
 * `position` (1, 2, ...) makes the visit part of the fixed head of that round: nothing is put before it.
 */
export interface VisitLock {
  readonly crewDay: string;
  readonly start?: number;
  readonly position?: number;
}

/** What things cost, in units of driving. */
export interface RoundPrices {
  /** Per unit of overtime. */
  readonly overtime: number;
  /** Another crew than the preferred one. */
  readonly preferenceMissed: number;
  readonly otherDay: number;
  readonly otherCrew: number;
  /** A start moved by more than the promised span, on the promised day. */
  readonly otherTime: number;
  /** Weight of the sum over persons of (work squared / hours available): equal shares are cheapest, less work always cheaper. */
  readonly unfairness: number;
  /** Each round that has at least one stop. */
  readonly round: number;
}

/** Overtime 3, preference 15, changes 30 / 15 / 20: own choices, to be tuned on a company's data. */
export const USUAL_PRICES: RoundPrices = {
  overtime: 3,
  preferenceMissed: 15,
  otherDay: 30,
  otherCrew: 15,
  otherTime: 20,
  unfairness: 0.05,
  round: 0.1,
};

export const USUAL_PENALTY = 100_000;

/** Rounds as indices of visits in driving order, one list per crew-day, and the visits left out. */
export interface RoundsPlan {
  readonly rounds: readonly (readonly number[])[];
  readonly unassigned: readonly number[];
}
