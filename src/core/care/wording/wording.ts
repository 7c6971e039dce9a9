import type { Conflict, NotDue, PondFinding, Quantity } from '../care-plan.js';
import type { CareEvent, ReadingQuantity, RunningLoad, SeasonMark } from '../care-rule.js';

/** A sentence with `{names}` to be filled in. */
export type Template = string;

/**
 * Everything the calendar says in its own words, in one language. A second language is a second file of this shape.
 * Titles, steps and reasons of the rules and the cautions stand in `config/`.
 */
export interface Wording {
  readonly language: string;
  /** Parts nobody who grew up with the language has read; cautions need such a reader. */
  readonly unreviewed: readonly string[];
  readonly months: readonly string[];
  /** With `{day}`, `{month}`, `{year}`. */
  readonly date: Template;
  readonly why: {
    readonly crossing: Readonly<Record<'rising' | 'falling' | 'rising-past' | 'falling-past', Template>>;
    readonly accumulation: Readonly<Record<RunningLoad | 'lamp-season', Template>>;
    readonly interval: Readonly<Record<'again' | 'first' | 'season-above' | 'season-below' | 'line', Template>>;
    readonly event: Readonly<Record<CareEvent, Template>>;
    readonly season: Readonly<Record<SeasonMark, Template>>;
    readonly reading: Readonly<Record<'above' | 'below', Template>>;
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
  readonly perDay: Template;
  readonly notDue: Readonly<Record<NotDue['because'], Template>>;
  /** What a closed gate waits for, by its kind. */
  readonly gates: Readonly<Record<string, Template>>;
  readonly findings: Readonly<Record<PondFinding['code'], Template>>;
  /** The second sentence of a finding, by code or by its `warning` or `verdict`. */
  readonly findingAdvice: Readonly<Record<string, Template>>;
  readonly conflicts: Readonly<Record<Conflict['kind'], Template>>;
  readonly units: Readonly<Record<Quantity['unit'], string>>;
}

/** Fills the names of a template in. A name without a value is left out together with the space before it. */
export function filled(template: Template, values: Readonly<Record<string, string | undefined>>): string {
  return template.replace(/ ?\{([a-z0-9-]+)\}/g, (whole, name: string) => {
    const value = values[name];
    if (value === undefined || value === '') return '';
    return whole.startsWith(' ') ? ` ${value}` : value;
  });
}
