import { AsyncLocalStorage } from 'node:async_hooks';
import type { LoggerService } from '@nestjs/common';
import { type DestinationStream, destination, type Logger, pino } from 'pino';

export type LoggerLevel = 'fatal' | 'error' | 'warn' | 'info' | 'debug' | 'silent';

/** A link or session token: 256 bits in base64url. */
const TOKEN = /(?<![A-Za-z0-9_-])[A-Za-z0-9_-]{43}(?![A-Za-z0-9_-])/g;
const MAIL_ADDRESS = /[^\s@<>"'(),:;]+@[^\s@<>"'(),:;]+\.[^\s@<>"'(),:;]+/g;
const SHOWN_OF_TOKEN = 6;
/** What the framework says about its own wiring is of use only to somebody who looks for a fault. */
const WIRING = new Set(['InstanceLoader', 'NestFactory', 'NestApplication', 'RouterExplorer', 'RoutesResolver']);

const requests = new AsyncLocalStorage<string>();

/** Runs `work` so that every log line written in it carries the request's id. */
export function withRequestId<T>(requestId: string, work: () => T): T {
  return requests.run(requestId, work);
}

/** Takes the tail of tokens and mail addresses out of a text. */
export function masked(text: string): string {
  return text
    .replace(TOKEN, (token) => `${token.slice(0, SHOWN_OF_TOKEN)}…`)
    .replace(MAIL_ADDRESS, (address) => `…@${address.slice(address.lastIndexOf('@') + 1)}`);
}

/**
 * One JSON line per event, to stderr. Tokens and mail addresses are masked, line breaks are escaped by JSON, so that
 * a value cannot forge a line.
 */
export class AppLogger implements LoggerService {
  private readonly lines: Logger;

  constructor(level: LoggerLevel, stream: DestinationStream = destination({ fd: 2, sync: true })) {
    this.lines = pino({ level, base: null, timestamp: pino.stdTimeFunctions.isoTime }, stream);
  }

  info(message: unknown, ...details: unknown[]): void {
    this.write('info', message, details);
  }

  log(message: unknown, ...details: unknown[]): void {
    this.write(WIRING.has(String(details.at(-1))) ? 'debug' : 'info', message, details);
  }

  fatal(message: unknown, ...details: unknown[]): void {
    this.write('fatal', message, details);
  }

  error(message: unknown, ...details: unknown[]): void {
    this.write('error', message, details);
  }

  warn(message: unknown, ...details: unknown[]): void {
    this.write('warn', message, details);
  }

  debug(message: unknown, ...details: unknown[]): void {
    this.write('debug', message, details);
  }

  verbose(message: unknown, ...details: unknown[]): void {
    this.write('debug', message, details);
  }

  private write(level: 'fatal' | 'error' | 'warn' | 'info' | 'debug', message: unknown, details: unknown[]): void {
    if (!this.lines.isLevelEnabled(level)) return;
    const context = typeof details.at(-1) === 'string' ? (details.at(-1) as string) : undefined;
    const rest = (context === undefined ? details : details.slice(0, -1)).filter((one) => one !== undefined);
    this.lines[level](
      {
        ...(requests.getStore() && { requestId: requests.getStore() }),
        ...(context && { context }),
        ...(typeof message === 'object' && !(message instanceof Error) && { about: plain(message) }),
        ...(rest.length > 0 && { details: rest.map(plain) }),
      },
      typeof message === 'object' && !(message instanceof Error) ? '' : masked(textOf(message)),
    );
  }
}

function textOf(value: unknown): string {
  return value instanceof Error ? (value.stack ?? value.message) : String(value);
}

/** A value as plain JSON with its texts masked; errors with their causes. */
function plain(value: unknown, depth = 0): unknown {
  if (typeof value === 'string') return masked(value);
  if (value instanceof Error) {
    return (
      masked(textOf(value)) + (value.cause && depth < 3 ? ` caused by ${String(plain(value.cause, depth + 1))}` : '')
    );
  }
  if (typeof value !== 'object' || value === null) return value;
  if (depth >= 3) return '…';
  if (Array.isArray(value)) return value.map((one) => plain(one, depth + 1));
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, plain(one, depth + 1)]));
}
