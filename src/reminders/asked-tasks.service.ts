import { Injectable } from '@nestjs/common';
import { In, MoreThanOrEqual, Not } from 'typeorm';
import { CareCalendarService, CareTaskEntity, type CareTaskView } from '../care-calendar/index.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import type { CompanyId, PersonId } from '../platform/ids.js';
import { MailOutboxEntity, type MailState } from './mail-outbox.entity.js';
import { ReminderEntity } from './reminder.entity.js';

interface AskedOf {
  readonly taskId: string;
  readonly putOffUntil: CivilDay | null;
}

/** A window is never open longer than this. [days] */
const LOOKED_BACK_DAYS = 370;
/** From this many weekly mails without an answer on, the office calls. */
const CALLED_FROM_TIMES = 2;
/** Mails nobody can be said to have read: their tasks are asked for once more. */
const NOT_ARRIVED: MailState[] = ['in_doubt', 'expired', 'dead', 'bounced'];

/** Which weekly mails have asked for which task, so that nobody is asked a third time. */
@Injectable()
export class AskedTasks {
  constructor(
    private readonly database: Database,
    private readonly calendar: CareCalendarService,
  ) {}

  /**
   * How often a person was asked for a task and did not answer. "Not now" is an answer: mails before the day it was
   * put off to count no more.
   */
  async timesByTask(companyId: CompanyId, personId: PersonId, today: CivilDay): Promise<(task: AskedOf) => number> {
    const store = this.database.company(companyId);
    const reminders = await store.find(ReminderEntity, {
      where: { personId, digestOn: MoreThanOrEqual(isoDateOf(addDays(today, -LOOKED_BACK_DAYS))) },
    });
    const ids = reminders.map(({ outboxId }) => outboxId);
    const lost = new Set(
      (
        await store.find(MailOutboxEntity, {
          where: { id: In(ids), state: In(NOT_ARRIVED) },
          select: { id: true },
        })
      ).map(({ id }) => id),
    );
    const asked = new Map<string, CivilDay[]>();
    for (const { taskIds, outboxId, digestOn } of reminders) {
      if (lost.has(outboxId)) continue;
      for (const id of taskIds) asked.set(id, [...(asked.get(id) ?? []), civilDay(digestOn)]);
    }
    return ({ taskId, putOffUntil }) =>
      (asked.get(taskId) ?? []).filter((on) => putOffUntil === null || on >= putOffUntil).length;
  }

  /** Open tasks the homeowner was asked for in two weekly mails or more and did not answer, by their last day. */
  async unanswered(companyId: CompanyId): Promise<CareTaskView[]> {
    const store = this.database.company(companyId);
    const candidates = await store.find(CareTaskEntity, {
      where: {
        state: 'NEEDS-ACTION',
        doneBy: 'homeowner',
        routineLine: false,
        mailedTimes: MoreThanOrEqual(CALLED_FROM_TIMES),
        consequence: Not('urgent'),
      },
    });
    if (candidates.length === 0) return [];
    const oldest = candidates
      .map(({ createdAt }) => createdAt)
      .sort()[0]!
      .slice(0, 10);
    const reminders = await store.find(ReminderEntity, { where: { digestOn: MoreThanOrEqual(oldest) } });
    const weeks = new Map<string, Set<string>>();
    for (const { taskIds, digestOn } of reminders) {
      for (const id of taskIds) weeks.set(id, (weeks.get(id) ?? new Set()).add(digestOn));
    }
    const ids = candidates
      .filter(({ id, putOffUntil }) => weeksAfter(weeks.get(id), putOffUntil) >= CALLED_FROM_TIMES)
      .map(({ id }) => id);
    const views = await this.calendar.tasks(companyId, ids);
    return views.filter(({ isLate }) => !isLate).sort((a, b) => (a.task.latestOn < b.task.latestOn ? -1 : 1));
  }
}

function weeksAfter(weeks: ReadonlySet<string> | undefined, putOffUntil: string | null): number {
  const all = [...(weeks ?? [])];
  if (putOffUntil === null) return all.length;
  return all.filter((on) => on >= putOffUntil).length;
}
