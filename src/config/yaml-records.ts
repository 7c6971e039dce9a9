import { readFileSync } from 'node:fs';
import { isNode, LineCounter, parseDocument } from 'yaml';
import type { z } from 'zod';
import { nearestName, SettingsError } from './settings-faults.js';

/** A validated file, with the line of each of its fields for later complaints. */
export interface YamlRecord<T> {
  /** As named to a person, e.g. `config/care-rules/pump-clean.yaml`. */
  readonly file: string;
  readonly value: T;
  /** One complaint about a field: file, line, field, and the sentence given. */
  fault(path: readonly PropertyKey[], sentence: string): string;
}

/**
 * Reads and validates one YAML file.
 * @param file.shownAs How the file is named in complaints.
 * @throws SettingsError with one sentence for each fault: file, line, field, value and what is allowed.
 */
export function readYamlRecord<S extends z.ZodType>(
  file: { readonly path: string; readonly shownAs: string },
  schema: S,
): YamlRecord<z.output<S>> {
  const lines = new LineCounter();
  const document = parseDocument(textOf(file), { lineCounter: lines, prettyErrors: false });
  const lineAt = (offset: number) => lines.linePos(offset).line;
  const broken = document.errors[0];
  if (broken) {
    const sentence = broken.message.split('\n')[0];
    throw new SettingsError([`${file.shownAs}, line ${lineAt(broken.pos[0])}, is not YAML: ${sentence}`]);
  }

  const lineOf = (path: readonly PropertyKey[]) => {
    for (let length = path.length; length >= 0; length--) {
      const node = length === 0 ? document.contents : document.getIn(path.slice(0, length), true);
      if (isNode(node) && node.range) return lineAt(node.range[0]);
    }
    return 1;
  };
  const fault = (path: readonly PropertyKey[], sentence: string) =>
    `${file.shownAs}, line ${lineOf(path)}: ${fieldName(path)}${sentence}`;

  const content: unknown = document.toJS();
  const parsed = schema.safeParse(content);
  if (parsed.success) return { file: file.shownAs, value: parsed.data, fault };
  throw new SettingsError(parsed.error.issues.flatMap((issue) => sentencesOf(issue, content, fault)));
}

function textOf(file: { readonly path: string; readonly shownAs: string }): string {
  try {
    return readFileSync(file.path, 'utf8');
  } catch (error) {
    throw new SettingsError([
      `${file.shownAs} cannot be read (${(error as NodeJS.ErrnoException).code}). Put the file back.`,
    ]);
  }
}

function fieldName(path: readonly PropertyKey[]): string {
  return path.length === 0 ? '' : `${path.map(String).join('.')} `;
}

type Fault = YamlRecord<unknown>['fault'];

function sentencesOf(issue: z.core.$ZodIssue, content: unknown, fault: Fault): string[] {
  if (issue.code === 'unrecognized_keys') {
    const holder = valueAt(content, issue.path);
    return issue.keys.map((key) => fault([...issue.path, key], unknownKey(key, holder)));
  }
  const value = valueAt(content, issue.path);
  const shown = value === undefined ? 'is missing' : `is ${JSON.stringify(value)}`;
  return [fault(issue.path, `${shown}: ${issue.message}.`)];
}

function unknownKey(key: string, holder: unknown): string {
  const others = Object.keys((holder ?? {}) as object).filter((other) => other !== key);
  const near = nearestName(
    key,
    KNOWN_FIELDS.filter((field) => !others.includes(field)),
  );
  return `is not a field here.${near ? ` Did you mean ${near}?` : ''} Remove it, or correct its name.`;
}

/** Names worth proposing for a misspelt one. */
const KNOWN_FIELDS = [
  'title',
  'appliesTo',
  'perMachine',
  'optIn',
  'notAfter',
  'anyOf',
  'gates',
  'parameters',
  'audience',
  'neverHomeowner',
  'consequence',
  'routineLine',
  'minutes',
  'people',
  'skills',
  'parts',
  'steps',
  'quantities',
  'cautions',
  'evidence',
  'reason',
  'wouldChangeIf',
  'notWithin',
  'alignWith',
  'before',
  'overtakenBy',
  'source',
  'cycle',
  'value',
  'min',
  'max',
  'unit',
  'provenance',
  'section',
  'kind',
  'threshold',
  'direction',
  'limit',
  'days',
  'slackDays',
  'equipment',
  'winterClass',
  'firstLine',
  'lines',
  'defersTo',
] as const;

function valueAt(content: unknown, path: readonly PropertyKey[]): unknown {
  let value: unknown = content;
  for (const step of path) value = (value as Record<PropertyKey, unknown> | null | undefined)?.[step];
  return value;
}
