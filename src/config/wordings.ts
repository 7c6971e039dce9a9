import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { z } from 'zod';
import type { CareRule } from '../core/care/care-rule.js';
import type { Caution } from '../core/care/caution.js';
import { en } from '../core/care/wording/en.js';
import type { Wording } from '../core/care/wording/wording.js';
import { SettingsError } from './settings-faults.js';
import { readYamlRecord, type YamlRecord } from './yaml-records.js';

const FOLDER = 'wording';

const text = z.string().min(1, 'write a few words');
const list = z.array(text).optional();

const WordingFileSchema = z.strictObject({
  language: z.string().regex(/^[a-z]{2}(-[A-Z]{2})?$/, 'write a language code, e.g. fr or pt-BR'),
  calendar: z.record(z.string(), z.unknown()).default({}),
  rules: z
    .record(
      z.string(),
      z.strictObject({
        title: text.optional(),
        steps: list,
        reason: text.optional(),
        wouldChangeIf: text.optional(),
        skills: list,
        parts: list,
        evidence: list,
      }),
    )
    .default({}),
  cautions: z
    .record(
      z.string(),
      z.strictObject({
        firstLine: text,
        lines: z.array(text).max(3, 'write at most three lines').default([]),
        defersTo: text,
        reviewed: z.boolean('write true once somebody who grew up with the language has read it'),
      }),
    )
    .default({}),
});
type WordingFile = z.output<typeof WordingFileSchema>;
type WordingRecord = YamlRecord<WordingFile>;

/** Parts of a `Wording` that a file says elsewhere. */
const NOT_IN_CALENDAR: readonly string[] = ['language', 'unreviewed', 'rules', 'cautions'];

/**
 * English, and every language of `wording/*.yaml`, each a file that may leave out what it has no words for yet.
 * Cautions that nobody who grew up with the language has read are listed in `unreviewed`.
 * @returns By language code; `en` is always there.
 * @throws SettingsError naming file, line, field, value and what is allowed.
 */
export function loadWordings(
  configDirectory: string,
  known: { readonly rules: readonly CareRule[]; readonly cautions: readonly Caution[] },
): ReadonlyMap<string, Wording> {
  const folder = path.join(configDirectory, FOLDER);
  const names = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.yaml')) : [];
  const wordings = new Map<string, Wording>([[en.language, en]]);
  const faults: string[] = [];
  for (const name of names.sort()) {
    const file = { path: path.join(folder, name), shownAs: `config/${FOLDER}/${name}` };
    const record = readYamlRecord(file, WordingFileSchema);
    const found = [...faultsOfFile(record, name, wordings), ...faultsOfTexts(record, known)];
    const calendar = said(en, record.value.calendar, ['calendar'], record, found) as unknown as Wording;
    wordings.set(record.value.language, wordingOf(record.value, calendar, known.cautions));
    faults.push(...found);
  }
  if (faults.length > 0) throw new SettingsError(faults);
  return wordings;
}

function wordingOf({ language, rules, cautions }: WordingFile, calendar: Wording, known: readonly Caution[]): Wording {
  const unreviewed = known.map(({ id }) => id).filter((id) => cautions[id]?.reviewed !== true);
  // Nothing in a rule is undefined that was not left out: left-out texts have no key after parsing.
  return { ...calendar, language, unreviewed, rules: rules as Wording['rules'], cautions };
}

function faultsOfFile({ value, fault }: WordingRecord, name: string, wordings: ReadonlyMap<string, Wording>): string[] {
  const { language } = value;
  if (language === en.language) return [fault(['language'], 'is "en", which is the language of the rules themselves.')];
  if (wordings.has(language)) return [fault(['language'], `is "${language}", as in another file. Join the two.`)];
  const expected = path.basename(name, '.yaml');
  return language === expected
    ? []
    : [fault(['language'], `is "${language}", but the file is ${name}. Make them agree.`)];
}

/** Rules and cautions that are there, and as many steps as the rule has: a step that is lost can hurt someone. */
function faultsOfTexts(
  { value, fault }: WordingRecord,
  known: { readonly rules: readonly CareRule[]; readonly cautions: readonly Caution[] },
): string[] {
  const ofRules = Object.entries(value.rules).flatMap(([id, texts]) => {
    const rule = known.rules.find((candidate) => candidate.id === id);
    if (!rule) return [fault(['rules', id], 'is no rule. Remove it, or correct its id.')];
    return (['steps', 'skills', 'parts', 'evidence'] as const).flatMap((field) =>
      texts[field] && texts[field].length !== rule[field].length
        ? [fault(['rules', id, field], `has ${texts[field].length} lines; the rule has ${rule[field].length}.`)]
        : [],
    );
  });
  const ofCautions = Object.entries(value.cautions).flatMap(([id, texts]) => {
    const caution = known.cautions.find((candidate) => candidate.id === id);
    if (!caution) return [fault(['cautions', id], 'is no caution. Remove it, or correct its id.')];
    return texts.lines.length === caution.lines.length
      ? []
      : [fault(['cautions', id, 'lines'], `has ${texts.lines.length}; the caution has ${caution.lines.length}.`)];
  });
  return [...ofRules, ...ofCautions];
}

/** The English tree with what a file says laid over it; names that English has not, and lost `{names}`, are faults. */
function said(
  english: object,
  translated: object,
  at: readonly string[],
  record: WordingRecord,
  faults: string[],
): Record<string, unknown> {
  const merged: Record<string, unknown> = { ...english };
  for (const [key, value] of Object.entries(translated)) {
    const source = (english as Record<string, unknown>)[key];
    const here = [...at, key];
    if (source === undefined || (at.length === 1 && NOT_IN_CALENDAR.includes(key))) {
      faults.push(record.fault(here, 'is nothing the calendar says. Remove it, or correct its name.'));
    } else if (typeof source === 'string') {
      faults.push(...faultsOfTemplate(source, value, here, record));
      merged[key] = value;
    } else if (Array.isArray(source)) {
      const isWhole = Array.isArray(value) && value.length === source.length;
      if (!isWhole) faults.push(record.fault(here, `must be a list of ${source.length}.`));
      merged[key] = value;
    } else if (typeof value === 'object' && value !== null) {
      merged[key] = said(source as object, value, here, record, faults);
    } else {
      faults.push(record.fault(here, 'must be a group of sentences, as in English.'));
    }
  }
  return merged;
}

function faultsOfTemplate(source: string, value: unknown, at: readonly string[], record: WordingRecord): string[] {
  if (typeof value !== 'string') return [record.fault(at, 'must be a sentence.')];
  const names = (template: string) => new Set(template.match(/\{[a-z0-9-]+\}/g) ?? []);
  const strange = [...names(value)].filter((name) => !names(source).has(name));
  const lost = [...names(source)].filter((name) => !names(value).has(name));
  return [
    ...strange.map((name) => record.fault(at, `names ${name}, which the English sentence does not.`)),
    ...lost.map((name) => record.fault(at, `has lost ${name}, which the English sentence names.`)),
  ];
}
