import { type CareTaskView, effectiveLatestOn } from '../../../../care-calendar/index.js';
import type { PlannedTask } from '../../../../core/care/care-plan.js';
import { taskTitle, taskWords } from '../../../../core/care/explain.js';
import { formulasBehind } from '../../../../core/formulas/formulas-behind.js';
import { type CivilDay, civilDay, isoDateOf, monthOf, yearOf } from '../../../../core/units/civil-day.js';
import { showMinutes, type UnitSystem } from '../../../../core/units/show.js';
import { dateRange, shortDate, weekdayDate } from '../../../charts/show-date.js';
import { type NumberedTask, numbered } from '../calendar-marks.js';
import { type ReasonLine, reasonLines } from './reason-lines.js';

const HOW_IT_IS_COMPUTED = '/how-it-is-computed';

export interface CalendarGroup {
  readonly title: string;
  readonly entries: readonly CalendarEntry[];
}

export interface CalendarEntry {
  readonly id: string;
  readonly mark: NumberedTask;
  readonly title: string;
  /** `due 9 Oct`, `due today`, `3 days late`. */
  readonly due: string;
  /** Window, time on site, and what else is settled about it. */
  readonly window: string;
  readonly isLate: boolean;
  readonly amounts: readonly string[];
  readonly why: string;
  readonly lines: readonly ReasonLine[];
  readonly formula: string;
  /** Where it can be looked up and worked through: the formulas behind it, then the numbers of its rule. */
  readonly lookUp: readonly { readonly href: string; readonly words: string }[];
  /** In how many of 100 traces of the forecast it comes due; empty for what does not hang on the weather. */
  readonly confidence: string;
  readonly source: string;
  readonly wouldChangeIf: string;
  readonly acts: TaskActs;
}

export interface TaskActs {
  readonly address: string;
  readonly today: string;
  readonly isHeld: boolean;
  readonly heldOn: string;
  /** Standing lines of a season are not ticked off. */
  readonly mayComplete: boolean;
}

/** The open tasks in time order, with their numbers, grouped by season. */
export function calendarGroups(
  tasks: readonly CareTaskView[],
  pond: { readonly id: string; readonly latitude: number },
  today: CivilDay,
  units: UnitSystem,
): CalendarGroup[] {
  const entries = calendarEntries(tasks, pond.id, today, units);
  const groups: { title: string; entries: CalendarEntry[] }[] = [];
  for (const entry of entries) {
    const title = entry.isLate ? 'Late' : groupTitle(Math.max(entry.mark.due, today) as CivilDay, today, pond.latitude);
    const last = groups.at(-1);
    if (last?.title === title) last.entries.push(entry);
    else groups.push({ title, entries: [entry] });
  }
  return groups;
}

function calendarEntries(
  tasks: readonly CareTaskView[],
  pondId: string,
  today: CivilDay,
  units: UnitSystem,
): CalendarEntry[] {
  const sorted = [...tasks].sort((a, b) => rank(a) - rank(b) || (a.dueOn < b.dueOn ? -1 : a.dueOn > b.dueOn ? 1 : 0));
  return marksOf(sorted, today).map(({ mark, view }) => entryOf(view, mark, pondId, today, units));
}

function rank(view: CareTaskView): number {
  return view.isLate && !view.task.routineLine ? 0 : 1;
}

/** Marks under the numbers they carry everywhere on the page. */
export function marksOf(tasks: readonly CareTaskView[], today: CivilDay): { mark: NumberedTask; view: CareTaskView }[] {
  const sources = tasks.map((view) => {
    const { task, rule } = view;
    const latest = civilDay(effectiveLatestOn(task));
    const due = civilDay(view.dueOn);
    // A standing line runs through its season: it is due now, not on the day the season began.
    return {
      view,
      planned: task.planned,
      title: taskTitle(task.planned, rule),
      earliest: civilDay(task.earliestOn),
      due: task.routineLine && due < today ? today : due,
      latest,
    };
  });
  return numbered(sources, today).map((mark, index) => ({
    mark,
    view: (sources[index] as (typeof sources)[number]).view,
  }));
}

function entryOf(
  view: CareTaskView,
  mark: NumberedTask,
  pondId: string,
  today: CivilDay,
  units: UnitSystem,
): CalendarEntry {
  const { task, rule } = view;
  const words = taskWords({ task: task.planned, rule, audience: 'homeowner', units });
  const isLate = view.isLate && !task.routineLine;
  return {
    id: task.id,
    mark,
    title: words.title,
    due: dueWords(mark, task.routineLine, isLate, today),
    window: windowWords(view, mark, today),
    isLate,
    amounts: words.howMuch,
    why: words.why,
    lines: reasonLines(task.planned.reason, units),
    formula: task.planned.reason.formula,
    lookUp: lookUpLinks(task.planned, rule.id),
    confidence: confidenceWords(task.planned),
    source: task.planned.reason.source,
    wouldChangeIf: words.wouldChangeIf,
    acts: {
      address: `/ponds/${pondId}/tasks/${task.id}`,
      today: isoDateOf(today),
      isHeld: task.heldDueOn !== null,
      heldOn: task.heldDueOn ?? isoDateOf(Math.max(mark.due, today) as CivilDay),
      mayComplete: !task.routineLine,
    },
  };
}

function lookUpLinks(planned: PlannedTask, ruleId: string): CalendarEntry['lookUp'] {
  const formulas = formulasBehind(planned).map(({ id, title }) => ({
    href: `${HOW_IT_IS_COMPUTED}#${id}`,
    words: title,
  }));
  return [...formulas, { href: `${HOW_IT_IS_COMPUTED}#rule-${ruleId}`, words: 'The numbers of this rule' }];
}

function confidenceWords({ reason, confidence }: PlannedTask): string {
  const hangsOnWeather = reason.trigger === 'crossing' || reason.trigger === 'season';
  return hangsOnWeather ? `${Math.round(confidence * 100)} of 100 traces of the forecast` : '';
}

function dueWords({ due, latest }: NumberedTask, isRoutine: boolean, isLate: boolean, today: CivilDay): string {
  if (isRoutine) return latest >= today && due <= today ? 'this season' : `from ${shortDate(due)}`;
  if (isLate) return today - latest === 1 ? '1 day late' : `${today - latest} days late`;
  if (due < today) return `since ${shortDate(due)}`;
  return due === today ? 'due today' : `due ${shortDate(due)}`;
}

function windowWords({ task }: CareTaskView, mark: NumberedTask, today: CivilDay): string {
  const parts = [dateRange(mark.earliest, mark.latest, today)];
  if (mark.minutes > 0) parts.push(showMinutes(mark.minutes));
  if (task.heldDueOn !== null) parts.push('day set by hand');
  if (task.putOffUntil !== null && task.putOffUntil > isoDateOf(today))
    parts.push(`put off to ${shortDate(civilDay(task.putOffUntil))}`);
  if (task.visitId !== null && task.promisedOn !== null)
    parts.push(`on the visit of ${weekdayDate(civilDay(task.promisedOn))}`);
  else if (task.visitId !== null) parts.push('on a planned visit');
  else if (task.promisedOn !== null) parts.push(`mailed for ${shortDate(civilDay(task.promisedOn))}`);
  return parts.join(', ');
}

const SEASONS = ['winter', 'spring', 'summer', 'autumn'] as const;

/** `This autumn`, `Winter`, `Spring`, …; the year's end belongs to its winter. */
function groupTitle(day: CivilDay, today: CivilDay, latitude: number): string {
  const [season, year] = seasonOf(day, latitude);
  const [thisSeason, thisYear] = seasonOf(today, latitude);
  if (season === thisSeason && year === thisYear) return `This ${season}`;
  return season === thisSeason ? `Next ${season}` : season.charAt(0).toUpperCase() + season.slice(1);
}

function seasonOf(day: CivilDay, latitude: number): [(typeof SEASONS)[number], number] {
  const month = monthOf(day);
  const quarter = Math.floor((month % 12) / 3);
  const season = SEASONS[latitude < 0 ? (quarter + 2) % 4 : quarter] as (typeof SEASONS)[number];
  return [season, yearOf(day) + (month === 12 ? 1 : 0)];
}
