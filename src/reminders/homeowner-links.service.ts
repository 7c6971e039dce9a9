import { Inject, Injectable } from '@nestjs/common';
import { type LinkDraft, type LinkPurpose, LinksService } from '../accounts/index.js';
import { SETTINGS, type Settings } from '../config/index.js';
import { type CivilDay, isoDateOf } from '../core/units/civil-day.js';
import { instantFrom, instantText } from '../platform/clock.js';
import type { CompanyId, PersonId } from '../platform/ids.js';

/** Where the links of one mail lead. */
export interface MailLinks {
  done(task: { readonly taskId: string; readonly latest: CivilDay }): Promise<string>;
  notNow(task: { readonly taskId: string; readonly latest: CivilDay }): Promise<string>;
  myPond(): Promise<string>;
  stop(): Promise<string>;
  visitReport(visitId: string): Promise<string>;
  visitAnswer(visitId: string): Promise<string>;
}

/** How long links of a mail live. [days] */
const TASK_LINK_AFTER_LATEST_DAYS = 14;
const MY_POND_DAYS = 60;
const VISIT_REPORT_DAYS = 90;

/** Makes the links of a mail: one purpose, one object, one person each. */
@Injectable()
export class HomeownerLinks {
  constructor(
    private readonly links: LinksService,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  /** Writes a mail with its links, which are stored when it is written. Inside the unit of work of the mail. */
  async within<T>(
    companyId: CompanyId,
    personId: PersonId,
    nowInstant: string,
    write: (links: MailLinks) => Promise<T>,
  ): Promise<T> {
    const drafts: LinkDraft[] = [];
    const written = await write(this.drafting(companyId, personId, nowInstant, drafts));
    await this.links.store(drafts);
    return written;
  }

  private drafting(companyId: CompanyId, personId: PersonId, nowInstant: string, drafts: LinkDraft[]): MailLinks {
    const make = async (purpose: LinkPurpose, objectId: string, expiresAt: string | null) => {
      const draft = this.links.draft({ purpose, companyId, personId, objectId, expiresAt });
      drafts.push(draft);
      return linkUrl(this.settings.publicUrl, purpose, draft.token);
    };
    const inDays = (days: number) => instantText(instantFrom(nowInstant).plus({ days }));
    const afterLatest = (latest: CivilDay) =>
      instantText(instantFrom(`${isoDateOf(latest)}T00:00:00Z`).plus({ days: TASK_LINK_AFTER_LATEST_DAYS }));
    return {
      done: (task) => make('task-done', task.taskId, afterLatest(task.latest)),
      notNow: (task) => make('task-not-now', task.taskId, afterLatest(task.latest)),
      myPond: () => make('my-pond', personId, inDays(MY_POND_DAYS)),
      stop: () => make('stop-mail', personId, null),
      visitReport: (visitId) => make('visit-report', visitId, inDays(VISIT_REPORT_DAYS)),
      visitAnswer: (visitId) => make('visit-answer', visitId, inDays(VISIT_REPORT_DAYS)),
    };
  }

  /** Links that open nothing, for a mail that is only looked at. */
  none(): MailLinks {
    const shown = (purpose: LinkPurpose) => async () => linkUrl(this.settings.publicUrl, purpose, 'not-issued');
    return {
      done: shown('task-done'),
      notNow: shown('task-not-now'),
      myPond: shown('my-pond'),
      stop: shown('stop-mail'),
      visitReport: shown('visit-report'),
      visitAnswer: shown('visit-answer'),
    };
  }
}

export function linkUrl(publicUrl: string, purpose: LinkPurpose, token: string): string {
  return `${publicUrl}/l/${purpose}/${token}`;
}
