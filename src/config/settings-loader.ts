import { accessSync, constants, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseDocument } from 'yaml';
import { z } from 'zod';
import { readDkimKey } from './dkim-key.js';
import type { Settings } from './settings.js';
import { nearestName, SettingsError } from './settings-faults.js';
import { SETTING_NAMES, type SettingName } from './settings-names.js';
import { type RawSettings, SettingsSchema } from './settings-schema.js';

const FILE = 'defaults.yaml';
const PREFIX = 'TARNKEEP_';
const PLACEHOLDER_ADDRESS = 'reminders@example.com';
type Tree = Record<string, unknown>;

export interface SettingsSources {
  readonly environment: Readonly<Record<string, string | undefined>>;
  /** The folder that holds `defaults.yaml`. */
  readonly configDirectory: string;
  /** Options of the command line by dotted name, e.g. `{ port: '3100' }`; they win over the environment. */
  readonly flags?: Readonly<Record<string, string | undefined>>;
  /** Where relative paths of environment and flags start. Default: the working folder. */
  readonly workingDirectory?: string;
}

/**
 * Reads `config/defaults.yaml`, then the environment, then the flags; the later wins.
 * @throws SettingsError with one sentence for each fault: which setting, the value (never a secret), what is allowed.
 */
export function loadSettings(sources: SettingsSources): Settings {
  const faults: string[] = [];
  const tree = readDefaults(sources.configDirectory);
  overlay(tree, fromEnvironment(sources.environment, faults), sources);
  overlay(tree, fromFlags(sources.flags ?? {}, faults), sources);

  const parsed = SettingsSchema.safeParse(tree);
  if (!parsed.success) faults.push(...sentences(parsed.error.issues, tree));
  else if (parsed.data.smtp && parsed.data.mailFrom.address === PLACEHOLDER_ADDRESS) {
    faults.push(
      `mailFrom.address: ${PLACEHOLDER_ADDRESS} is only a placeholder. Mail would leave under it: write your own address in config/${FILE} or in TARNKEEP_MAIL_FROM_ADDRESS.`,
    );
  }
  if (faults.length > 0 || !parsed.success) throw new SettingsError(faults);
  return { ...settled(parsed.data, sources), dkim: signingKey(parsed.data, sources) };
}

/**
 * Makes the data folder and proves that it can be written.
 * @throws SettingsError naming the folder and the system's reason.
 */
export function prepareDataDirectory(settings: Pick<Settings, 'dataDirectory'>): void {
  const probe = path.join(settings.dataDirectory, `.write-test-${process.pid}`);
  try {
    makeDirectory(settings.dataDirectory);
    accessSync(settings.dataDirectory, constants.W_OK | constants.X_OK);
    writeFileSync(probe, '');
    rmSync(probe);
  } catch (error) {
    throw new SettingsError([
      `dataDirectory: ${settings.dataDirectory} cannot be written (${(error as NodeJS.ErrnoException).code}). ` +
        `Give this user the right to write there, or name another folder in TARNKEEP_DATA_DIRECTORY.`,
    ]);
  }
}

/**
 * One folder after the other: asked to make them all at once, Node 20 never returns on a file system that takes no
 * new folders and says "no such file" instead of "not permitted".
 */
function makeDirectory(directory: string): void {
  if (existsSync(directory)) return;
  const parent = path.dirname(directory);
  if (parent !== directory) makeDirectory(parent);
  mkdirSync(directory);
}

function readDefaults(configDirectory: string): Tree {
  const file = path.join(configDirectory, FILE);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    throw new SettingsError([`${file} cannot be read (${(error as NodeJS.ErrnoException).code}). Put the file back.`]);
  }
  const document = parseDocument(text);
  const broken = document.errors[0];
  if (broken) {
    const line = broken.linePos?.[0].line ?? 1;
    throw new SettingsError([`config/${FILE}, line ${line}, is not YAML: ${broken.message.split('\n')[0]}`]);
  }
  const tree: unknown = document.toJS();
  if (!isTree(tree)) throw new SettingsError([`config/${FILE} holds no settings. Put the file back.`]);
  return tree;
}

function fromEnvironment(environment: SettingsSources['environment'], faults: string[]): Map<SettingName, string> {
  const found = new Map<SettingName, string>();
  for (const [variable, text] of Object.entries(environment)) {
    if (!variable.startsWith(PREFIX) || text === undefined) continue;
    const name = SETTING_NAMES.find((one) => one.variable === variable);
    if (name) found.set(name, text);
    else
      faults.push(
        unknownName(
          variable,
          SETTING_NAMES.map((one) => one.variable),
          'the environment',
        ),
      );
  }
  return found;
}

function fromFlags(flags: NonNullable<SettingsSources['flags']>, faults: string[]): Map<SettingName, string> {
  const found = new Map<SettingName, string>();
  for (const [key, text] of Object.entries(flags)) {
    if (text === undefined) continue;
    const name = SETTING_NAMES.find((one) => one.key === key);
    if (name) found.set(name, text);
    else
      faults.push(
        unknownName(
          key,
          SETTING_NAMES.map((one) => one.key),
          'the command line',
        ),
      );
  }
  return found;
}

/** Writes the texts into the tree, as the type their setting has; a text that is not of it stays for the schema to refuse. */
function overlay(tree: Tree, texts: ReadonlyMap<SettingName, string>, sources: SettingsSources): void {
  const shortestFirst = [...texts].sort(([a], [b]) => a.key.length - b.key.length);
  for (const [name, text] of shortestFirst) {
    const [group, part] = name.key.split('.') as [string, string | undefined];
    const value = typed(name, text, sources);
    if (part === undefined) tree[group] = value;
    else tree[group] = { ...(isTree(tree[group]) ? tree[group] : {}), [part]: value };
  }
}

function typed(name: SettingName, text: string, sources: SettingsSources): unknown {
  const trimmed = text.trim();
  if (trimmed === '' || trimmed === 'null') return null;
  if (name.kind === 'number' && /^-?\d+(\.\d+)?$/.test(trimmed)) return Number(trimmed);
  if (name.kind === 'flag' && (trimmed === 'true' || trimmed === 'false')) return trimmed === 'true';
  if (name.kind === 'path') return path.resolve(sources.workingDirectory ?? process.cwd(), trimmed);
  return name.isSecret ? text : trimmed;
}

/** @throws SettingsError when the key cannot be used */
function signingKey({ dkim }: RawSettings, sources: SettingsSources): Settings['dkim'] {
  if (dkim === null) return null;
  const read = readDkimKey(path.resolve(sources.configDirectory, '..', dkim.keyFile));
  if ('fault' in read) throw new SettingsError([read.fault]);
  return { domain: dkim.domain, selector: dkim.selector, privateKey: read.privateKey };
}

function settled(raw: RawSettings, sources: SettingsSources): Omit<Settings, 'dkim'> {
  const { databaseUrl, publicUrl, smtp, dkim: _read, ...rest } = raw;
  const dataDirectory = path.resolve(sources.configDirectory, '..', raw.dataDirectory);
  const host = raw.host.includes(':') ? `[${raw.host}]` : raw.host;
  return {
    ...rest,
    dataDirectory,
    smtp: smtp && { host: smtp.host, port: smtp.port, secure: smtp.secure, user: smtp.user, password: smtp.password },
    publicUrl: publicUrl === null ? `http://${host}:${raw.port}` : new URL(publicUrl).origin,
    database: databaseUrl
      ? { kind: 'postgres', url: databaseUrl }
      : { kind: 'sqlite', file: path.join(dataDirectory, 'tarnkeep.db') },
    configDirectory: path.resolve(sources.configDirectory),
  };
}

function sentences(issues: readonly z.core.$ZodIssue[], tree: Tree): string[] {
  const keys = SETTING_NAMES.map((one) => one.key);
  const groups = [...new Set(keys.map((key) => key.split('.')[0]!))];
  const found = issues.flatMap((issue) => {
    if (issue.code !== 'unrecognized_keys') return [refusal(issue.path.map(String), tree)];
    const parent = issue.path.map(String);
    const known = parent.length > 0 ? keys : [...groups, ...keys];
    return issue.keys.map((key) => unknownName([...parent, key].join('.'), known, `config/${FILE}`));
  });
  return [...new Set(found)];
}

function refusal(at: readonly string[], tree: Tree): string {
  const key = at.join('.');
  // A fault inside the parts of the mail server names the part that is wrong, where it can be told.
  const name = SETTING_NAMES.find((one) => one.key === (key === 'smtp' ? smtpPart(tree.smtp) : key));
  if (!name) {
    const inside = SETTING_NAMES.filter((one) => one.key.startsWith(`${key}.`)).map((one) => one.key);
    return `${key}: ${shown(valueAt(tree, at))} cannot be used. Write ${inside.join(', ')} below it in config/${FILE}.`;
  }
  const value = valueAt(tree, name.key.split('.'));
  const what = name.isSecret && value != null ? 'the value (not shown, it may hold a password)' : shown(value);
  return `${name.key}: ${what} cannot be used. Write ${name.allowed}, in config/${FILE} or in ${name.variable}.`;
}

function smtpPart(smtp: unknown): string {
  if (!isTree(smtp)) return 'smtp';
  const known = ['host', 'port', 'secure', 'user', 'password'];
  if (Object.keys(smtp).some((key) => !known.includes(key))) return 'smtp';
  const isHost = SettingsSchema.shape.smtp.safeParse({ host: smtp.host }).success;
  if (!isHost) return 'smtp.host';
  if (!SettingsSchema.shape.port.optional().safeParse(smtp.port).success) return 'smtp.port';
  return smtp.user ? 'smtp.password' : 'smtp.user';
}

function unknownName(written: string, known: readonly string[], where: string): string {
  const meant = nearestName(written, known);
  const advice = meant ? `Did you mean ${meant}?` : `Known are ${known.join(', ')}.`;
  return `${written} in ${where} is not a setting. ${advice}`;
}

function valueAt(tree: unknown, at: readonly string[]): unknown {
  return at.reduce<unknown>((value, key) => (isTree(value) ? value[key] : undefined), tree);
}

function shown(value: unknown): string {
  return value === undefined ? 'nothing' : JSON.stringify(value);
}

function isTree(value: unknown): value is Tree {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
