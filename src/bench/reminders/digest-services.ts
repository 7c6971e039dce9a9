import path from 'node:path';
import { type INestApplicationContext, Module } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { loadSettings } from '../../config/index.js';
import { createFoundation, type Foundation, foundationModule } from '../../foundation.js';
import type { Clock } from '../../platform/clock.js';
import { RemindersModule } from '../../reminders/index.js';

export interface DigestServices {
  readonly app: INestApplicationContext;
  readonly foundation: Foundation;
  close(): Promise<void>;
}

/** Reminders and all they stand on, over the database of a folder, with a mail server on this machine. */
export async function digestServices(given: {
  readonly directory: string;
  readonly smtpPort: number;
  readonly clock: Clock;
  /** A key file, when mails are to be signed. */
  readonly dkimKeyFile?: string;
}): Promise<DigestServices> {
  const settings = loadSettings({
    environment: {
      TARNKEEP_DATA_DIRECTORY: given.directory,
      TARNKEEP_JOBS: 'false',
      TARNKEEP_LOG_LEVEL: 'silent',
      TARNKEEP_PUBLIC_URL: 'https://care.example.com',
      TARNKEEP_MAIL_PER_SECOND: 'null',
      TARNKEEP_MAIL_PER_HOST_PER_MINUTE: 'null',
      TARNKEEP_SMTP_URL: `smtp://127.0.0.1:${given.smtpPort}`,
      TARNKEEP_MAIL_FROM_ADDRESS: 'reminders@mail.example.com',
      ...(given.dkimKeyFile && {
        TARNKEEP_DKIM_DOMAIN: 'mail.example.com',
        TARNKEEP_DKIM_SELECTOR: 'bench',
        TARNKEEP_DKIM_KEY_FILE: given.dkimKeyFile,
      }),
    },
    configDirectory: path.join(import.meta.dirname, '../../../config'),
  });
  const foundation = await createFoundation(settings, { clock: given.clock });
  class DigestModule {}
  Module({ imports: [foundationModule(foundation), RemindersModule] })(DigestModule);
  const app = await NestFactory.createApplicationContext(DigestModule, { logger: false });
  return {
    app,
    foundation,
    async close() {
      await app.close();
      await foundation.database.close();
    },
  };
}
