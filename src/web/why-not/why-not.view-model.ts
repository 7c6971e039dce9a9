import type { CareTaskView, PlanOutcomeEntity } from '../../care-calendar/index.js';
import { doneBy } from '../../core/care/agreement.js';
import type { NotDue } from '../../core/care/care-plan.js';
import type { CareRule } from '../../core/care/care-rule.js';
import { conflictWords, notDueWords, type ReadBy } from '../../core/care/explain.js';
import { type CivilDay, civilDay } from '../../core/units/civil-day.js';
import type { AgreementTermEntity } from '../../ponds/index.js';
import { shortDate } from '../charts/show-date.js';

export interface WhyNotLine {
  readonly ruleId: string;
  readonly title: string;
  readonly why: string;
}

type Rules = ReadonlyMap<string, CareRule>;
type Outcome = Pick<PlanOutcomeEntity, 'notDue' | 'conflicts'>;

/** What a homeowner may miss in a year; what needs things their pond does not have is no question of theirs. */
const ASKED_AT_HOME: ReadonlySet<NotDue['because']> = new Set<NotDue['because']>([
  'no-frost-climate',
  'not-this-climate',
  'not-this-tap',
  'not-this-stocking',
  'heated',
  'no-crossing',
  'gate-never-holds',
  'in-run-in',
  'in-stages',
  'already-finished',
  'beyond-horizon',
  'input-missing',
]);
/** What somebody at the pond can do something about, or would be asked about there. */
const ASKED_ON_SITE: ReadonlySet<NotDue['because']> = new Set<NotDue['because']>([
  'gate-never-holds',
  'input-missing',
  'no-reading',
  'in-run-in',
  'in-stages',
  'already-finished',
]);

/** For the office: every rule that gives no task now, with its source; where a later time stands, that too. */
export function whyNotForOffice(outcome: Outcome | null, rules: Rules, tasks: readonly CareTaskView[]): WhyNotLine[] {
  const nextOn = new Map<string, CivilDay>();
  for (const { rule, dueOn } of tasks) {
    const due = civilDay(dueOn);
    nextOn.set(rule.id, Math.min(nextOn.get(rule.id) ?? due, due) as CivilDay);
  }
  return lines(outcome, rules, 'office', () => true).map((line) => {
    const next = nextOn.get(line.ruleId);
    return next === undefined ? line : { ...line, why: `${line.why} The next one stands for ${shortDate(next)}.` };
  });
}

/** For a homeowner: only what would be theirs to do and has no task, in their words. */
export function whyNotAtHome(outcome: Outcome | null, rules: Rules, pond: PondOfLines): WhyNotLine[] {
  const isTheirs = (rule: CareRule) =>
    doneBy(rule, { agreement: terms(pond.agreement) }, pond.today, pond.defaultDoneBy) === 'homeowner';
  return withoutTask(
    lines(outcome, rules, 'homeowner', ({ because }, rule) => ASKED_AT_HOME.has(because) && isTheirs(rule)),
    pond.tasks,
  );
}

/** For who stands at the pond: only the company's work that waits for something found out there, or is done already. */
export function whyNotOnSite(outcome: Outcome | null, rules: Rules, pond: PondOfLines): WhyNotLine[] {
  const isOurs = (rule: CareRule) =>
    doneBy(rule, { agreement: terms(pond.agreement) }, pond.today, pond.defaultDoneBy) === 'technician';
  return withoutTask(
    lines(outcome, rules, 'technician', ({ because }, rule) => ASKED_ON_SITE.has(because) && isOurs(rule)),
    pond.tasks,
  );
}

/** What could not be arranged as the rules wish, of some of the rules or of all. */
export function conflictLines(outcome: Outcome | null, rules: Rules, of?: ReadonlySet<string>): string[] {
  const titleOf = (ruleId: string) => rules.get(ruleId)?.title ?? ruleId;
  return (outcome?.conflicts ?? [])
    .filter(({ ruleId }) => of === undefined || of.has(ruleId))
    .map((conflict) => `${titleOf(conflict.ruleId)}: ${conflictWords(conflict, titleOf(conflict.otherRuleId))}`);
}

export interface PondOfLines {
  readonly agreement: readonly AgreementTermEntity[];
  readonly defaultDoneBy: 'company' | 'homeowner';
  readonly today: CivilDay;
  readonly tasks: readonly CareTaskView[];
}

/** One line for each rule and reason; rules no longer in use say nothing. */
function lines(
  outcome: Outcome | null,
  rules: Rules,
  audience: ReadBy,
  isMeant: (notDue: NotDue, rule: CareRule) => boolean,
): WhyNotLine[] {
  const said = new Map<string, WhyNotLine>();
  for (const notDue of outcome?.notDue ?? []) {
    const rule = rules.get(notDue.ruleId);
    if (!rule || !isMeant(notDue, rule)) continue;
    const why = notDueWords(notDue, rule, undefined, audience);
    said.set(`${rule.id}\n${why}`, { ruleId: rule.id, title: rule.title, why });
  }
  return [...said.values()].sort((a, b) => (a.title < b.title ? -1 : a.title > b.title ? 1 : 0));
}

function withoutTask(some: readonly WhyNotLine[], tasks: readonly CareTaskView[]): WhyNotLine[] {
  const planned = new Set(tasks.map(({ rule }) => rule.id));
  return some.filter(({ ruleId }) => !planned.has(ruleId));
}

function terms(agreement: readonly AgreementTermEntity[]) {
  const day = (isoDate: string | null) => (isoDate === null ? null : civilDay(isoDate));
  return agreement.map((term) => ({
    ruleId: term.ruleId,
    doneBy: term.doneBy,
    from: day(term.fromOn),
    until: day(term.untilOn),
  }));
}
