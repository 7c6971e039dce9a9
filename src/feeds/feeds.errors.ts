import { DomainError } from '../core/errors.js';

/** Unknown and taken back are told alike, so that an address cannot be guessed at. */
export class CalendarFeedNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor() {
    super('There is no calendar at this address any more. Ask for a new one on the page where you got it.');
  }
}
