import { createHash } from 'node:crypto';

/** What is stored of a token: its SHA-256 in hex. The token has 256 random bits, so no salt is needed. */
export function tokenHash(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}
