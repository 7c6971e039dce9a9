import { Controller, Get, Header } from '@nestjs/common';
import { Public } from '../shell/access.js';
import { assetUrl } from '../shell/assets.js';

/** The worker that opens kept pages without signal. It lies at the root, because it looks after pages, not assets. */
@Controller('phone-worker.js')
@Public()
export class PhoneAppController {
  /** Changes with the bundled worker, so that a browser finds a new one. */
  @Get()
  @Header('Content-Type', 'text/javascript; charset=utf-8')
  @Header('Cache-Control', 'no-cache')
  worker(): string {
    return `importScripts(${JSON.stringify(assetUrl('phone-worker.js'))});\n`;
  }
}
