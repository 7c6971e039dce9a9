import { DomainError } from '../core/errors.js';

export class MailNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor(id: string) {
    super(`There is no mail ${id} here. It may belong to another company, or the address was cut short.`);
  }
}

export class MailNotResendableError extends DomainError {
  readonly code = 'mail-not-resendable';

  constructor(state: string) {
    super(
      `This mail cannot be sent again: its state is "${state}". Only a mail that came back, whose arrival is in doubt, that was given up, ` +
        'or that ran out of time can be.',
    );
  }
}

/** An answer to a task that does not fit how the task stands now. */
export class TaskAnswerError extends DomainError {
  readonly code = 'task-answer';
}

export class HomeownerWordNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor(readonly wordId: string) {
    super(`There is no question or answer ${wordId} in this company.`);
  }
}
