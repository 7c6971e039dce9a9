import type { Conflict, NotDue, PondFinding, Quantity } from '../care-plan.js';
import type { CareEvent, ReadingQuantity, RunningLoad, SeasonMark, TriggerKind } from '../care-rule.js';

/** A sentence with `{names}` to be filled in. */
export type Template = string;

/**
 * Everything the calendar says in its own words, in one language. English stands in `en.ts`, and for rules and cautions
 * in their own files in `config/`; any other language is one file `config/wording/<language>.yaml` that says again what
 * it has words for. What it leaves out is said in English.
 */
export interface Wording {
  readonly language: string;
  /** Parts nobody who grew up with the language has read; cautions need such a reader. */
  readonly unreviewed: readonly string[];
  /** Texts of rules, by their ids; a text that is not here is the rule's own. */
  readonly rules: Readonly<Record<string, Partial<RuleTexts>>>;
  /** Cautions, by their ids; one that is not here is the one of `cautions.yaml`. */
  readonly cautions: Readonly<Record<string, CautionTexts>>;
  readonly months: readonly string[];
  /** With `{day}`, `{month}`, `{year}`. */
  readonly date: Template;
  readonly why: {
    readonly crossing: Readonly<Record<'rising' | 'falling' | 'rising-past' | 'falling-past', Template>>;
    readonly accumulation: Readonly<Record<RunningLoad | 'lamp-season', Template>>;
    readonly interval: Readonly<Record<'again' | 'first' | 'season-above' | 'season-below' | 'line', Template>>;
    readonly event: Readonly<Record<CareEvent, Template>>;
    readonly season: Readonly<Record<SeasonMark, Template>>;
    readonly reading: Readonly<Record<'above' | 'below' | 'above-trend' | 'below-trend', Template>>;
    /** The task waited for its gates. */
    readonly waited: Template;
    /** For the office: formula, source, confidence. */
    readonly worked: Template;
  };
  readonly readings: Readonly<Record<ReadingQuantity, string>>;
  /** By `of` of the quantity, some with a second form. */
  readonly howMuch: Readonly<Record<string, Template>>;
  /** By remark; a remark that is not here is for programs only. */
  readonly remarks: Readonly<Record<string, Template>>;
  readonly madeUpSolution: Template;
  /** For the office: formula and source of an amount. */
  readonly workedAmount: Template;
  readonly perDay: Template;
  /** What moves a task besides what its rule says, by the kind of its trigger; `set` and `parameter` are for the office. */
  readonly change: Readonly<Record<TriggerKind | 'set' | 'parameter', Template>>;
  readonly notDue: Readonly<Record<NotDue['because'], Template>>;
  /** The same to the homeowner, where other words are better. */
  readonly notDueAtHome: Readonly<Partial<Record<NotDue['because'], Template>>>;
  /** For the office: where the rule comes from. */
  readonly notDueSource: Template;
  /** What a closed gate waits for, by its kind. */
  readonly gates: Readonly<Record<string, Template>>;
  readonly findings: Readonly<Record<PondFinding['code'], Template>>;
  /** The second sentence of a finding, by code or by its `warning` or `verdict`. */
  readonly findingAdvice: Readonly<Record<string, Template>>;
  readonly conflicts: Readonly<Record<Conflict['kind'], Template>>;
  readonly units: Readonly<Record<Quantity['unit'], string>>;
}

/** The texts of a rule that a language may say again. */
export interface RuleTexts {
  readonly title: string;
  readonly steps: readonly string[];
  readonly reason: string;
  readonly wouldChangeIf: string;
  readonly skills: readonly string[];
  readonly parts: readonly string[];
  readonly evidence: readonly string[];
}

/** A caution in another language. Unreviewed until somebody who grew up with the language has read it. */
export interface CautionTexts {
  readonly firstLine: string;
  readonly lines: readonly string[];
  readonly defersTo: string;
  readonly reviewed: boolean;
}

/** Fills the names of a template in. A name without a value is left out together with the space before it. */
export function filled(template: Template, values: Readonly<Record<string, string | undefined>>): string {
  return template.replace(/ ?\{([a-z0-9-]+)\}/g, (whole, name: string) => {
    const value = values[name];
    if (value === undefined || value === '') return '';
    return whole.startsWith(' ') ? ` ${value}` : value;
  });
}
