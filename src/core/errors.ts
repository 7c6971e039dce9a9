/**
 * Errors of the domain. They know nothing of HTTP: `web/domain-error.filter.ts` turns codes into answers,
 * and `cli` turns them into one sentence and an exit code.
 */
export abstract class DomainError extends Error {
  abstract readonly code: string;

  constructor(message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = new.target.name;
  }
}

export interface Range {
  readonly min: number;
  readonly max: number;
}

/** A value outside the range for which a model or a field holds. Names the field, the value and what is allowed. */
export class OutOfRangeError extends DomainError {
  readonly code = 'out-of-range';

  constructor(
    readonly field: string,
    readonly value: number,
    readonly allowed: Range,
  ) {
    super(`${field}: ${value}, outside ${allowed.min} to ${allowed.max}.`);
  }
}

/** A value that is not one of a closed set, or has the wrong form. `advice` says what to do. */
export class InvalidValueError extends DomainError {
  readonly code = 'invalid-value';

  constructor(
    readonly field: string,
    readonly value: unknown,
    readonly advice: string,
  ) {
    super(`${field}: ${JSON.stringify(value) ?? String(value)} cannot be used. ${advice}`);
  }
}

/** Throws unless `value` is a finite number inside the closed range. */
export function requireWithin(field: string, value: number, allowed: Range): void {
  if (!Number.isFinite(value) || value < allowed.min || value > allowed.max) {
    throw new OutOfRangeError(field, value, allowed);
  }
}
