import { createHash } from 'node:crypto';
import type { Sharp } from 'sharp';
import { PhotoRefusedError } from '../visits.errors.js';
import { pictureKind } from './picture-kind.js';

/** A picture as it is kept: turned upright, without any metadata, with a small one beside it. Both JPEG. */
export interface PreparedPicture {
  readonly full: Buffer;
  readonly thumb: Buffer;
  /** SHA-256 of `full`. */
  readonly contentHash: string;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** As much as one photo may have as it is sent. */
export const LARGEST_PHOTO_BYTES = 12 * 1024 * 1024;
/** Checked from the header, before anything is decoded. */
export const MOST_PIXELS = 50_000_000;
const LONGEST_SIDE_PX = 2048;
const THUMB_SIDE_PX = 480;
const QUALITY = 82;
const THUMB_QUALITY = 72;
/** A decoded photo is large: so many are worked on at once, the others wait. */
const AT_ONCE = 2;
/** A picture that takes longer than this is not one of a camera. [s] */
const LONGEST_WORK_S = 20;

const SENTENCES: Partial<Record<ReturnType<typeof pictureKind>, string>> = {
  heic: 'This photo is a HEIC file, which cannot be read here. Send it as JPEG: set the camera to "most compatible".',
  svg: 'This is an SVG drawing, not a photo. Send a JPEG, PNG or WebP picture.',
  gif: 'This is a GIF. Send a JPEG, PNG or WebP picture.',
  avif: 'This is an AVIF picture. Send a JPEG, PNG or WebP picture.',
  other: 'This is not a photo this program reads. Send a JPEG, PNG or WebP picture.',
};

/**
 * Decodes a photo and encodes it anew, so that nothing of the sent file is kept: no place, no device, no embedded small
 * picture, nothing that is not a picture. What tells how to turn it is applied first.
 * @throws PhotoRefusedError for a file that is no JPEG, PNG or WebP, is too large or cannot be decoded
 */
export async function preparedPicture(bytes: Buffer): Promise<PreparedPicture> {
  if (bytes.length > LARGEST_PHOTO_BYTES) throw tooLarge(bytes.length);
  const refused = SENTENCES[pictureKind(bytes)];
  if (refused !== undefined) throw new PhotoRefusedError('kind', refused);
  const open = await opener(bytes);
  return inTurn(async () => {
    try {
      await requireFewPixels(open);
      const { data: full, info } = await open()
        .autoOrient()
        .resize(LONGEST_SIDE_PX, LONGEST_SIDE_PX, { fit: 'inside', withoutEnlargement: true })
        .flatten({ background: '#ffffff' })
        .toColourspace('srgb')
        .jpeg({ quality: QUALITY })
        .timeout({ seconds: LONGEST_WORK_S })
        .toBuffer({ resolveWithObject: true });
      const thumb = await (await opener(full))()
        .resize(THUMB_SIDE_PX, THUMB_SIDE_PX, { fit: 'inside', withoutEnlargement: true })
        .jpeg({ quality: THUMB_QUALITY })
        .toBuffer();
      const contentHash = sha256(full);
      return { full, thumb, contentHash, widthPx: info.width, heightPx: info.height };
    } catch (error) {
      if (error instanceof PhotoRefusedError) throw error;
      const sentence = 'This photo cannot be decoded: it is cut off or damaged. Take it again.';
      throw new PhotoRefusedError('unreadable', sentence);
    }
  });
}

export function sha256(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('hex');
}

export function tooLarge(sentBytes: number | null): PhotoRefusedError {
  const size = sentBytes === null ? '' : ` of ${Math.ceil(sentBytes / 1024 / 1024)} MB`;
  const most = LARGEST_PHOTO_BYTES / 1024 / 1024;
  return new PhotoRefusedError(
    'too-large',
    `A photo${size} is too large; at most ${most} MB can be kept. Make it smaller.`,
  );
}

/** Loaded when the first photo comes: starting up does not wait for it. */
async function opener(bytes: Buffer): Promise<(limit?: number | false) => Sharp> {
  let load: typeof import('sharp')['default'];
  try {
    load = (await import('sharp')).default;
  } catch (error) {
    throw new Error(
      `Photos cannot be read on this machine: the library sharp does not load. Install it for this platform (npm install). ${String(error)}`,
    );
  }
  return (limit = MOST_PIXELS) => load(bytes, { limitInputPixels: limit, failOn: 'truncated', pages: 1 });
}

/** Reads the head alone, whatever it claims. */
async function requireFewPixels(open: (limit: false) => Sharp): Promise<void> {
  const { width = 0, height = 0 } = await open(false).metadata();
  if (width * height <= MOST_PIXELS && width > 0 && height > 0) return;
  const size = `${width} × ${height} points`;
  throw new PhotoRefusedError('too-large', `A photo of ${size} is too large; at most 50 million points can be kept.`);
}

const waiting: (() => void)[] = [];
let working = 0;

async function inTurn<T>(work: () => Promise<T>): Promise<T> {
  if (working >= AT_ONCE) await new Promise<void>((go) => waiting.push(go));
  else working += 1;
  try {
    return await work();
  } finally {
    const next = waiting.shift();
    if (next) next();
    else working -= 1;
  }
}
