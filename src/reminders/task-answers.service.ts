import { Injectable } from '@nestjs/common';
import {
  CareCalendarService,
  CareTaskNotFoundError,
  type CareTaskView,
  effectiveLatestOn,
} from '../care-calendar/index.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../core/units/civil-day.js';
import { Database } from '../database/index.js';
import { Clock, civilDayIn, instantFrom } from '../platform/clock.js';
import type { CompanyId, PersonId, TaskId } from '../platform/ids.js';
import type { PondEntity } from '../ponds/index.js';
import { plannedActuals } from '../visits/index.js';
import { type Homeowner, HomeownersService } from './homeowners.service.js';
import { TaskAnswerError } from './reminders.errors.js';

/** A task with the homeowner it is put to. */
export interface AskedTask {
  readonly view: CareTaskView;
  readonly pond: PondEntity;
  readonly homeowner: Homeowner;
  /** Civil date now at the pond. */
  readonly today: CivilDay;
}

/** Days after which "not now" offers to ask again; the last day of the task is offered besides. */
const ASK_AGAIN_AFTER_DAYS = [3, 7] as const;

/** What a homeowner answers to a task: done, not now, and back again. */
@Injectable()
export class TaskAnswers {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly calendar: CareCalendarService,
    private readonly homeowners: HomeownersService,
  ) {}

  /** Null unless the task is on a pond that is still this person's. */
  async find(companyId: CompanyId, personId: PersonId | null, taskId: TaskId): Promise<AskedTask | null> {
    if (personId === null) return null;
    const view = await this.viewOf(companyId, taskId);
    const homeowner = view && (await this.homeowners.find(companyId, personId));
    const pond = homeowner?.allPonds.find(({ id }) => id === view?.task.pondId);
    if (!view || !homeowner || !pond) return null;
    return { view, pond, homeowner, today: this.clock.today(pond.timeZone) };
  }

  /** Marks a task done today. Pressed twice it is done once: what stands stays. */
  async done(asked: AskedTask): Promise<void> {
    const { homeowner, today } = asked;
    await this.database.unitOfWork('a homeowner did a task', async () => {
      const { task } = await this.standing(asked);
      if (task.state !== 'NEEDS-ACTION') return;
      await this.calendar.complete(task.companyId, task.id, {
        on: isoDateOf(today),
        by: homeowner.personId,
        because: 'done',
        actuals: plannedActuals(task.planned),
      });
    });
  }

  /** Takes back what this person marked done today. @throws TaskAnswerError */
  async undo(asked: AskedTask): Promise<void> {
    await this.database.unitOfWork('a homeowner takes "done" back', async () => {
      const view = await this.standing(asked);
      if (view.task.state === 'NEEDS-ACTION') return;
      if (!this.mayUndo({ ...asked, view })) {
        throw new TaskAnswerError('Only what you marked done yourself, today, can be taken back here. Ask us.');
      }
      await this.calendar.reopen(view.task.companyId, view.task.id, { by: asked.homeowner.personId });
    });
  }

  /** What comes next counts from a completion, so it is taken back on its own day only. */
  mayUndo({ view: { task }, homeowner, pond, today }: AskedTask): boolean {
    const isTheirs = task.state === 'COMPLETED' && task.finishedBy === homeowner.personId;
    return isTheirs && civilDayIn(instantFrom(task.updatedAt), pond.timeZone) === today;
  }

  /** Asks again on a later day. @throws TaskAnswerError for a finished task, or a day outside what it can wait */
  async notNow(asked: AskedTask, until: string): Promise<void> {
    const day = civilDay(until);
    await this.database.unitOfWork('a homeowner puts a task off', async () => {
      const view = await this.standing(asked);
      const { task } = view;
      if (task.state !== 'NEEDS-ACTION') {
        throw new TaskAnswerError('This task is finished, so there is nothing to put off.');
      }
      const latestOn = effectiveLatestOn(task);
      if (task.consequence === 'urgent' || day <= asked.today || day > civilDay(latestOn)) {
        throw new TaskAnswerError(
          task.consequence === 'urgent'
            ? 'This is urgent and cannot wait. Ask us if it cannot be done.'
            : `Choose a day after today and not after ${latestOn}, the last day on which this still helps.`,
        );
      }
      await this.calendar.putOff(task.companyId, task.id, until);
    });
  }

  /** At most three days to ask again, all inside the window; none when the task cannot wait. */
  laterDays({ view: { task }, today }: Pick<AskedTask, 'view' | 'today'>): CivilDay[] {
    if (task.consequence === 'urgent') return [];
    const latest = civilDay(effectiveLatestOn(task));
    const days = [...ASK_AGAIN_AFTER_DAYS.map((after) => addDays(today, after)), latest];
    return [...new Set(days)].filter((day) => day > today && day <= latest).sort((a, b) => a - b);
  }

  private async standing({ view }: AskedTask): Promise<CareTaskView> {
    const standing = await this.viewOf(view.task.companyId, view.task.id);
    if (!standing) throw new CareTaskNotFoundError(view.task.id);
    return standing;
  }

  private async viewOf(companyId: CompanyId, taskId: TaskId): Promise<CareTaskView | null> {
    return (await this.calendar.tasks(companyId, [taskId]))[0] ?? null;
  }
}
