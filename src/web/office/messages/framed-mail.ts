import type { Response } from 'express';

/** A mail for a frame: nothing in it may run, load, or send. Its own pictures stand in it as data. */
export function sendFramed(response: Response, html: string): void {
  response.setHeader(
    'Content-Security-Policy',
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; frame-ancestors 'self'; sandbox allow-popups allow-popups-to-escape-sandbox",
  );
  response.setHeader('X-Frame-Options', 'SAMEORIGIN');
  response.setHeader('Referrer-Policy', 'no-referrer');
  response.setHeader('Cache-Control', 'no-store');
  response.type('html').send(html);
}
