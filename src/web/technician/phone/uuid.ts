/**
 * A UUID of version 7 (RFC 9562, section 5.7) made on the phone: 48 bits of milliseconds, then random bits. A wrong clock
 * spoils its order, not its being the only one. Not a secret.
 */
export function phoneId(atMs: number = Date.now()): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  new DataView(bytes.buffer).setUint16(0, Math.floor(Math.max(0, atMs) / 2 ** 32) & 0xffff);
  new DataView(bytes.buffer).setUint32(2, Math.max(0, atMs) % 2 ** 32);
  bytes[6] = ((bytes[6] as number) & 0x0f) | 0x70;
  bytes[8] = ((bytes[8] as number) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
