import type { Readable } from 'node:stream';

/** Where a command speaks to: the real terminal, or a test. */
export interface Terminal {
  /** Results, and nothing else. */
  out(text: string): void;
  /** Progress, notices and faults. */
  err(text: string): void;
  /** Whether somebody watches: then progress is one line that changes. */
  readonly isInteractive: boolean;
  /** What is piped in. */
  readonly input: Readable;
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly workingDirectory: string;
  readonly configDirectory: string;
}

/** The command line cannot be understood. Exit code 2. */
export class UsageError extends Error {}

/** The command was understood and could not be done; the message is one sentence. Exit code 1. */
export class CommandError extends Error {}

/** One command. Its options stand in `help`. */
export interface Command {
  readonly help: string;
  /** @returns the exit code */
  run(words: readonly string[], terminal: Terminal): Promise<number>;
}
