import { DomainError } from '../core/errors.js';

/** No such task in this company; also what a stranger to the company is told. */
export class CareTaskNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor(readonly taskId: string) {
    super(`There is no care task ${taskId} here. It may belong to another company, or the address was cut short.`);
  }
}

/** The act does not fit the state of the task. */
export class CareTaskStateError extends DomainError {
  readonly code = 'care-task-state';
}

/** A date that lies outside what the task allows. */
export class CareTaskDateError extends DomainError {
  readonly code = 'care-task-date';
}
