import { createHash } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull } from 'typeorm';
import { CompaniesService, type CompanyEntity, LinksService, PeopleService } from '../accounts/index.js';
import { CareCalendarService } from '../care-calendar/index.js';
import { CAUTIONS, SETTINGS, type Settings } from '../config/index.js';
import type { Caution } from '../core/care/caution.js';
import { addDays, isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, type PersonId, type PondId } from '../platform/ids.js';
import { PondContactEntity, PondEntity } from '../ponds/index.js';
import { type VisitListQuery, type VisitListRow, VisitsService } from '../visits/index.js';
import { CalendarFeedEntity } from './calendar-feed.entity.js';
import { taskEntry, visitEntry } from './feed-entries.js';
import { CalendarFeedNotFoundError } from './feeds.errors.js';
import { calendarText } from './icalendar/calendar-text.js';

export type FeedWish = Pick<CalendarFeedEntity, 'audience' | 'tasksAs' | 'alarmMinutesBefore'>;

/** A calendar as it is sent. The tag changes when and only when the text does. */
export interface FeedAnswer {
  readonly text: string;
  readonly tag: string;
}

/** What a feed shows around today: what is done or cancelled stays readable for a while. [days] */
const PAST_DAYS = 60;
const COMING_DAYS = 548;
const REFRESH_HOURS = 6;
const VISITS_PER_QUERY = 200;
const HOMEOWNER_ROLES = ['homeowner', 'caretaker'];

/** Calendar addresses: given, read, replaced, taken back. Reading one changes nothing but the note of when it was read. */
@Injectable()
export class CalendarFeedsService {
  private readonly cautions: ReadonlyMap<string, Caution>;

  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly companies: CompaniesService,
    private readonly people: PeopleService,
    private readonly links: LinksService,
    private readonly calendar: CareCalendarService,
    private readonly visits: VisitsService,
    @Inject(CAUTIONS) cautions: readonly Caution[],
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {
    this.cautions = new Map(cautions.map((caution) => [caution.id, caution]));
  }

  /** Gives a person an address and answers it; it cannot be read out later, only replaced. */
  async give(companyId: CompanyId, personId: PersonId, wish: FeedWish): Promise<{ feedId: string; address: string }> {
    return this.database.unitOfWork('give a calendar address', async () => {
      const feedId = newId(this.clock.now().toMillis());
      await this.database.company(companyId).insert(CalendarFeedEntity, {
        id: feedId,
        personId,
        ...wish,
        createdAt: this.clock.instant(),
        revokedAt: null,
        lastReadAt: null,
      });
      const token = await this.links.issue({
        purpose: 'calendar-feed',
        companyId,
        personId,
        objectId: feedId,
        expiresAt: null,
      });
      return { feedId, address: `${this.settings.publicUrl}/feeds/${token}.ics` };
    });
  }

  /** A person's addresses that are in use, oldest first. */
  standing(companyId: CompanyId, personId: PersonId): Promise<CalendarFeedEntity[]> {
    return this.database.company(companyId).find(CalendarFeedEntity, {
      where: { personId, revokedAt: IsNull() },
      order: { createdAt: 'ASC', id: 'ASC' },
    });
  }

  /** Takes an address back: whoever has it reads nothing any more. @throws CalendarFeedNotFoundError */
  async takeBack(companyId: CompanyId, personId: PersonId, feedId: string): Promise<void> {
    await this.database.unitOfWork('take a calendar address back', async () => {
      const changed = await this.database
        .company(companyId)
        .update(CalendarFeedEntity, { id: feedId, personId, revokedAt: IsNull() }, { revokedAt: this.clock.instant() });
      if (changed === 0) throw new CalendarFeedNotFoundError();
      await this.links.revokeFor(feedId);
    });
  }

  /** The calendar behind a token. @throws CalendarFeedNotFoundError for one that is unknown or taken back */
  async read(token: string): Promise<FeedAnswer> {
    const link = await this.links.resolve('calendar-feed', token);
    if (!link) throw new CalendarFeedNotFoundError();
    const companyId = link.issuedByCompanyId;
    const feed = await this.database
      .company(companyId)
      .findOne(CalendarFeedEntity, { id: link.objectId, revokedAt: IsNull() });
    if (!feed || !(await this.mayRead(feed))) throw new CalendarFeedNotFoundError();

    const text = await this.textOf(feed);
    await this.noteRead(feed);
    return { text, tag: createHash('sha256').update(text).digest('base64url') };
  }

  /** A member who left, or a homeowner whose house is sold, reads nothing any more. */
  private async mayRead(feed: CalendarFeedEntity): Promise<boolean> {
    if (feed.audience === 'homeowner') return (await this.pondsOf(feed)).length > 0;
    const members = await this.people.membersOf(feed.companyId);
    const theirs = members.find((member) => member.personId === feed.personId);
    return theirs !== undefined && (feed.audience === 'technician' || theirs.role !== 'technician');
  }

  private async textOf(feed: CalendarFeedEntity): Promise<string> {
    const company = await this.companies.get(feed.companyId);
    const host = new URL(this.settings.publicUrl).hostname;
    const today = this.clock.today(company.timeZone);
    const span = { from: isoDateOf(addDays(today, -PAST_DAYS)), to: isoDateOf(addDays(today, COMING_DAYS)) };
    const ponds = feed.audience === 'homeowner' ? await this.pondsOf(feed) : [];
    const rows = await this.visitsOf(feed, span, ponds);
    const visits = rows.map((row) =>
      visitEntry(row, { audience: feed.audience, companyName: company.name, host }, feed),
    );
    const tasks = await this.tasksOf(feed, company, span, ponds, host);
    const newYear = this.clock.now().startOf('year');
    return calendarText({
      name: nameOf(feed, company, ponds),
      description: `From ${company.name}. Dates follow the water and may move by some days.`,
      refreshHours: REFRESH_HOURS,
      entries: [...visits, ...tasks],
      zonesFromMs: newYear.minus({ years: 1 }).toMillis(),
      zonesToMs: newYear.plus({ years: 3 }).toMillis(),
    });
  }

  private async tasksOf(
    feed: CalendarFeedEntity,
    company: CompanyEntity,
    span: { from: string; to: string },
    ponds: readonly PondEntity[],
    host: string,
  ) {
    if (feed.audience !== 'homeowner') return [];
    const person = (await this.people.byIds([feed.personId])).get(feed.personId);
    const units = person?.units ?? company.units;
    const views = await this.calendar.homeownerTasksInSpan(
      feed.companyId,
      ponds.map(({ id }) => id),
      span,
    );
    return views
      .filter(({ task }) => !task.routineLine)
      .map((view) => taskEntry(view, { units, cautions: this.cautions, host }, feed));
  }

  private async visitsOf(
    feed: CalendarFeedEntity,
    span: { from: string; to: string },
    ponds: readonly PondEntity[],
  ): Promise<VisitListRow[]> {
    const which: VisitListQuery = {
      homeowner: { pondIds: ponds.map(({ id }) => id), isPublished: true },
      technician: { technicianId: feed.personId, isPublished: true },
      company: {},
    }[feed.audience];
    const rows: VisitListRow[] = [];
    for (let page = 1; ; page++) {
      const one = await this.visits.list(feed.companyId, { ...which, ...span, page, pageSize: VISITS_PER_QUERY });
      rows.push(...one.rows);
      if (rows.length >= one.total || one.rows.length === 0) return rows;
    }
  }

  private async pondsOf(feed: CalendarFeedEntity): Promise<PondEntity[]> {
    const store = this.database.company(feed.companyId);
    const contacts = await store.find(PondContactEntity, {
      where: { personId: feed.personId, endedOn: IsNull(), role: In(HOMEOWNER_ROLES) },
    });
    const ids: PondId[] = contacts.map(({ pondId }) => pondId);
    if (ids.length === 0) return [];
    return store.find(PondEntity, { where: { id: In(ids), state: 'active' }, order: { id: 'ASC' } });
  }

  private async noteRead(feed: CalendarFeedEntity): Promise<void> {
    const { id, companyId } = feed;
    await this.database.unitOfWork('note that a calendar was read', () =>
      this.database.company(companyId).update(CalendarFeedEntity, { id }, { lastReadAt: this.clock.instant() }),
    );
  }
}

function nameOf(feed: CalendarFeedEntity, company: CompanyEntity, ponds: readonly PondEntity[]): string {
  if (feed.audience === 'company') return `Pond visits, ${company.name}`;
  if (feed.audience === 'technician') return `My round, ${company.name}`;
  const [first] = ponds;
  return ponds.length === 1 && first ? first.name : 'My ponds';
}
