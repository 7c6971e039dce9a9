import { DomainError } from '../core/errors.js';

/** The database cannot be used as it is: not there, not readable, or not of this version. */
export class DatabaseUnusableError extends DomainError {
  readonly code = 'database-unusable';
}

/** What a driver said while opening, in one sentence; never the address, which may hold a password. */
export function openingFault(kind: 'sqlite' | 'postgres', cause: unknown): DatabaseUnusableError {
  const { code, message } = cause as { code?: string; message?: string };
  // A refused connection carries its reasons in a list and has no message of its own.
  const reason = message ? message.split('\n')[0] : (code ?? String(cause));
  const advice =
    kind === 'postgres'
      ? 'Start the server, or correct TARNKEEP_DATABASE_URL.'
      : isDriverMissing(cause)
        ? "SQLite's driver is not installed: run `npm ci --foreground-scripts --ignore-scripts=false`, which builds it or shows why it cannot be built."
        : 'Look at the file in the data folder, or name another folder in TARNKEEP_DATA_DIRECTORY.';
  return new DatabaseUnusableError(`The database cannot be opened (${reason}). ${advice}`, { cause });
}

function isDriverMissing(cause: unknown): boolean {
  const { code, message } = cause as { code?: string; message?: string };
  return code === 'ERR_MODULE_NOT_FOUND' || /^Could not locate the bindings file/.test(message ?? '');
}
