import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { Inject, Injectable, Logger } from '@nestjs/common';
import { SETTINGS, type Settings } from '../config/index.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { ClockWatch } from './clock-watch.js';
import { MailHolds, WHOLE_SERVICE } from './mail-holds.service.js';
import { MailMarkEntity } from './mail-mark.entity.js';

const FILE = 'mail-mark.json';

/**
 * Holds all mail when the machine is not what it was: the database is older than the last one that sent mail from this
 * folder, as after restoring a copy, or the clock jumped. A person looks and releases it.
 *
 * A number goes up with every round of delivery, in the database and then in a file beside it. A copy of yesterday has
 * a smaller number than the file. A whole folder restored with its file cannot be told from one that stood still: then
 * mail is held by hand before the start.
 */
@Injectable()
export class MailGuards {
  private readonly logger = new Logger('mail');
  private readonly clockWatch: ClockWatch;

  constructor(
    private readonly database: Database,
    clock: Clock,
    private readonly holds: MailHolds,
    @Inject(SETTINGS) private readonly settings: Pick<Settings, 'dataDirectory' | 'database'>,
  ) {
    this.clockWatch = new ClockWatch(
      () => clock.now().toMillis(),
      () => performance.now(),
    );
  }

  /** Called before reminders are written and before mail is delivered. */
  async look(): Promise<void> {
    const jumpedHours = this.clockWatch.jumpedHours();
    if (jumpedHours > 0 && (await this.holds.hold(WHOLE_SERVICE, 'clock'))) {
      this.logger.error(`The clock of this machine went ${Math.round(jumpedHours)} h ahead at once: all mail is held.`);
    }
    if ((await this.isRestored()) && (await this.holds.holdRestored())) {
      this.logger.error('The database is older than the last one that sent mail here: all mail is held.');
    }
  }

  /** Called before mail leaves. */
  async mark(): Promise<void> {
    const runs = await this.database.unitOfWork('mark a round of mail', async () => {
      const shared = this.database.shared();
      const standing = await shared.findOne(MailMarkEntity, { name: 'delivery' });
      const next = Math.max(standing?.runs ?? 0, this.inFile() ?? 0) + 1;
      if (standing) await shared.update(MailMarkEntity, { name: 'delivery' }, { runs: next });
      else await shared.insert(MailMarkEntity, { name: 'delivery', runs: next });
      return next;
    });
    writeFileSync(this.file, `${JSON.stringify({ rounds: runs })}\n`);
  }

  private async isRestored(): Promise<boolean> {
    const { runs } = (await this.database.shared().findOne(MailMarkEntity, { name: 'delivery' })) ?? { runs: 0 };
    const inFile = this.inFile();
    if (inFile !== null) return runs < inFile;
    // A database file that has sent mail and lies in a folder that has not came from elsewhere.
    return this.settings.database.kind === 'sqlite' && runs > 0;
  }

  private inFile(): number | null {
    try {
      const { rounds } = JSON.parse(readFileSync(this.file, 'utf8')) as { rounds?: unknown };
      return typeof rounds === 'number' ? rounds : null;
    } catch {
      return null;
    }
  }

  private get file(): string {
    return path.join(this.settings.dataDirectory, FILE);
  }
}
