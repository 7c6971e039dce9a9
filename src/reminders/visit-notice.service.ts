import { Injectable, Logger, type OnModuleInit } from '@nestjs/common';
import { taskTitle } from '../core/care/explain.js';
import { civilDay } from '../core/units/civil-day.js';
import { Clock, instantText } from '../platform/clock.js';
import type { CompanyId, PondId, VisitId } from '../platform/ids.js';
import { VisitNews, type VisitReport, VisitsService } from '../visits/index.js';
import { inSentence } from './care-words.service.js';
import { DigestComposer } from './digest-composer.service.js';
import { isNight, localInstant } from './digest-time.js';
import { HomeownerLinks } from './homeowner-links.service.js';
import { type Homeowner, HomeownersService } from './homeowners.service.js';
import { MORNING_HOUR, nextMorning } from './mail-night.js';
import { noticeMail } from './messages/notice-mail.js';
import { OutboxService } from './outbox.service.js';
import { arrivalWords, listed, longDay } from './spoken-dates.js';

type Notice = 'published' | 'moved' | 'cancelled' | 'on-the-way';
interface About {
  readonly companyId: CompanyId;
  readonly pondId: PondId;
  readonly visitId: VisitId;
}

/** A notice that somebody is on the way is of no use later than this. [hours] */
const ON_THE_WAY_HOURS = 2;

/**
 * Tells homeowners of published visits: the day, when it moves, when it falls out, when somebody sets out. Written
 * inside the unit of work of the step; a mail that cannot be written never stops the step.
 */
@Injectable()
export class VisitNoticeMails implements OnModuleInit {
  private readonly logger = new Logger('reminders');

  constructor(
    private readonly news: VisitNews,
    private readonly visits: VisitsService,
    private readonly homeowners: HomeownersService,
    private readonly composer: DigestComposer,
    private readonly links: HomeownerLinks,
    private readonly outbox: OutboxService,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    this.news.on('visit-published', (item) => this.tell('published', item));
    this.news.on('visit-on-the-way', (item) => this.tell('on-the-way', item));
    this.news.on('visit-moved', async (item) => {
      // Another technician at the same time is nothing they have to plan for.
      if (item.isOtherTime) await this.tell('moved', item);
    });
    this.news.on('visit-cancelled', async (item) => {
      if (item.wasPublished) await this.tell('cancelled', item);
    });
  }

  private async tell(notice: Notice, { companyId, pondId, visitId }: About): Promise<void> {
    const refused = await this.outbox.refusedAddresses(companyId);
    const report = await this.visits.get(companyId, visitId);
    for (const homeowner of await this.homeowners.ofPond(companyId, pondId)) {
      const contact = homeowner.contacts.find((one) => one.pondId === pondId);
      if (!contact?.getsMail || contact.mailStoppedAt !== null || refused.has(homeowner.email)) continue;
      const addressed = {
        kind: 'visit-notice' as const,
        dedupeKey: `visit-notice:${notice}:${visitId}:${report.visit.version}:${homeowner.personId}`,
        toName: homeowner.name,
        toAddress: homeowner.email,
        contactId: contact.id,
        pondId,
        ...this.leaves(notice, report, homeowner),
      };
      try {
        const mail = await this.links.within(companyId, homeowner.personId, this.clock.instant(), async (links) =>
          noticeMail({
            ...(await this.composer.footing(homeowner, links)),
            ...wordsOf(notice, report, homeowner),
            answerUrl: notice === 'published' || notice === 'moved' ? await links.visitAnswer(visitId) : null,
          }),
        );
        await this.outbox.write(companyId, { ...addressed, ...mail });
      } catch (error) {
        this.logger.error(`The notice of visit ${visitId} could not be written: ${String(error)}`);
        const subject = `${report.pond.pond.name}: this notice could not be written`;
        await this.outbox.writeDead(
          companyId,
          { ...addressed, subject, html: '', plainText: '' },
          (error as Error).message,
        );
      }
    }
  }

  /** Notices wait for the morning; that somebody is on the way does not, and is soon of no use. */
  private leaves(notice: Notice, { visit }: VisitReport, { wish }: Homeowner) {
    const now = this.clock.now();
    if (notice === 'on-the-way') return { notAfter: instantText(now.plus({ hours: ON_THE_WAY_HOURS })) };
    const visitDayEnds = instantText(localInstant(civilDay(visit.plannedOn), 20, wish.timeZone));
    const { timeZone } = wish;
    if (!isNight(now, { hour: MORNING_HOUR, timeZone })) return { timeZone, notAfter: visitDayEnds };
    const opens = instantText(nextMorning(now, timeZone));
    return opens < visitDayEnds ? { timeZone, notBefore: opens, notAfter: visitDayEnds } : { notAfter: visitDayEnds };
  }
}

function wordsOf(notice: Notice, report: VisitReport, { company }: Homeowner) {
  const { visit, pond, technicianName, tasks } = report;
  const name = pond.pond.name;
  const day = longDay(civilDay(visit.plannedOn));
  const arrival = arrivalWords(visit.fromTime, visit.toTime);
  const when = arrival === '' ? day : `${day}, ${arrival}`;
  const who = technicianName ?? company.name;
  const works = listed(tasks.map(({ care }) => inSentence(taskTitle(care.task.planned, care.rule))));
  const what = works === '' ? '' : `The work: ${works}.`;
  const about = `${name}, ${pond.pond.town}`;
  const lines = (...all: string[]) => all.filter((line) => line !== '');
  switch (notice) {
    case 'published':
      return {
        subject: `${name}: we come on ${day}`,
        heading: `A visit on ${when}`,
        about,
        lines: lines(
          `${who} comes to ${name} on ${when}.`,
          what,
          arrival === '' ? 'We tell you the time when it is known.' : 'The time is the window in which we arrive.',
        ),
      };
    case 'moved':
      return {
        subject: `${name}: the visit is now on ${day}`,
        heading: `The visit has moved to ${when}`,
        about,
        lines: lines(`${who} now comes to ${name} on ${when}. This takes the place of what we told you before.`, what),
      };
    case 'cancelled':
      return {
        subject: `${name}: no visit on ${day}`,
        heading: `The visit on ${day} does not take place`,
        about,
        lines: lines(`We do not come to ${name} on ${day}.`, 'The work stays in the calendar and gets another day.'),
      };
    case 'on-the-way':
      return {
        subject: `${name}: we are on the way`,
        heading: `${who} is on the way`,
        about,
        lines: lines(`${who} has set out for ${name}.`, arrival === '' ? '' : `We told you ${arrival}.`),
      };
  }
}
