import { randomBytes } from 'node:crypto';

/** Branded identifiers, so that a pond id cannot be passed where a company id is wanted. All are UUIDs, version 7. */
export type CompanyId = string & { readonly __id?: 'company' };
export type PersonId = string & { readonly __id?: 'person' };
export type PondId = string & { readonly __id?: 'pond' };
export type VisitId = string & { readonly __id?: 'visit' };
export type TaskId = string & { readonly __id?: 'task' };

/**
 * A UUID of version 7 (RFC 9562, section 5.7): 48 bits of milliseconds, then random bits, so that keys sort by time.
 * Not a secret: never use one as the token of a link.
 */
export function newId(atMs: number = Date.now()): string {
  const bytes = randomBytes(16);
  bytes.writeUIntBE(atMs, 0, 6);
  bytes[6] = (bytes[6]! & 0x0f) | 0x70;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  const hex = bytes.toString('hex');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}

/** A random 256-bit token for links and sessions; only its SHA-256 is stored. */
export function newToken(): string {
  return randomBytes(32).toString('base64url');
}
