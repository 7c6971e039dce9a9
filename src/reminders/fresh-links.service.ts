import { Injectable } from '@nestjs/common';
import { CompaniesService, PeopleService } from '../accounts/index.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { DigestComposer } from './digest-composer.service.js';
import { HomeownerLinks } from './homeowner-links.service.js';
import { HomeownersService } from './homeowners.service.js';
import { noticeMail } from './messages/notice-mail.js';
import { OutboxService } from './outbox.service.js';

/** Sends a fresh link to the address on file, and to no other. */
@Injectable()
export class FreshLinks {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly companies: CompaniesService,
    private readonly people: PeopleService,
    private readonly homeowners: HomeownersService,
    private readonly composer: DigestComposer,
    private readonly links: HomeownerLinks,
    private readonly outbox: OutboxService,
  ) {}

  /**
   * Writes one mail a company in which this address is a homeowner's, at most one an hour. Whoever asks is told the
   * same in every case, so nobody learns whose addresses are known.
   */
  async askedFor(email: string): Promise<void> {
    const person = await this.people.findByEmail(email);
    if (!person) return;
    const now = this.clock.instant();
    for (const { id: companyId, name } of await this.companies.all()) {
      const homeowner = await this.homeowners.find(companyId, person.id);
      if (!homeowner) continue;
      await this.database.unitOfWork('send a fresh link', async () => {
        const dedupeKey = `fresh-link:${person.id}:${now.slice(0, 13)}`;
        if (await this.outbox.has(companyId, dedupeKey)) return;
        const footing = await this.links.within(companyId, person.id, now, (links) =>
          this.composer.footing(homeowner, links),
        );
        const ponds = homeowner.ponds.map((pond) => pond.name).join(', ');
        const mail = noticeMail({
          ...footing,
          because:
            'You get this because somebody asked for a fresh link for this address. If it was not you, leave it.',
          subject: `A fresh link to ${homeowner.ponds.length === 1 ? ponds : 'your ponds'}`,
          heading: 'Your fresh link',
          about: ponds,
          lines: [`The link below opens your page at ${name}. It works for 60 days.`],
        });
        await this.outbox.write(companyId, {
          ...mail,
          kind: 'account',
          dedupeKey,
          toName: homeowner.name,
          toAddress: homeowner.email,
        });
      });
    }
  }
}
