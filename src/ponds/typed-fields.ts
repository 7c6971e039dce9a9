import { IANAZone } from 'luxon';
import { z } from 'zod';

/** A number in a closed range; what is refused says what is allowed. */
export function numberWithin(name: string, min: number, max: number, unit = '') {
  const allowed = `${name}: a number from ${min} to ${max}${unit && ` ${unit}`}`;
  return z
    .number({
      error: (issue) => `${allowed}${issue.input === undefined ? ' is needed' : ` (given: ${shown(issue.input)})`}.`,
    })
    .min(min, { error: (issue) => `${allowed} (given: ${shown(issue.input)}).` })
    .max(max, { error: (issue) => `${allowed} (given: ${shown(issue.input)}).` });
}

export function wholeNumberWithin(name: string, min: number, max: number) {
  return numberWithin(name, min, max).refine(Number.isInteger, {
    error: (issue) => `${name}: a whole number from ${min} to ${max} (given: ${shown(issue.input)}).`,
  });
}

/** Text without control characters; trimmed. */
export function text(name: string, longest: number) {
  return z
    .string({ error: `${name}: a text of at most ${longest} characters is needed.` })
    .trim()
    .max(longest, { error: `${name}: at most ${longest} characters.` })
    .refine((typed) => !/[\p{Cc}]/u.test(typed.replace(/[\r\n\t]/g, '')), {
      error: `${name}: no control characters.`,
    });
}

export function neededText(name: string, longest: number) {
  return text(name, longest).refine((typed) => typed.length > 0, { error: `${name}: may not be empty.` });
}

export function oneOf<const T extends readonly [string, ...string[]]>(name: string, words: T) {
  return z.enum(words, { error: (issue) => `${name}: one of ${words.join(', ')} (given: ${shown(issue.input)}).` });
}

/** A calendar date, `YYYY-MM-DD`, between 1950 and 2100. */
export function calendarDate(name: string) {
  const allowed = `${name}: a calendar date as YYYY-MM-DD between 1950 and 2100, for example 2026-04-15`;
  return z
    .string({ error: `${allowed}.` })
    .refine((typed) => isCalendarDate(typed), { error: (issue) => `${allowed} (given: ${shown(issue.input)}).` });
}

export function timeZone(name: string) {
  return z
    .string()
    .trim()
    .refine(isIanaZone, {
      error: (issue) =>
        `${name}: ${shown(issue.input)} is not an IANA time zone. Write one like America/Chicago or Europe/Berlin, ` +
        'or leave it empty: it follows from the coordinates.',
    });
}

/** Zones found good before: the check costs 0.1 ms, and an import asks it for every pond. */
const goodZones = new Set<string>();

function isIanaZone(typed: string): boolean {
  if (goodZones.has(typed)) return true;
  const isGood = /^[A-Za-z]/.test(typed) && IANAZone.isValidZone(typed);
  if (isGood) goodZones.add(typed);
  return isGood;
}

function isCalendarDate(typed: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(typed) || typed < '1950-01-01' || typed > '2100-12-31') return false;
  const at = new Date(`${typed}T00:00:00Z`);
  return !Number.isNaN(at.getTime()) && at.toISOString().startsWith(typed);
}

function shown(value: unknown): string {
  const whole = typeof value === 'string' ? value : (JSON.stringify(value) ?? String(value));
  return whole.length > 60 ? `${whole.slice(0, 60)}…` : whole;
}
