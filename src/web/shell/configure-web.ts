import type { NestExpressApplication } from '@nestjs/platform-express';
import compression from 'compression';
import { static as serveStatic } from 'express';
import helmet from 'helmet';
import { ASSETS_DIRECTORY } from './assets.js';

const ONE_YEAR_MS = 365 * 24 * 3600 * 1000;

/** Everything of HTTP that is not a route: limits, headers, assets. */
export function configureWeb(app: NestExpressApplication, options: { publicUrl: string }): void {
  const overTls = options.publicUrl.startsWith('https:');
  app.disable('x-powered-by');
  app.use(
    helmet({
      contentSecurityPolicy: {
        useDefaults: false,
        directives: {
          defaultSrc: ["'self'"],
          scriptSrc: ["'self'"],
          styleSrc: ["'self'"],
          imgSrc: ["'self'", 'data:', 'blob:'],
          fontSrc: ["'self'"],
          connectSrc: ["'self'"],
          workerSrc: ["'self'"],
          manifestSrc: ["'self'"],
          objectSrc: ["'none'"],
          baseUri: ["'none'"],
          formAction: ["'self'"],
          frameAncestors: ["'none'"],
          frameSrc: ["'self'"],
          upgradeInsecureRequests: overTls ? [] : null,
        },
      },
      strictTransportSecurity: overTls ? { maxAge: ONE_YEAR_MS / 1000 } : false,
      referrerPolicy: { policy: 'same-origin' },
    }),
  );
  // Session cookies are SameSite=Lax, so no other site can have a page of ours compressed beside a guess of its own.
  app.use(compression());
  app.use(
    '/assets',
    serveStatic(ASSETS_DIRECTORY, { maxAge: ONE_YEAR_MS, immutable: true, index: false, fallthrough: false }),
  );
  app.useBodyParser('json', { limit: '1mb' });
  app.useBodyParser('urlencoded', { limit: '1mb', extended: true });
}
