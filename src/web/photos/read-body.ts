import type { IncomingMessage } from 'node:http';
import { tooLarge } from '../../visits/index.js';

/**
 * The whole body of a request as it was sent. What is announced as too large is not read at all, what turns out to be is
 * read no further.
 * @throws PhotoRefusedError
 */
export function readBody(request: IncomingMessage, mostBytes: number): Promise<Buffer> {
  const announced = Number(request.headers['content-length'] ?? Number.NaN);
  if (announced > mostBytes) return Promise.reject(tooLarge(announced));
  return new Promise((resolve, reject) => {
    const pieces: Buffer[] = [];
    let bytes = 0;
    const take = (piece: Buffer) => {
      bytes += piece.length;
      if (bytes <= mostBytes) {
        pieces.push(piece);
        return;
      }
      pieces.length = 0;
      request.off('data', take);
      request.resume();
      reject(tooLarge(null));
    };
    request.on('data', take);
    request.once('end', () => resolve(Buffer.concat(pieces)));
    request.once('error', reject);
    request.once('aborted', () => reject(new Error('The sender broke off before the photo was whole.')));
  });
}
