import { Injectable, Logger } from '@nestjs/common';
import type { DateTime } from 'luxon';
import { CompaniesService } from '../accounts/index.js';
import { CareCalendarService, type CareTaskView } from '../care-calendar/index.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock, civilDayIn, instantFrom, instantText } from '../platform/clock.js';
import { type CompanyId, newId } from '../platform/ids.js';
import { type ComposedMail, choosable, DigestComposer } from './digest-composer.service.js';
import { type DigestMoment, digestDue, localInstant, urgentNotBefore } from './digest-time.js';
import { HomeownerLinks, type MailLinks } from './homeowner-links.service.js';
import { type Homeowner, HomeownersService, isQuiet } from './homeowners.service.js';
import { MailHolds } from './mail-holds.service.js';
import { type NewMail, OutboxService } from './outbox.service.js';
import { ReminderEntity } from './reminder.entity.js';
import { SeasonNotes } from './season-notes.service.js';
import { seasonThread } from './season-thread.js';
import { UrgentDue } from './urgent-due.service.js';

export interface SweepOptions {
  /** Instant, ISO 8601; now unless given. */
  readonly asOf?: string;
  /** Writes nothing; the answer holds what would go. */
  readonly dryRun?: boolean;
  readonly companyId?: CompanyId;
  readonly onProgress?: (progress: { readonly done: number; readonly total: number }) => void;
  readonly signal?: AbortSignal;
}

/** A mail that was written, or would be. */
export interface SweptMail {
  readonly companyName: string;
  readonly kind: 'digest' | 'urgent';
  readonly toName: string;
  readonly toAddress: string;
  readonly subject: string;
  readonly plainText: string;
}

export interface SweepOutcome {
  readonly digests: number;
  readonly urgent: number;
  /** Homeowners whose hour has come and who have nothing to do. */
  readonly nothingDue: number;
  /** Mails that could not be written; they are listed among the messages. */
  readonly failed: number;
  /** Homeowners without mail, for the office to call. */
  readonly toCall: number;
  readonly mails: readonly SweptMail[];
}

type Tally = { -readonly [K in keyof Omit<SweepOutcome, 'mails'>]: number } & { mails: SweptMail[] };

/** A digest later than this after its hour is one that was missed. [hours] */
const ON_TIME_HOURS = 2;
/** A digest tells of a week; two days after its hour the next one is nearer. [hours] */
const DIGEST_USEFUL_HOURS = 48;

/**
 * Looks who is due for a mail and writes it into the outbox: reminder, mail and the promise of its dates in one unit of
 * work. It may run at any time and any number of times: each digest has the key of its person and day, each urgent
 * mail that of its task and person.
 */
@Injectable()
export class ReminderSweep {
  private readonly logger = new Logger('reminders');

  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly companies: CompaniesService,
    private readonly calendar: CareCalendarService,
    private readonly homeowners: HomeownersService,
    private readonly composer: DigestComposer,
    private readonly links: HomeownerLinks,
    private readonly outbox: OutboxService,
    private readonly urgent: UrgentDue,
    private readonly holds: MailHolds,
    private readonly seasons: SeasonNotes,
  ) {}

  async run(options: SweepOptions = {}): Promise<SweepOutcome> {
    const now = options.asOf === undefined ? this.clock.now() : instantFrom(options.asOf);
    const tally: Tally = { digests: 0, urgent: 0, nothingDue: 0, failed: 0, toCall: 0, mails: [] };
    const companies = (await this.companies.all()).filter(({ id }) => id === (options.companyId ?? id));
    const restoredAt = options.dryRun ? null : await this.holds.restoredAt();
    const everybody: Homeowner[] = [];
    for (const company of companies) {
      // What is held back would be stale when it leaves: it is written when mail goes again.
      if (options.dryRun || !(await this.holds.isHeld(company.id))) {
        everybody.push(...(await this.homeowners.mailable(company.id)));
      }
      tally.toCall += (await this.homeowners.callList(company.id)).length;
    }

    let done = 0;
    for (const company of companies) {
      const mine = everybody.filter((homeowner) => homeowner.company.id === company.id);
      const lastDigests = await this.homeowners.lastDigests(company.id);
      const urgent = await this.urgent.byPerson(company.id, mine, now);
      for (const homeowner of mine) {
        if (options.signal?.aborted) return tally;
        const moment = digestDue(now, homeowner.wish, {
          since: homeowner.since,
          lastDigestOn: lastDigests.get(homeowner.personId) ?? null,
        });
        const isPast = moment !== null && restoredAt !== null && instantText(moment.at) <= restoredAt;
        if (moment && !isPast && !isQuiet(homeowner, civilDayIn(now, homeowner.wish.timeZone))) {
          await this.guarded(homeowner, digestKey(homeowner, moment.on), tally, 'digest', () =>
            this.writeDigest(homeowner, moment, now, options, tally),
          );
        }
        for (const view of await this.urgent.untold(homeowner, urgent.get(homeowner.personId) ?? [], now)) {
          await this.guarded(homeowner, urgentKey(homeowner, view), tally, 'urgent', () =>
            this.writeUrgent(homeowner, view, now, options, tally),
          );
        }
        options.onProgress?.({ done: ++done, total: everybody.length });
      }
    }
    return tally;
  }

  private async writeDigest(
    homeowner: Homeowner,
    moment: DigestMoment,
    now: DateTime<true>,
    options: SweepOptions,
    tally: Tally,
  ): Promise<void> {
    // As of another time, when a task came into the calendar says nothing.
    const isMissed = options.asOf === undefined && now.diff(moment.at, 'hours').hours > ON_TIME_HOURS;
    const days = {
      today: civilDayIn(now, homeowner.wish.timeZone),
      digestOn: moment.on,
      knownBefore: isMissed ? instantText(moment.at) : null,
    };
    const { company, personId } = homeowner;
    const written = await this.compose(homeowner, now, options, async (links) => {
      const store = this.database.company(company.id);
      const digestOn = isoDateOf(moment.on);
      if ((await store.count(ReminderEntity, { personId, digestOn })) > 0) return 'already';
      const season = await this.seasons.lastTold(company.id, personId);
      const composed = await this.composer.digest(homeowner, { ...days, season }, links);
      if (!composed) return 'nothing';
      if (options.dryRun) return composed;

      const outboxId = await this.outbox.write(company.id, {
        ...this.addressed(homeowner, composed, now),
        kind: 'digest',
        dedupeKey: digestKey(homeowner, moment.on),
        timeZone: homeowner.wish.timeZone,
        notAfter: instantText(now.plus({ hours: DIGEST_USEFUL_HOURS })),
      });
      if (outboxId === null) return 'already';
      const taskIds = composed.tasks.map(({ task }) => task.id);
      await store.insert(ReminderEntity, {
        id: newId(now.toMillis()),
        personId,
        digestOn,
        taskIds,
        outboxId,
        season: composed.season,
        createdAt: instantText(now),
      });
      await this.promise(company.id, composed.tasks, days.today);
      return composed;
    });
    if (written === 'nothing') tally.nothingDue += 1;
    else if (written !== 'already') {
      tally.digests += 1;
      tally.mails.push(sweptMail(homeowner, 'digest', written));
    }
  }

  private async writeUrgent(
    homeowner: Homeowner,
    view: CareTaskView,
    now: DateTime<true>,
    options: SweepOptions,
    tally: Tally,
  ): Promise<void> {
    const { company, wish } = homeowner;
    const today = civilDayIn(now, wish.timeZone);
    const { latest } = choosable(view);
    const written = await this.compose(homeowner, now, options, async (links) => {
      const dedupeKey = urgentKey(homeowner, view);
      if (await this.outbox.has(company.id, dedupeKey)) return 'already';
      const composed = await this.composer.urgent(homeowner, view, today, links);
      if (options.dryRun) return composed;

      const outboxId = await this.outbox.write(company.id, {
        ...this.addressed(homeowner, composed, now),
        kind: 'urgent',
        dedupeKey,
        pondId: view.task.pondId,
        // On its last day it goes at any hour.
        timeZone: latest <= today ? null : wish.timeZone,
        notBefore: instantText(urgentNotBefore(now, latest, wish)),
        notAfter: instantText(localInstant(addDays(latest, 1), 0, wish.timeZone)),
      });
      if (outboxId === null) return 'already';
      await this.promise(company.id, [view], today);
      return composed;
    });
    if (written === 'already') return;
    tally.urgent += 1;
    tally.mails.push(sweptMail(homeowner, 'urgent', written));
  }

  /** In one unit of work, or without any when nothing may be written. */
  private compose<T>(
    homeowner: Homeowner,
    now: DateTime<true>,
    options: SweepOptions,
    work: (links: MailLinks) => Promise<T>,
  ): Promise<T> {
    if (options.dryRun) return work(this.links.none());
    const { company, personId } = homeowner;
    return this.database.unitOfWork('write a reminder', () =>
      this.links.within(company.id, personId, instantText(now), work),
    );
  }

  /** A mail that cannot be written is noted where the office sees it; the others go on. */
  private async guarded(
    homeowner: Homeowner,
    dedupeKey: string,
    tally: Tally,
    kind: 'digest' | 'urgent',
    work: () => Promise<void>,
  ): Promise<void> {
    try {
      await work();
    } catch (error) {
      // Another process has just written the same mail.
      if (Database.isUniqueViolation(error)) return;
      tally.failed += 1;
      this.logger.error(`A mail to person ${homeowner.personId} could not be written: ${String(error)}`);
      const noted: NewMail = {
        kind,
        dedupeKey,
        toName: homeowner.name,
        toAddress: homeowner.email,
        subject: `${homeowner.ponds[0]?.name ?? 'Pond'}: this mail could not be written`,
        html: '',
        plainText: '',
      };
      await this.outbox.writeDead(homeowner.company.id, noted, (error as Error).message);
    }
  }

  private addressed(homeowner: Homeowner, { mail }: ComposedMail, now: DateTime<true>) {
    const [contact] = homeowner.contacts;
    return {
      ...mail,
      toName: homeowner.name,
      toAddress: homeowner.email,
      contactId: contact?.id ?? null,
      pondId: homeowner.ponds.length === 1 ? (homeowner.ponds[0]?.id ?? null) : null,
      thread: seasonThread(homeowner, civilDayIn(now, homeowner.wish.timeZone)),
      writtenAt: instantText(now),
    };
  }

  /** Holds the dates that were told. A date in the past is told as today. */
  private async promise(companyId: CompanyId, views: readonly CareTaskView[], today: CivilDay): Promise<void> {
    const byDay = new Map<string, string[]>();
    for (const { task, dueOn } of views) {
      const day = civilDay(dueOn) < today ? isoDateOf(today) : dueOn;
      byDay.set(day, [...(byDay.get(day) ?? []), task.id]);
    }
    for (const [day, taskIds] of byDay) await this.calendar.promise(companyId, taskIds, day, { byMail: true });
  }
}

function digestKey({ personId }: Homeowner, on: CivilDay): string {
  return `digest:${personId}:${isoDateOf(on)}`;
}

function urgentKey({ personId }: Homeowner, { task }: CareTaskView): string {
  return `urgent:${task.id}:${personId}`;
}

function sweptMail(homeowner: Homeowner, kind: 'digest' | 'urgent', { mail }: ComposedMail): SweptMail {
  return {
    companyName: homeowner.company.name,
    kind,
    toName: homeowner.name,
    toAddress: homeowner.email,
    subject: mail.subject,
    plainText: mail.plainText,
  };
}
