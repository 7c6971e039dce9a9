import { DomainError } from '../../core/errors.js';

/** A sentence for each field that cannot be used, by the field's name. `''` is the form as a whole. */
export type FormFaults = Readonly<Record<string, string>>;

/**
 * The faults of a domain error, so that a form can be shown again with all that was typed. Anything else is thrown on.
 * @param fieldOf name of the form's field for the name the error carries.
 */
export function faultsOf(error: unknown, fieldOf: (named: string) => string = (named) => named): FormFaults {
  if (!(error instanceof DomainError)) throw error;
  const named = (error as { field?: unknown }).field;
  const inMessage = /^([A-Za-z][\w.]*): /.exec(error.message);
  const field = typeof named === 'string' ? fieldOf(named) : inMessage ? fieldOf(inMessage[1] ?? '') : '';
  return { [field]: inMessage ? sentence(error.message.slice(inMessage[0].length)) : error.message };
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Strings of a posted form; everything else of the body (files, nested objects) is left out. */
export function typedFields(body: unknown): Record<string, string> {
  const typed: Record<string, string> = {};
  for (const [name, value] of Object.entries((body ?? {}) as Record<string, unknown>)) {
    if (name === '_token') continue;
    if (typeof value === 'string') typed[name] = value;
    else if (Array.isArray(value)) typed[name] = value.filter((one) => typeof one === 'string').join(',');
  }
  return typed;
}

/** A path inside this site to go back to; anything that could leave it becomes the start. */
export function ownPath(typed: unknown): string {
  return typeof typed === 'string' && /^\/(?![/\\])[^\r\n]*$/.test(typed) ? typed : '/';
}
