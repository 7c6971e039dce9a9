import { readdirSync } from 'node:fs';
import path from 'node:path';
import { isNeverHomeowners } from '../core/care/agreement.js';
import type { CareRule } from '../core/care/care-rule.js';
import { type CareRuleFile, CareRuleSchema } from './care-rule-schema.js';
import { loadCautions } from './cautions.js';
import { SettingsError } from './settings-faults.js';
import { readYamlRecord, type YamlRecord } from './yaml-records.js';

const FOLDER = 'care-rules';

type RuleRecord = YamlRecord<CareRuleFile>;
type Path = readonly PropertyKey[];

/**
 * Reads `care-rules/*.yaml` and checks the rules against each other and against `cautions.yaml`.
 * @param configDirectory The folder that holds `care-rules/` and `cautions.yaml`.
 * @returns The rules in order of their ids.
 * @throws SettingsError with one sentence for each fault: file, line, field, value and what is allowed.
 */
export function loadCareRules(configDirectory: string): CareRule[] {
  const cautions = new Set(loadCautions(configDirectory).map((caution) => caution.id));
  const { records, unread, faults } = readRules(configDirectory);
  // A file that could not be read is complained of once, not again by every rule that names it.
  const ids = new Set([...records.map((record) => record.value.id), ...unread]);
  for (const record of records) {
    faults.push(...faultsOfName(record), ...faultsOfTwins(record, records), ...faultsOfNumbers(record));
    faults.push(
      ...faultsOfNames(record),
      ...faultsOfKinds(record),
      ...faultsOfMachines(record),
      ...faultsOfSafety(record),
      ...faultsOfLinks(record, ids, cautions),
    );
  }
  if (faults.length > 0) throw new SettingsError(faults);
  return records.map((record) => record.value as CareRule).sort((a, b) => (a.id < b.id ? -1 : 1));
}

function readRules(configDirectory: string): { records: RuleRecord[]; unread: string[]; faults: string[] } {
  const folder = path.join(configDirectory, FOLDER);
  const records: RuleRecord[] = [];
  const unread: string[] = [];
  const faults: string[] = [];
  for (const name of fileNames(folder)) {
    try {
      const file = { path: path.join(folder, name), shownAs: `config/${FOLDER}/${name}` };
      records.push(readYamlRecord(file, CareRuleSchema));
    } catch (error) {
      if (!(error instanceof SettingsError)) throw error;
      unread.push(path.basename(name, '.yaml'));
      faults.push(...error.faults);
    }
  }
  return { records, unread, faults };
}

function fileNames(folder: string): string[] {
  let names: string[];
  try {
    names = readdirSync(folder);
  } catch (error) {
    throw new SettingsError([
      `config/${FOLDER} cannot be read (${(error as NodeJS.ErrnoException).code}). Put the folder back.`,
    ]);
  }
  const yaml = names.filter((name) => name.endsWith('.yaml')).sort();
  if (yaml.length === 0) throw new SettingsError([`config/${FOLDER} holds no rule. Put the files back.`]);
  return yaml;
}

function faultsOfName({ value, file, fault }: RuleRecord): string[] {
  const name = path.basename(file, '.yaml');
  return value.id === name ? [] : [fault(['id'], `is "${value.id}", but the file is ${name}.yaml. Make them agree.`)];
}

function faultsOfTwins(record: RuleRecord, records: readonly RuleRecord[]): string[] {
  const twin = records.find((other) => other !== record && other.value.id === record.value.id);
  return twin
    ? [record.fault(['id'], `is "${record.value.id}", as in ${twin.file}. Give one of them another id.`)]
    : [];
}

/** Every number lies in its own range. */
function faultsOfNumbers({ value, fault }: RuleRecord): string[] {
  const numbers = [
    ...Object.entries(value.parameters).map(([name, number]) => ({ at: ['parameters', name, 'value'], ...number })),
    { at: ['minutes', 'value'], ...value.minutes },
  ];
  return numbers
    .filter((number) => number.value < number.min || number.value > number.max)
    .map((number) => fault(number.at, `is ${number.value}; allowed is ${number.min} to ${number.max} ${number.unit}.`));
}

const NAMING_FIELDS = [
  'threshold',
  'leadDays',
  'earlyDays',
  'lateDays',
  'limit',
  'tolerancePct',
  'days',
  'minDays',
  'maxDays',
  'floorDays',
  'slackDays',
  'afterDays',
  'withinDays',
  'lastingDays',
  'trendDays',
  'freshDays',
  'aboveC',
  'belowC',
  'airBelowC',
];

/** Fish are not handled by one person alone, and what nobody at home may do is not theirs by the file either. */
function faultsOfSafety({ value, fault }: RuleRecord): string[] {
  const isAlone = value.people === 1 && value.skills.includes('fish handling');
  const isAtHome = value.audience === 'homeowner' && isNeverHomeowners(value);
  return [
    ...(isAlone ? [fault(['people'], 'is 1; handling fish takes 2.')] : []),
    ...(isAtHome ? [fault(['audience'], 'is homeowner, but the work is never theirs. Write technician.')] : []),
  ];
}

/** A rule of machines says which, and counts; a standing line is of the pond. */
function faultsOfMachines({ value, fault }: RuleRecord): string[] {
  if (!value.perMachine) return [];
  const isCounted = value.cycle === 'count' && !value.routineLine && value.appliesTo.equipment !== undefined;
  return isCounted ? [] : [fault(['perMachine'], 'is true: such a rule has the cycle count and appliesTo.equipment.')];
}

/** Every number a trigger or gate names is a parameter of the rule. */
function faultsOfNames({ value, fault }: RuleRecord): string[] {
  const known = Object.keys(value.parameters);
  const named = [
    ...value.anyOf.flatMap((trigger, index) => namesIn(trigger, ['anyOf', index])),
    ...value.gates.flatMap((gate, index) => namesIn(gate, ['gates', index])),
  ];
  return named
    .filter(({ name }) => !known.includes(name))
    .map(({ at, name }) =>
      fault(at, `names "${name}", which is no parameter of the rule: ${known.join(', ') || 'none'}.`),
    );
}

function namesIn(holder: object, at: Path): { at: Path; name: string }[] {
  return Object.entries(holder).flatMap(([field, value]) => {
    if (typeof value === 'object' && value !== null) return namesIn(value, [...at, field]);
    return NAMING_FIELDS.includes(field) && typeof value === 'string' ? [{ at: [...at, field], name: value }] : [];
  });
}

/** Kinds of trigger that can name a task of each cycle. */
const KINDS_OF_CYCLE: Readonly<Record<CareRule['cycle'], readonly string[]>> = {
  count: ['interval', 'accumulation', 'reading'],
  cooling: ['crossing', 'season'],
  warming: ['crossing', 'season'],
  event: ['event'],
  reading: ['reading'],
};

/** The cycle names the tasks, so it says which triggers a rule may have. */
function faultsOfKinds({ value, fault }: RuleRecord): string[] {
  if (value.routineLine) {
    const isLine = value.cycle === 'warming' && value.anyOf.length === 1 && value.anyOf[0]?.kind === 'interval';
    return isLine ? [] : [fault(['routineLine'], 'is true: such a rule has the cycle warming and one interval.')];
  }
  return value.anyOf.flatMap((trigger, index) => {
    const allowed = KINDS_OF_CYCLE[value.cycle];
    if (!allowed.includes(trigger.kind)) {
      return [
        fault(['anyOf', index, 'kind'], `is ${trigger.kind}; cycle ${value.cycle} takes ${allowed.join(' or ')}.`),
      ];
    }
    const direction = value.cycle === 'cooling' ? 'falling' : 'rising';
    if (trigger.kind === 'crossing' && trigger.direction !== direction) {
      return [
        fault(['anyOf', index, 'direction'], `is ${trigger.direction}; cycle ${value.cycle} takes ${direction}.`),
      ];
    }
    if (trigger.kind === 'interval' && trigger.fromInstallation && !value.perMachine) {
      return [fault(['anyOf', index, 'fromInstallation'], 'is true: such a rule has perMachine true.')];
    }
    if (trigger.kind === 'event' && (trigger.event === 'task-completed') !== (trigger.ofRule !== undefined)) {
      return [fault(['anyOf', index, 'ofRule'], 'goes with the event task-completed, and only with it.')];
    }
    return [];
  });
}

/** Ids of other rules and of cautions lead somewhere. */
function faultsOfLinks(
  { value, fault }: RuleRecord,
  rules: ReadonlySet<string>,
  cautions: ReadonlySet<string>,
): string[] {
  const links: { at: Path; id: string }[] = [
    ...value.notWithin.map((other, index) => ({ at: ['notWithin', index, 'ruleId'], id: other.ruleId })),
    ...value.alignWith.map((id, index) => ({ at: ['alignWith', index], id })),
    ...value.before.map((id, index) => ({ at: ['before', index], id })),
    ...value.overtakenBy.map((id, index) => ({ at: ['overtakenBy', index], id })),
    ...value.anyOf.flatMap((trigger, index) => {
      if (trigger.kind === 'event' && trigger.ofRule) return [{ at: ['anyOf', index, 'ofRule'], id: trigger.ofRule }];
      if (trigger.kind === 'interval' && trigger.fromRule)
        return [{ at: ['anyOf', index, 'fromRule'], id: trigger.fromRule }];
      return [];
    }),
    ...value.gates.flatMap((gate, index) => {
      if (gate.kind === 'rule-completed') return [{ at: ['gates', index, 'ruleId'], id: gate.ruleId }];
      if (gate.kind !== 'reading-below') return [];
      return (['sinceRule', 'orSinceRule'] as const).flatMap((field) => {
        const ruleId = gate[field];
        return ruleId ? [{ at: ['gates', index, field], id: ruleId }] : [];
      });
    }),
  ];
  return [
    ...links
      .filter((link) => !rules.has(link.id))
      .map((link) => fault(link.at, `is "${link.id}", but no rule has that id.`)),
    ...value.cautions.flatMap((id, index) =>
      cautions.has(id) ? [] : [fault(['cautions', index], `is "${id}", but config/cautions.yaml has no such caution.`)],
    ),
  ];
}
