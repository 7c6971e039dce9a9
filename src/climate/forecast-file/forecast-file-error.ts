import { DomainError } from '../../core/errors.js';

/** A file of the forecast command that cannot be used; says which file, line, field and value, and what is allowed. */
export class ForecastFileError extends DomainError {
  readonly code = 'forecast-file';
}
