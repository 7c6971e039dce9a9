/** What a file is by its first bytes; its name and declared type are not asked. */
export type PictureKind = 'jpeg' | 'png' | 'webp' | 'heic' | 'avif' | 'gif' | 'svg' | 'other';

const HEIC_BRANDS = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'mif1', 'msf1'];
const AVIF_BRANDS = ['avif', 'avis'];

/**
 * @see JPEG: ITU-T T.81, B.1.1.3 (SOI); PNG: W3C PNG, 5.2; WebP: RFC 9649, 2.4; HEIF and AVIF brands: ISO/IEC 23008-12
 *      and ISO/IEC 14496-12, 4.3 (from memory).
 */
export function pictureKind(bytes: Uint8Array): PictureKind {
  if (startsWith(bytes, [0xff, 0xd8, 0xff])) return 'jpeg';
  if (startsWith(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'png';
  if (text(bytes, 0, 4) === 'RIFF' && text(bytes, 8, 12) === 'WEBP') return 'webp';
  if (text(bytes, 0, 4) === 'GIF8') return 'gif';
  if (text(bytes, 4, 8) === 'ftyp') {
    const brand = text(bytes, 8, 12);
    if (AVIF_BRANDS.includes(brand)) return 'avif';
    return HEIC_BRANDS.includes(brand) ? 'heic' : 'other';
  }
  return /^\s*(?:<\?xml[^>]*>|<!--[\s\S]*?-->|<!doctype[^>]*>|\s)*<svg[\s>]/i.test(
    text(bytes, 0, 1024).replace(/^\uFEFF|^ï»¿/, ''),
  )
    ? 'svg'
    : 'other';
}

function startsWith(bytes: Uint8Array, first: readonly number[]): boolean {
  return first.every((byte, i) => bytes[i] === byte);
}

function text(bytes: Uint8Array, from: number, to: number): string {
  return String.fromCharCode(...bytes.subarray(from, to));
}
