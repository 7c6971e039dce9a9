import { randomBytes } from 'node:crypto';

/** Branded identifiers, so that a pond id cannot be passed where a company id is wanted. All are UUIDs, version 7. */
export type CompanyId = string & { readonly __id?: 'company' };
export type PersonId = string & { readonly __id?: 'person' };
export type PondId = string & { readonly __id?: 'pond' };
export type VisitId = string & { readonly __id?: 'visit' };
export type TaskId = string & { readonly __id?: 'task' };

/**
 * A UUID of version 7 (RFC 9562, section 5.7): 48 bits of milliseconds, then random bits, so that keys sort by time.
 * Those made one after the other within a millisecond sort in that order (section 6.2, method 1: the 12 bits after the
 * version count up from a random start).
 * Not a secret: never use one as the token of a link.
 */
export function newId(atMs: number = Date.now()): string {
  const bytes = nextRandomBytes(16);
  const random = bytes.readUInt16BE(6);
  count = atMs === countedMs ? (count + 1) & 0x0fff : random & 0x07ff;
  countedMs = atMs;
  bytes.writeUIntBE(atMs, 0, 6);
  bytes.writeUInt16BE(0x7000 | count, 6);
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  const hex = bytes.toString('hex');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}

let countedMs = Number.NaN;
let count = 0;

/** Asking the system for random bytes costs more than the rest of an id: they are fetched for many ids at once. */
const FETCHED_BYTES = 4096;
let fetched = Buffer.alloc(0);

function nextRandomBytes(count: number): Buffer {
  if (fetched.length < count) fetched = randomBytes(FETCHED_BYTES);
  const bytes = fetched.subarray(0, count);
  fetched = fetched.subarray(count);
  return bytes;
}

/** A random 256-bit token for links and sessions; only its SHA-256 is stored. */
export function newToken(): string {
  return randomBytes(32).toString('base64url');
}
