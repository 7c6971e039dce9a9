import { Injectable } from '@nestjs/common';
import { CareCalendarService, type CareTaskView } from '../care-calendar/index.js';
import { taskTitle } from '../core/care/explain.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../core/units/civil-day.js';
import type { UnitSystem } from '../core/units/show.js';
import type { CompanyId } from '../platform/ids.js';
import type { PondEntity } from '../ponds/index.js';
import { VisitsService } from '../visits/index.js';
import { inSentence } from './care-words.service.js';
import type { DatedLine, MailVisit } from './messages/mail-content.js';
import { arrivalWords, listed, longDay, shortDate } from './spoken-dates.js';
import { waterWords } from './water-words.js';

/** How far "coming up" looks, and how much of it is told. */
const COMING_UP_DAYS = 45;
const MOST_LINES = 4;
const MOST_VISITS = 2;

type SomePond = Pick<PondEntity, 'id' | 'name'>;

/** What a homeowner may look forward to: the water, the next visits, what comes after this week. */
@Injectable()
export class ComingDays {
  constructor(
    private readonly calendar: CareCalendarService,
    private readonly visits: VisitsService,
  ) {}

  /** One sentence a pond. */
  async water(companyId: CompanyId, ponds: readonly SomePond[], today: CivilDay, units: UnitSystem): Promise<string[]> {
    const lines: string[] = [];
    for (const pond of ponds) {
      const outcome = await this.calendar.outcomeOf(companyId, pond.id);
      const line = waterWords(outcome?.outlook ?? null, today, units);
      if (line) lines.push(ponds.length === 1 ? line : `${pond.name}: ${inSentence(line)}`);
    }
    return lines;
  }

  /** Published visits from today on. */
  async nextVisits(companyId: CompanyId, ponds: readonly SomePond[], today: CivilDay): Promise<MailVisit[]> {
    const found: { day: string; visit: MailVisit }[] = [];
    for (const pond of ponds) {
      const { rows } = await this.visits.list(companyId, {
        pondId: pond.id,
        from: isoDateOf(today),
        states: ['CONFIRMED', 'IN-PROCESS'],
        pageSize: MOST_VISITS,
      });
      for (const { visit, technicianName, taskTitles } of rows) {
        const arrival = arrivalWords(visit.fromTime, visit.toTime);
        const day = longDay(civilDay(visit.plannedOn));
        const who = technicianName ?? 'We';
        const works = listed(taskTitles.map(inSentence));
        const where = ponds.length === 1 ? '' : ` (${pond.name})`;
        found.push({
          day: visit.plannedOn,
          visit: {
            when: arrival === '' ? day : `${day}, ${arrival}`,
            what: `${who} ${technicianName === null ? 'come' : 'comes'}${where}${works === '' ? '' : ` for: ${works}`}.`,
          },
        });
      }
    }
    return found
      .sort((a, b) => (a.day < b.day ? -1 : 1))
      .slice(0, MOST_VISITS)
      .map(({ visit }) => visit);
  }

  /** The next tasks of both sides that are not told elsewhere in the same mail. */
  async comingUp(
    companyId: CompanyId,
    ponds: readonly SomePond[],
    after: CivilDay,
    without: ReadonlySet<string>,
  ): Promise<DatedLine[]> {
    const views: CareTaskView[] = [];
    for (const pond of ponds) views.push(...(await this.calendar.tasksOf(companyId, pond.id)));
    const first = isoDateOf(after);
    const last = isoDateOf(addDays(after, COMING_UP_DAYS));
    return views
      .filter(({ task }) => !task.routineLine && !without.has(task.id) && !isOnPublishedVisit(task))
      .filter(({ dueOn }) => dueOn > first && dueOn <= last)
      .sort((a, b) => (a.dueOn < b.dueOn ? -1 : 1))
      .slice(0, MOST_LINES)
      .map(({ task, pondName, dueOn, rule }) => {
        const where = ponds.length === 1 ? '' : `${pondName}: `;
        const ours = task.doneBy === 'technician' ? ' (our work)' : '';
        return { when: `about ${shortDate(civilDay(dueOn))}`, what: `${where}${taskTitle(task.planned, rule)}${ours}` };
      });
  }
}

/** Told with its visit. */
function isOnPublishedVisit(task: CareTaskView['task']): boolean {
  return task.doneBy === 'technician' && task.promisedOn !== null;
}
