import { createHmac, timingSafeEqual } from 'node:crypto';
import type { BounceSettings } from '../../config/index.js';

const SIGN_LENGTH = 16;
const RETURNED = /\+([0-9a-f]{32})-([0-9a-f]{16})@/i;

/**
 * The address a mail comes back to: it names the mail and is signed, so that nobody can have an address suspended by
 * writing a report of their own (variable envelope return path).
 */
export function returnAddress(mailId: string, { address, secret }: BounceSettings): string {
  const [local, domain] = address.split('@') as [string, string];
  const compact = mailId.replaceAll('-', '').toLowerCase();
  return `${local}+${compact}-${signOf(compact, secret)}@${domain}`;
}

/** The mail an address names, or null when it names none or is not signed by us. */
export function mailIdOf(address: string, { secret }: BounceSettings): string | null {
  const [, compact, sign] = RETURNED.exec(address) ?? [];
  if (!compact || !sign) return null;
  const id = compact.toLowerCase();
  if (!timingSafeEqual(Buffer.from(sign.toLowerCase()), Buffer.from(signOf(id, secret)))) return null;
  return [id.slice(0, 8), id.slice(8, 12), id.slice(12, 16), id.slice(16, 20), id.slice(20)].join('-');
}

function signOf(compactId: string, secret: string): string {
  return createHmac('sha256', secret).update(`return ${compactId}`).digest('hex').slice(0, SIGN_LENGTH);
}
