import { DomainError } from '../core/errors.js';
import type { PondId } from '../platform/ids.js';

/** No such thing in this company; also what a stranger to the company is told. */
export class PondThingNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor(thing: 'pond' | 'contact' | 'machine' | 'reading' | 'import', id: string) {
    super(`There is no ${thing} ${id} here. It may belong to another company, or the address was cut short.`);
  }
}

/** Somebody else changed the pond since the page was opened. Carries what was typed, so that nothing is lost. */
export class PondChangedMeanwhileError<Typed = unknown> extends DomainError {
  readonly code = 'stale-version';

  constructor(
    readonly pondId: PondId,
    readonly expectedVersion: number,
    readonly currentVersion: number,
    readonly typed: Typed,
  ) {
    super(
      `This pond was changed by somebody else after you opened it (version ${expectedVersion}, now ${currentVersion}). ` +
        'What you typed is kept: compare it with what stands now and save again.',
    );
  }
}

export class PondStateError extends DomainError {
  readonly code = 'pond-state';
}

/** One field that cannot be used: where, what was given, what is allowed. */
export interface InputFault {
  /** Path of the field, e.g. `equipment.0.kind`. */
  readonly field: string;
  readonly value: unknown;
  readonly allowed: string;
}

export class PondInputRefusedError extends DomainError {
  readonly code = 'invalid-value';

  constructor(readonly faults: readonly InputFault[]) {
    super(faults.map((fault) => `${fault.field}: ${fault.allowed}`).join(' '));
  }
}
