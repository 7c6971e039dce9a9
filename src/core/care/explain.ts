import type { UnitSystem } from '../units/show.js';
import type { Conflict, NotDue, PlannedTask, PondFinding, Quantity } from './care-plan.js';
import type { CareRule, ReadingQuantity, RunningLoad } from './care-rule.js';
import { en } from './wording/en.js';
import { ruleIn } from './wording/in-language.js';
import { shownAmount, shownBasis } from './wording/shown-amount.js';
import { shownInput, shownInputs } from './wording/shown-inputs.js';
import { filled, type Template, type Wording } from './wording/wording.js';

/** Who reads: the office also gets formula, source and confidence; the technician the figures without the lesson. */
export type ReadBy = 'homeowner' | 'technician' | 'office';

export interface TaskWords {
  readonly title: string;
  readonly why: string;
  /** One line for each amount, with its basis and its remarks. */
  readonly howMuch: readonly string[];
  readonly wouldChangeIf: string;
}

/** A task in words. A second language is another `Wording`. */
export function taskWords(said: {
  readonly task: PlannedTask;
  readonly rule: CareRule;
  readonly audience: ReadBy;
  readonly units: UnitSystem;
  readonly wording?: Wording;
}): TaskWords {
  const { task, audience, units, wording = en } = said;
  const rule = ruleIn(said.rule, wording);
  const facts = factsWords(task, units, wording);
  const worked = filled(wording.why.worked, {
    formula: task.reason.formula,
    source: task.reason.source,
    confidence: String(Math.round(task.confidence * 100)),
  });
  const why = { homeowner: [rule.reason, facts], technician: [facts], office: [rule.reason, facts, worked] }[audience];
  return {
    title: taskTitle(task, rule, wording),
    why: why.filter((sentence) => sentence !== '').join(' '),
    howMuch: task.quantities.map((quantity) => amountWords(quantity, audience, units, wording)),
    wouldChangeIf: changeWords(task, rule, audience, units, wording),
  };
}

/** The title of the rule, with the machine where each machine has a task of its own. */
export function taskTitle(task: Pick<PlannedTask, 'machine'>, rule: CareRule, wording: Wording = en): string {
  const { title } = ruleIn(rule, wording);
  return task.machine ? `${title}: ${task.machine.name}` : title;
}

/** The homeowner reads how much; the office also by which formula and after whom. */
function amountWords(quantity: Quantity, audience: ReadBy, units: UnitSystem, wording: Wording): string {
  const words = quantityWords(quantity, units, wording);
  if (audience !== 'office') return words;
  return `${words} ${filled(wording.workedAmount, { formula: quantity.formula, source: quantity.source })}`;
}

/** The homeowner reads what the rule says; who does it also what moves the day; the office also what may be set. */
function changeWords(task: PlannedTask, rule: CareRule, audience: ReadBy, units: UnitSystem, wording: Wording): string {
  if (audience === 'homeowner') return rule.wouldChangeIf;
  const moved = task.routineLine ? '' : wording.change[task.reason.trigger];
  const set = audience === 'office' ? setWords(task, rule, units, wording) : '';
  return [rule.wouldChangeIf, moved, set].filter((sentence) => sentence !== '').join(' ');
}

/** The numbers behind the trigger that fired, each with its range. */
function setWords({ reason }: PlannedTask, rule: CareRule, units: UnitSystem, wording: Wording): string {
  const names = new Set(
    rule.anyOf
      .filter(({ kind }) => kind === reason.trigger)
      .flatMap((trigger) => Object.values(trigger))
      .filter((value): value is string => typeof value === 'string' && rule.parameters[value] !== undefined),
  );
  const parameters = [...names].flatMap((name) => {
    const set = rule.parameters[name];
    if (!set) return [];
    const show = (value: number) => shownInput({ name, value, unit: set.unit }, units, wording);
    const values = { name: nameInWords(name), value: show(set.value), min: show(set.min), max: show(set.max) };
    return [filled(wording.change.parameter, values)];
  });
  return parameters.length === 0 ? '' : filled(wording.change.set, { parameters: parameters.join(', ') });
}

/** `stopBelowC` as "stop below"; the unit stands with the value. */
function nameInWords(name: string): string {
  const words = name.replace(/([A-Z])/g, ' $1').toLowerCase();
  return words.replace(/ (c|m|mm|cm|pct|mg (n )?per l)$/, '').trim();
}

/** The sentence of the reason's own figures. */
function factsWords({ reason, routineLine }: PlannedTask, units: UnitSystem, wording: Wording): string {
  const shown = shownInputs(reason.inputs, units, wording);
  const sentences = [filled(reasonTemplate(reason, routineLine, wording), shown)];
  if (reason.trigger === 'interval' && shown['season-above'])
    sentences.push(filled(wording.why.interval['season-above'], shown));
  if (reason.trigger === 'interval' && shown['season-below'])
    sentences.push(filled(wording.why.interval['season-below'], shown));
  if (shown.waited) sentences.push(filled(wording.why.waited, shown));
  return sentences.join(' ');
}

function reasonTemplate(reason: PlannedTask['reason'], routineLine: boolean, { why }: Wording): Template {
  const raw = new Map(reason.inputs.map(({ name, value }) => [name, value]));
  switch (reason.trigger) {
    case 'crossing': {
      const direction: 'rising' | 'falling' = raw.get('direction') === 'rising' ? 'rising' : 'falling';
      const isPast = raw.get('crossing-p10') === raw.get('crossing-p90');
      return why.crossing[isPast ? (`${direction}-past` as const) : direction];
    }
    case 'accumulation':
      return raw.has('season-starts')
        ? why.accumulation['lamp-season']
        : why.accumulation[raw.get('load') as RunningLoad];
    case 'interval':
      if (routineLine) return why.interval.line;
      return raw.has('last-done') ? why.interval.again : why.interval.first;
    case 'event':
      return why.event[raw.get('event') as keyof typeof why.event];
    case 'season':
      return why.season[raw.get('mark') as keyof typeof why.season];
    case 'reading':
      return why.reading[`${raw.get('when') === 'below' ? 'below' : 'above'}${raw.has('passes-on') ? '-trend' : ''}`];
  }
}

/** One amount with what it is for, and its remarks as sentences. */
export function quantityWords(quantity: Quantity, units: UnitSystem, wording: Wording = en): string {
  const values = {
    amount: shownAmount(quantity, units),
    basis: shownBasis(quantity, units),
    percent: percentOf(quantity),
    product: quantity.productName,
  };
  const sentence = filled(wording.howMuch[formOf(quantity)] ?? `{amount} ${quantity.of}`, values);
  const solution = solutionWords(quantity, values.amount, wording);
  const remarks = quantity.remarks.flatMap((remark) => (wording.remarks[remark] ? [wording.remarks[remark]] : []));
  return [sentence, ...solution, ...remarks].join(' ');
}

function formOf({ of, amount, computed, basis, per }: Quantity): string {
  if (of === 'feed' && computed === 0) return 'feed-none';
  if (of === 'top-up-water' && computed === 0) return 'top-up-water-none';
  if (of === 'media') return amount === 1 ? 'media-all' : 'media-part';
  if (of === 'dechlorinator') return `dechlorinator-${basis.of}${per === 'per-week' ? '-week' : ''}`;
  return of;
}

function percentOf({ unit, computed, basis }: Quantity): string | undefined {
  if (unit === 'share') return String(Math.round(computed * 100));
  return unit === 'L' && basis.unit === 'L' ? String(Math.round((100 * computed) / basis.amount)) : undefined;
}

function solutionWords(quantity: Quantity, amount: string, wording: Wording): string[] {
  const strength = quantity.remarks.map((remark) => /^made-up-solution-(\d+)-g-per-l$/.exec(remark)?.[1]).find(Boolean);
  return strength ? [filled(wording.madeUpSolution, { strength: `${strength} g`, amount })] : [];
}

/** Why a rule gives no task, in a sentence; for the office also where the rule comes from. */
export function notDueWords(
  notDue: NotDue,
  rule: CareRule,
  wording: Wording = en,
  audience: ReadBy = 'technician',
): string {
  const waitsFor = wording.gates[notDue.detail] ?? wording.gates[notDue.detail.split(/[ ,]/)[0] ?? ''] ?? notDue.detail;
  const atHome = audience === 'homeowner' ? wording.notDueAtHome[notDue.because] : undefined;
  const words = filled(atHome ?? wording.notDue[notDue.because], { detail: notDue.detail, 'waits-for': waitsFor });
  return audience === 'office' ? `${words} ${filled(wording.notDueSource, { source: rule.source })}` : words;
}

/** A verdict on the pond itself, and what to do about it. */
export function findingWords(finding: PondFinding, units: UnitSystem, wording: Wording = en): string {
  const shown = shownInputs(finding.inputs, units, wording);
  const kind = finding.inputs.find(({ name }) => name === 'warning' || name === 'verdict')?.value;
  const advice = wording.findingAdvice[String(kind)] ?? wording.findingAdvice[finding.code] ?? '';
  return `${filled(wording.findings[finding.code], shown)} ${filled(advice, shown)}`.trim();
}

/** What could not be honoured between two rules. */
export function conflictWords(conflict: Conflict, otherTitle: string, wording: Wording = en): string {
  return filled(wording.conflicts[conflict.kind], { other: otherTitle, detail: conflict.detail });
}

/** A measured quantity by name, e.g. "Total ammonia". */
export function readingName(quantity: ReadingQuantity, wording: Wording = en): string {
  return wording.readings[quantity];
}
