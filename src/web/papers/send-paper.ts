import type { Response } from 'express';

/** Sends a paper to be looked at or kept; it is made anew each time it is asked for. */
export function sendPaper(response: Response, pdf: Buffer, name: string): void {
  response.setHeader('Cache-Control', 'private, no-store');
  response.setHeader('Content-Disposition', `inline; filename="${name}"`);
  response.type('application/pdf').send(pdf);
}
