import { Injectable } from '@nestjs/common';
import type { DateTime } from 'luxon';
import { CareCalendarService, type CareTaskView } from '../care-calendar/index.js';
import { addDays, isoDateOf } from '../core/units/civil-day.js';
import { civilDayIn } from '../platform/clock.js';
import type { CompanyId, PersonId } from '../platform/ids.js';
import { AskedTasks } from './asked-tasks.service.js';
import { choosable } from './digest-composer.service.js';
import { type Homeowner, isQuiet } from './homeowners.service.js';

const PONDS_PER_QUERY = 400;

/** Urgent tasks that somebody has to be told of now. */
@Injectable()
export class UrgentDue {
  constructor(
    private readonly calendar: CareCalendarService,
    private readonly asked: AskedTasks,
  ) {}

  /** Open urgent tasks by person: those whose day has come and is not over. */
  async byPerson(
    companyId: CompanyId,
    homeowners: readonly Homeowner[],
    now: DateTime<true>,
  ): Promise<ReadonlyMap<PersonId, CareTaskView[]>> {
    const utcToday = civilDayIn(now, 'UTC');
    const days = { from: isoDateOf(utcToday), to: isoDateOf(addDays(utcToday, 1)) };
    const pondIds = [...new Set(homeowners.flatMap(({ ponds }) => ponds.map(({ id }) => id)))];
    const views: CareTaskView[] = [];
    for (let from = 0; from < pondIds.length; from += PONDS_PER_QUERY) {
      const some = pondIds.slice(from, from + PONDS_PER_QUERY);
      views.push(...(await this.calendar.dueForHomeowner(companyId, some, days)));
    }
    const urgent = views.map(choosable).filter((one) => one.consequence === 'urgent' && !one.routineLine);
    return new Map(
      homeowners.map((homeowner) => {
        const today = civilDayIn(now, homeowner.wish.timeZone);
        const mine = new Set(homeowner.ponds.map(({ id }) => id));
        const theirs = urgent.filter(
          (one) => mine.has(one.view.task.pondId) && one.due <= today && today <= one.latest,
        );
        return [homeowner.personId, theirs.map(({ view }) => view)] as const;
      }),
    );
  }

  /**
   * Of these, the ones no weekly mail has told: after a standstill both come due at once, and one mail is enough. In
   * quiet weeks only what cannot wait for another day.
   */
  async untold(
    homeowner: Homeowner,
    views: readonly CareTaskView[],
    now: DateTime<true>,
  ): Promise<readonly CareTaskView[]> {
    if (views.length === 0) return [];
    const today = civilDayIn(now, homeowner.wish.timeZone);
    const times = await this.asked.timesByTask(homeowner.company.id, homeowner.personId, today);
    return views.filter((view) => {
      const task = choosable(view);
      return times(task) === 0 && (!isQuiet(homeowner, today) || task.latest <= today);
    });
  }
}
