import { DateTime } from 'luxon';
import { DomainError } from '../../../../core/errors.js';
import type { UnitSystem } from '../../../../core/units/show.js';
import { instantFrom, instantText } from '../../../../platform/clock.js';
import { type LeakTest, LeakTestSchema } from '../../../../ponds/index.js';
import type { FormFaults } from '../../../forms/form-faults.js';
import { shownInField } from '../form/form-units.js';
import type { TypedPond } from '../form/form-values.js';
import { TypedNumbers } from '../form/typed-numbers.js';
import { rowNumbers } from '../form/typed-pond.js';
import { localInstant } from '../page/local-instant.js';

export interface ReadLeakTest {
  /** Null when something cannot be used. */
  readonly test: LeakTest | null;
  readonly faults: FormFaults;
}

/** Reads the form of a leak test into stored units; each fault stands at its field. */
export function readLeakTest(typed: TypedPond, units: UnitSystem, timeZone: string): ReadLeakTest {
  const numbers = new TypedNumbers(withDecimals(typed), units, null);
  const rows = rowNumbers(typed, 'level', 'below');
  const faults: Record<string, string> = {};
  const levels = rows.map((row) => ({
    at: instantOf(typed, row, timeZone, faults),
    belowMarkMm: numbers.read(`level.${row}.below`, 'level', 'Below the mark') ?? undefined,
    rainMm: numbers.read(`level.${row}.rain`, 'level', 'Rain') ?? undefined,
    addedL: numbers.read(`level.${row}.added`, 'volume', 'Water added') ?? undefined,
  }));
  const checked = LeakTestSchema.safeParse({
    levels,
    bucketFallMm: numbers.read('bucket', 'level', 'Fall in the bucket'),
    pumps: typed.pumps ?? 'on',
    spray: typed.spray === 'yes',
  });
  for (const issue of checked.error?.issues ?? []) {
    const field = fieldOf(issue.path, rows);
    // Words without the field's name, which stands above it on the page.
    faults[field] ??= sentence(issue.message.replace(/^[^:.]{1,40}: /, ''));
  }
  const all = { ...faults, ...numbers.faults };
  return { test: checked.success && Object.keys(all).length === 0 ? checked.data : null, faults: all };
}

/** Rulers in inches are read in fractions: `1 3/8` is 1.375, `-3/4` is -0.75. */
function withDecimals(typed: TypedPond): TypedPond {
  const decimals = Object.entries(typed).map(([name, text]) => {
    const [, minus = '', whole = '0', over, under] = /^\s*([-−]?)\s*(?:(\d+)\s+)?(\d+)\/(\d+)\s*$/.exec(text) ?? [];
    if (over === undefined || Number(under) === 0) return [name, text];
    return [name, `${minus}${Number(whole) + Number(over) / Number(under)}`];
  });
  return Object.fromEntries(decimals);
}

/** A fault of the whole test as the leak finder words it: out of order, too short, too long. */
export function judgingFault(error: unknown): FormFaults {
  if (!(error instanceof DomainError)) throw error;
  if (/^time of a level/.test(error.message)) return { '': 'Write the levels in the order in which they were read.' };
  if (/^length of the test/.test(error.message)) {
    return { '': 'From the first level to the last it must be at least six hours and at most 60 days.' };
  }
  return { '': error.message };
}

function instantOf(typed: TypedPond, row: number, timeZone: string, faults: Record<string, string>): string {
  const local = typed[`level.${row}.at`] ?? '';
  try {
    return instantText(instantFrom(localInstant(local, timeZone)));
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    faults[`level.${row}.at`] = local === '' ? 'This is needed.' : 'Write date and time, for example 2026-10-05T17:40.';
    return '1990-01-01T00:00:00.000Z';
  }
}

const FIELD: Readonly<Record<string, string>> = { belowMarkMm: 'below', rainMm: 'rain', addedL: 'added', at: 'at' };

function fieldOf(path: readonly PropertyKey[], rows: readonly number[]): string {
  const [list, index, name] = path.map(String);
  if (list === 'bucketFallMm') return 'bucket';
  if (list === 'levels' && name !== undefined) return `level.${rows[Number(index)] ?? 0}.${FIELD[name] ?? name}`;
  return list === 'levels' ? '' : (list ?? '');
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** A kept test as its form shows it, to go on with it. */
export function shownLeakTest(test: LeakTest, units: UnitSystem, timeZone: string): TypedPond {
  const typed: Record<string, string> = { pumps: test.pumps, spray: test.spray ? 'yes' : '' };
  if (test.bucketFallMm !== null) typed.bucket = shownInField(test.bucketFallMm, 'level', units);
  for (const [row, level] of test.levels.entries()) {
    typed[`level.${row}.at`] = DateTime.fromISO(level.at).setZone(timeZone).toFormat("yyyy-MM-dd'T'HH:mm");
    typed[`level.${row}.below`] = shownInField(level.belowMarkMm, 'level', units);
    if (level.rainMm > 0) typed[`level.${row}.rain`] = shownInField(level.rainMm, 'level', units);
    if (level.addedL > 0) typed[`level.${row}.added`] = shownInField(level.addedL, 'volume', units);
  }
  return typed;
}
