import { Injectable, Logger, type OnModuleInit } from '@nestjs/common';
import { taskTitle } from '../core/care/explain.js';
import { type CivilDay, civilDay } from '../core/units/civil-day.js';
import { Clock } from '../platform/clock.js';
import { type VisitHistory, VisitNews, type VisitNewsItems, VisitsService } from '../visits/index.js';
import { ComingDays } from './coming-days.service.js';
import { DigestComposer } from './digest-composer.service.js';
import { HomeownerLinks, type MailLinks } from './homeowner-links.service.js';
import { type Homeowner, HomeownersService } from './homeowners.service.js';
import type { WrittenMail } from './messages/mail-content.js';
import { visitReportMail } from './messages/visit-report-mail.js';
import { OutboxService } from './outbox.service.js';
import { type SpokenReading, spokenReadings } from './reading-words.js';
import { ReportHolds } from './report-holds.service.js';
import { longDay } from './spoken-dates.js';

type Closed = VisitNewsItems['visit-closed'];

/** What a homeowner is told of a closed visit. */
export interface SpokenVisit {
  readonly pondName: string;
  readonly town: string;
  readonly day: CivilDay;
  readonly technicianName: string | null;
  readonly done: readonly { readonly title: string; readonly outcome: string; readonly remark: string }[];
  readonly readings: readonly SpokenReading[];
  readonly note: string;
  readonly watch: readonly string[];
  readonly isCorrected: boolean;
}

/** Mails the homeowner what was done, inside the unit of work that closes the visit. */
@Injectable()
export class VisitReportMails implements OnModuleInit {
  private readonly logger = new Logger('reminders');

  constructor(
    private readonly news: VisitNews,
    private readonly visits: VisitsService,
    private readonly homeowners: HomeownersService,
    private readonly coming: ComingDays,
    private readonly composer: DigestComposer,
    private readonly links: HomeownerLinks,
    private readonly outbox: OutboxService,
    private readonly holds: ReportHolds,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    this.news.on('visit-closed', (item) => this.visitClosed(item));
  }

  /** One report a homeowner and closing. A report that cannot be written never stops the closing. */
  async visitClosed({ companyId, pondId, visitId, closingVersion }: Closed): Promise<void> {
    const refused = await this.outbox.refusedAddresses(companyId);
    const notBefore = await this.holds.heldUntil(companyId);
    await this.holds.withdraw(companyId, visitId);
    for (const homeowner of await this.homeowners.ofPond(companyId, pondId)) {
      const contact = homeowner.contacts.find((one) => one.pondId === pondId);
      if (!contact?.getsMail || contact.mailStoppedAt !== null || refused.has(homeowner.email)) continue;
      const addressed = {
        kind: 'visit-report' as const,
        dedupeKey: `visit-report:${visitId}:${closingVersion}:${homeowner.personId}`,
        toName: homeowner.name,
        toAddress: homeowner.email,
        contactId: contact.id,
        pondId,
        ...(notBefore !== undefined && { notBefore }),
        timeZone: homeowner.wish.timeZone,
      };
      try {
        const history = await this.visits.history(companyId, visitId);
        const mail = await this.links.within(companyId, homeowner.personId, this.clock.instant(), (links) =>
          this.written(history, homeowner, links),
        );
        await this.outbox.write(companyId, { ...addressed, ...mail });
      } catch (error) {
        this.logger.error(`The report of visit ${visitId} could not be written: ${String(error)}`);
        const subject = 'Visit report: this mail could not be written';
        await this.outbox.writeDead(
          companyId,
          { ...addressed, subject, html: '', plainText: '' },
          (error as Error).message,
        );
      }
    }
  }

  /** What the closings of a visit that stand say together, in a homeowner's words. */
  spoken(history: VisitHistory, units: Homeowner['units']): SpokenVisit {
    const { visit, pond, closings, merged, technicianName } = history;
    const readings = spokenReadings(merged.readings, pond.pond.elevationM, units);
    const isStanding = closings.some(({ reopenedAt }) => reopenedAt === null);
    return {
      pondName: pond.pond.name,
      town: pond.pond.town,
      day: civilDay(visit.plannedOn),
      technicianName: workerOf(history) ?? technicianName,
      done: merged.tasks.map((told) => {
        const care = history.tasks.find(({ onVisit }) => onVisit.careTaskId === told.careTaskId)?.care;
        return {
          title: care ? taskTitle(care.task.planned, care.rule) : 'Further work',
          outcome: outcomeWords(told.outcome, told.doneShare),
          remark: told.remarks.join('. '),
        };
      }),
      readings,
      note: merged.notes.map(({ note }) => note).join('\n\n'),
      watch: [
        ...new Set(
          readings.flatMap(({ name, meaning, advice }) => (advice === null ? [] : [`${name}, ${meaning}. ${advice}`])),
        ),
      ],
      isCorrected: isStanding && closings.some(({ reopenedAt }) => reopenedAt !== null),
    };
  }

  private async written(history: VisitHistory, homeowner: Homeowner, links: MailLinks): Promise<WrittenMail> {
    const { visit } = history;
    const told = this.spoken(history, homeowner.units);
    // A report the homeowner never got needs no correction.
    const isCorrected = told.isCorrected && (await this.holds.hasLeft(visit.companyId, visit.id));
    const spoken = { ...told, isCorrected };
    const pond = history.pond.pond;
    const today = this.clock.today(pond.timeZone);
    const day = longDay(spoken.day);
    const kind = spoken.isCorrected ? 'Corrected report of the visit' : 'Report of the visit';
    return visitReportMail({
      ...(await this.composer.footing(homeowner, links)),
      subject: `${pond.name}: what was done on ${day}`,
      heading: `${kind} on ${day}`,
      about: [pond.name, pond.town, spoken.technicianName].filter(Boolean).join(', '),
      done: spoken.done,
      readings: spoken.readings.map(({ name, value, meaning, level }) => ({
        name,
        value,
        meaning,
        needsAction: level !== 'in-order' && level !== 'not-judged',
      })),
      note: spoken.note,
      watch: spoken.watch,
      visits: await this.coming.nextVisits(visit.companyId, [pond], today),
      comingUp: await this.coming.comingUp(visit.companyId, [pond], today, new Set()),
      reportUrl: await links.visitReport(visit.id),
    });
  }
}

/** Who did the work: the office may have corrected the record since. */
function workerOf({ closings }: VisitHistory): string | null {
  const closing = closings.findLast(({ record }) => record.editedBecause === undefined);
  return closing?.closedByName || null;
}

function outcomeWords(outcome: 'done' | 'partly' | 'not-done', doneShare: number | null): string {
  if (outcome === 'done') return 'done';
  if (outcome === 'not-done') return 'not done';
  return doneShare === null ? 'partly done' : `partly done, ${Math.round(doneShare * 100)} %`;
}
