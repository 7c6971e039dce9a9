import { Inject, Injectable, Logger } from '@nestjs/common';
import { CompaniesService } from '../accounts/index.js';
import { SETTINGS, type Settings } from '../config/index.js';
import { Database } from '../database/index.js';
import { readDeliveryReport } from './delivery-report.js';
import { MailOutboxEntity } from './mail-outbox.entity.js';
import { mailIdOf } from './transport/return-address.js';

/**
 * - `returned`: the mail came back for good and is listed; an address that is refused is mailed no more.
 * - `delayed`: the server is still trying; nothing changes.
 * - `not-a-report`: an answer of a person or a machine. It is left to whoever reads that mailbox; nothing is sent.
 * - `not-ours`: no mail of ours, or not signed by us: somebody may have made it up.
 */
export type BounceOutcome = 'returned' | 'delayed' | 'not-a-report' | 'not-ours';

/** Reads reports of mail that could not be delivered. It never answers one: two machines would answer each other. */
@Injectable()
export class BouncesService {
  private readonly logger = new Logger('mail');

  constructor(
    private readonly database: Database,
    private readonly companies: CompaniesService,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  /** Whether reports are read here at all. */
  get isSetUp(): boolean {
    return this.settings.bounces !== null;
  }

  /**
   * Takes one message as the mail server got it.
   * @param sentTo The address it was sent to, where the server tells it apart from the headers.
   */
  async receive(raw: Buffer, sentTo: readonly string[] = []): Promise<BounceOutcome> {
    const { bounces } = this.settings;
    const report = await readDeliveryReport(raw);
    if (report === null) return 'not-a-report';
    const mailId = bounces === null ? null : firstOf([...sentTo, ...report.sentTo], (to) => mailIdOf(to, bounces));
    if (mailId === null) return 'not-ours';
    if (report.action !== 'failed') return 'delayed';

    for (const company of await this.companies.all()) {
      const lastReply = `report: ${report.status} ${report.diagnostic}`.trim();
      const changed = await this.database.unitOfWork('note that a mail came back', () =>
        this.database.company(company.id).update(MailOutboxEntity, { id: mailId }, { state: 'bounced', lastReply }),
      );
      if (changed === 0) continue;
      this.logger.warn(`Mail ${mailId} came back: ${lastReply}`);
      return 'returned';
    }
    return 'not-ours';
  }
}

function firstOf<T, R>(items: readonly T[], found: (item: T) => R | null): R | null {
  for (const item of items) {
    const one = found(item);
    if (one !== null) return one;
  }
  return null;
}
