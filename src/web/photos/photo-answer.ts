import type { Request, Response } from 'express';
import type { PhotoSize, VisitPhotoEntity } from '../../visits/index.js';

/** The size an address asks for; anything else is the full one. */
export function sizeAsked(size: unknown): PhotoSize {
  return size === 'thumb' ? 'thumb' : 'full';
}

/**
 * Sends a stored picture. It never changes under its address, but it may be taken away: the browser keeps it an hour and
 * then asks. As a document of its own it may do nothing.
 */
export function sendPhoto(
  request: Request,
  response: Response,
  { photo, jpeg }: { readonly photo: VisitPhotoEntity; readonly jpeg: Buffer },
  size: PhotoSize,
): void {
  response.setHeader('Cache-Control', 'private, max-age=3600');
  response.setHeader('Content-Security-Policy', "default-src 'none'; sandbox");
  response.setHeader('Content-Disposition', `inline; filename="photo-${photo.id}.jpg"`);
  response.setHeader('ETag', `"${photo.contentHash.slice(0, 32)}-${size}"`);
  if (request.fresh) response.status(304).end();
  else response.type('image/jpeg').send(jpeg);
}
