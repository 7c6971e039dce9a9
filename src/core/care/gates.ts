import { addDays, type CivilDay } from '../units/civil-day.js';
import { misfit } from './applicability.js';
import type { TaskWindow } from './care-plan.js';
import type { CareRule, Gate } from './care-rule.js';
import { optionalParameter, type PlanningContext, parameter } from './planning-context.js';
import { readingsOf, STALE_AFTER_DAYS } from './triggers/reading.js';
import { orderedWindow } from './triggers/trigger-outcome.js';

/** Share of the traces with ice that closes an ice-free gate. [-] */
const ICED_SHARE = 0.5;
/** How well the day is known on which water or ice lets repeated work go on. [days] */
const WAITING_SLACK_DAYS = 14;
const MS_PER_HOUR = 3_600_000;

export type GateOutcome =
  | { readonly holds: true; readonly window: TaskWindow; readonly waitedDays: number }
  | { readonly holds: false; readonly detail: string };

/**
 * Moves a window to the first day on which every gate holds, counted from the due day or from today, whichever is
 * later, and not beyond the horizon. A task that was due before and may still be done keeps its day.
 */
export function throughGates(window: TaskWindow, rule: CareRule, context: PlanningContext): GateOutcome {
  const gates = rule.gates.filter((gate) => gate.onlyIf === undefined || misfit(gate.onlyIf, context.pond) === null);
  if (gates.length === 0) return { holds: true, window, waitedDays: 0 };
  const isOpen = (day: CivilDay) => gates.every((gate) => isOpenOn(gate, day, rule, context));
  let opened = window.due;
  for (const gate of gates) {
    const opensOn = openedOn(gate, rule, context);
    if (opensOn === null) return { holds: false, detail: nameOf(gate) };
    opened = Math.max(opened, opensOn) as CivilDay;
  }

  // A task that has become due and may be done today keeps the day on which it became so.
  const from = Math.max(opened, context.today) as CivilDay;
  for (let day = from; day <= context.horizon; day = addDays(day, 1)) {
    if (!isOpen(day)) continue;
    const due = day === from ? opened : day;
    const waitedDays = due - window.due;
    return { holds: true, window: waitedDays === 0 ? narrowed(window, isOpen) : moved(window, due, rule), waitedDays };
  }
  return { holds: false, detail: gates.map(nameOf).join(', ') };
}

/**
 * Work of a season waits to the day. Work that repeats is not known to the day once it waits for water or ice: it gets a
 * fortnight on either side, so that the forecast does not push it about.
 */
function moved(window: TaskWindow, due: CivilDay, rule: CareRule): TaskWindow {
  const room = window.latest - window.due;
  const slack = rule.cycle === 'count' ? WAITING_SLACK_DAYS : 0;
  return orderedWindow({
    earliest: Math.max(due - slack, window.earliest),
    due,
    latest: due + Math.max(room, slack),
  });
}

/** Nothing may be done before the gates open: the window opens on the first day from which they hold up to the due day. */
function narrowed(window: TaskWindow, isOpen: (day: CivilDay) => boolean): TaskWindow {
  let earliest = window.due;
  while (earliest > window.earliest && isOpen(addDays(earliest, -1))) earliest = addDays(earliest, -1);
  return { ...window, earliest };
}

/** The day a gate of readings or completed rules opened, or null while it is closed; gates of the season are open here. */
function openedOn(gate: Gate, rule: CareRule, context: PlanningContext): CivilDay | null {
  if (gate.kind === 'rule-completed') return context.history.lastCompleted(gate.ruleId)?.on ?? null;
  if (gate.kind === 'reading-below') return readingsHeldOn(gate, rule, context);
  if (gate.kind === 'reading-above') return isReadAbove(gate, rule, context) ? NEVER_LATER : null;
  return NEVER_LATER;
}

/** Earlier than any day of a plan. */
const NEVER_LATER = Number.NEGATIVE_INFINITY as CivilDay;

/**
 * The day on which a quantity had been read below the limit as often and as far apart as asked, in the unbroken row of
 * such readings up to the latest one; null when there is no such row.
 */
function readingsHeldOn(
  gate: Extract<Gate, { kind: 'reading-below' }>,
  rule: CareRule,
  context: PlanningContext,
): CivilDay | null {
  const limit = parameter(rule, gate.limit);
  const first = gate.sinceRule === undefined ? null : context.history.lastCompleted(gate.sinceRule);
  if (gate.sinceRule !== undefined && first === null) return null;
  const later = gate.orSinceRule === undefined ? null : context.history.lastCompleted(gate.orSinceRule);
  const sinceDay = Math.max(first?.on ?? NEVER_LATER, later?.on ?? NEVER_LATER);

  let counted = 0;
  let lastCountedMs = Number.NEGATIVE_INFINITY;
  let heldOn: CivilDay | null = null;
  for (const reading of readingsOf(gate.quantity, context)) {
    if (reading.on > context.today || reading.on <= sinceDay) continue;
    if (reading.value >= limit) {
      counted = 0;
      lastCountedMs = Number.NEGATIVE_INFINITY;
      heldOn = null;
    } else if (reading.atMs - lastCountedMs >= gate.hoursApart * MS_PER_HOUR) {
      counted++;
      lastCountedMs = reading.atMs;
      if (counted >= gate.readings) heldOn ??= reading.on;
    }
  }
  return heldOn;
}

function isReadAbove(
  gate: Extract<Gate, { kind: 'reading-above' }>,
  rule: CareRule,
  context: PlanningContext,
): boolean {
  const latest = readingsOf(gate.quantity, context).findLast((reading) => reading.on <= context.today);
  const freshDays = optionalParameter(rule, gate.freshDays, STALE_AFTER_DAYS);
  if (!latest || context.today - latest.on > freshDays) return gate.freshDays !== undefined;
  return latest.value >= parameter(rule, gate.limit);
}

function isOpenOn(gate: Gate, day: CivilDay, rule: CareRule, context: PlanningContext): boolean {
  const { outlook } = context;
  switch (gate.kind) {
    case 'water-above': {
      const thresholdC = parameter(rule, gate.threshold);
      return gate.lowestOfDays === undefined
        ? outlook.median7dMeanC(day) >= thresholdC
        : outlook.lowestMedianC(day, gate.lowestOfDays) > thresholdC;
    }
    case 'water-below':
      return outlook.median7dMeanC(day) < parameter(rule, gate.threshold);
    case 'ice-free':
      return outlook.iceShare(day) < ICED_SHARE;
    case 'no-hard-frost-within':
      return outlook.coldestNightC(day, parameter(rule, gate.days)) >= parameter(rule, gate.airBelowC);
    case 'reading-below':
    case 'reading-above':
    case 'rule-completed':
      return true;
  }
}

function nameOf(gate: Gate): string {
  if (gate.kind === 'reading-below' || gate.kind === 'reading-above') return `${gate.kind} ${gate.quantity}`;
  if (gate.kind === 'rule-completed') return `rule-completed ${gate.ruleId}`;
  return gate.kind;
}
