import { Injectable } from '@nestjs/common';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PersonId } from '../platform/ids.js';
import { DigestComposer } from './digest-composer.service.js';
import { HomeownerLinks } from './homeowner-links.service.js';
import { type Homeowner, HomeownersService } from './homeowners.service.js';
import type { WrittenMail } from './messages/mail-content.js';
import { SeasonNotes } from './season-notes.service.js';

/** The weekly mail somebody would get now. */
export interface PreviewedMail {
  readonly homeowner: Homeowner;
  /** Null: there is nothing to tell, so none would be written. */
  readonly mail: WrittenMail | null;
}

/** Shows the weekly mail of any homeowner as of now. Nothing is written, promised or sent, and its links open nothing. */
@Injectable()
export class MailPreview {
  constructor(
    private readonly clock: Clock,
    private readonly homeowners: HomeownersService,
    private readonly composer: DigestComposer,
    private readonly seasons: SeasonNotes,
    private readonly links: HomeownerLinks,
  ) {}

  /** Null for somebody who is no homeowner here. */
  async of(companyId: CompanyId, personId: PersonId): Promise<PreviewedMail | null> {
    const homeowner = await this.homeowners.find(companyId, personId);
    if (!homeowner) return null;
    const today = this.clock.today(homeowner.wish.timeZone);
    const season = await this.seasons.lastTold(companyId, personId);
    const days = { today, digestOn: today, knownBefore: null, season };
    const composed = await this.composer.digest(homeowner, days, this.links.none());
    return { homeowner, mail: composed?.mail ?? null };
  }
}
