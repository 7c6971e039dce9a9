import { Injectable } from '@nestjs/common';
import type { CareTaskView } from '../care-calendar/index.js';
import { addDays, type CivilDay, civilDay } from '../core/units/civil-day.js';
import { type BundledVisit, type BundleTask, type Bundling, bundleTasks } from '../core/visits/bundling.js';
import { joinStandingVisits, type StandingVisit } from '../core/visits/joining.js';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PondId, TaskId } from '../platform/ids.js';
import { type PondEntity, PondsService } from '../ponds/index.js';
import { PartsShelf } from './parts/parts-shelf.service.js';
import type { VisitEntity } from './visit.entity.js';
import { daysOf, VisitCareTasks } from './visit-care-tasks.js';
import { restMinutes, VisitRecords } from './visit-records.js';

/** Most work in one visit (common practice). [min] */
export const MINUTES_PER_VISIT = 180;
/** Arrive, look, test, log and leave: once a visit (common practice, trade range 15 to 40). [min] */
export const SET_UP_MINUTES = 25;
/** Tasks that come due later are left for a later proposal. */
const AHEAD_DAYS = 42;

export interface ProposedVisit extends BundledVisit {
  readonly tasks: readonly CareTaskView[];
}

/** Visits proposed for one pond: the fewest that meet every window of the tasks that are on no visit yet. */
export interface PondProposal extends Omit<Bundling, 'visits'> {
  readonly pond: PondEntity;
  /** Civil date in the pond's zone. */
  readonly today: CivilDay;
  readonly visits: readonly ProposedVisit[];
  /** Tasks that fit on a visit which is planned already. */
  readonly joins: readonly { readonly task: CareTaskView; readonly visit: VisitEntity }[];
  /** Share of each task that earlier visits have done, for those done in part. */
  readonly doneShares: ReadonlyMap<TaskId, number>;
}

@Injectable()
export class VisitProposals {
  constructor(
    private readonly clock: Clock,
    private readonly ponds: PondsService,
    private readonly records: VisitRecords,
    private readonly careTasks: VisitCareTasks,
    private readonly shelf: PartsShelf,
  ) {}

  /**
   * For one pond, or for all that have technician tasks waiting; the pond whose window closes first comes first. Visits
   * that are planned stay as they are: what fits on one joins it, and only the rest is put together anew.
   */
  async proposalsFor(companyId: CompanyId, pondId: PondId | null): Promise<PondProposal[]> {
    const tasks = await this.careTasks.dueWithin(companyId, pondId, AHEAD_DAYS);
    const ids = tasks.map(({ task }) => task.id);
    const onVisits = await this.records.openVisitsOfTasks(companyId, ids);
    const byPond = new Map<PondId, CareTaskView[]>();
    for (const view of tasks) {
      const { id, pondId: at } = view.task;
      if (!onVisits.has(id)) byPond.set(at, [...(byPond.get(at) ?? []), view]);
    }
    const known = {
      leadDays: await this.shelf.leadDaysByRule(companyId),
      doneShares: await this.records.doneShares(companyId, ids),
    };
    const standing = await this.records.openVisitsOf(companyId, pondId);
    const proposals: PondProposal[] = [];
    for (const [id, ofPond] of byPond) {
      const pond = await this.ponds.pond(companyId, id);
      const visits = standing.filter((visit) => visit.pondId === id);
      proposals.push(this.proposal(pond, ofPond, await this.standingVisits(companyId, visits), known));
    }
    return proposals.sort((a, b) => closesOn(a) - closesOn(b) || (a.pond.name < b.pond.name ? -1 : 1));
  }

  private proposal(
    pond: PondEntity,
    tasks: readonly CareTaskView[],
    standing: readonly {
      readonly visit: VisitEntity;
      readonly tasks: readonly CareTaskView[];
      readonly work: number;
    }[],
    known: KnownOfTasks,
  ): PondProposal {
    const today = this.clock.today(pond.timeZone);
    const others = [...tasks, ...standing.flatMap((one) => one.tasks)];
    const { joins, left } = joinStandingVisits({
      tasks: tasks.map((task) => bundleTask(task, others, today, known)),
      visits: standing
        .filter(({ visit }) => civilDay(visit.plannedOn) >= today)
        .map(({ visit, tasks: own, work }): StandingVisit => {
          const people = own.some(({ task }) => task.planned.people === 2) ? 2 : 1;
          const taskIds = own.map(({ task }) => task.id);
          return { id: visit.id, day: civilDay(visit.plannedOn), workMinutes: work, people, taskIds };
        }),
      minutesPerVisit: MINUTES_PER_VISIT,
    });
    const { visits, ...proof } = bundleTasks({
      tasks: left,
      minutesPerVisit: MINUTES_PER_VISIT,
      setUpMinutes: SET_UP_MINUTES,
    });
    const byId = new Map(tasks.map((view) => [view.task.id, view]));
    const visitById = new Map(standing.map(({ visit }) => [visit.id, visit]));
    return {
      pond,
      today,
      visits: visits.map((visit) => ({
        ...visit,
        tasks: visit.taskIds.map((id) => byId.get(id) as CareTaskView),
      })),
      joins: joins.map(({ taskId, visitId }) => ({
        task: byId.get(taskId) as CareTaskView,
        visit: visitById.get(visitId) as VisitEntity,
      })),
      doneShares: known.doneShares,
      ...proof,
    };
  }

  private async standingVisits(companyId: CompanyId, visits: readonly VisitEntity[]) {
    const found: { visit: VisitEntity; tasks: CareTaskView[]; work: number }[] = [];
    for (const visit of visits) {
      const onVisit = await this.records.tasksOf(companyId, visit.id);
      const tasks = await this.careTasks.byIds(
        companyId,
        onVisit.map(({ careTaskId }) => careTaskId),
      );
      found.push({ visit, tasks, work: Math.max(0, visit.minutes - SET_UP_MINUTES) });
    }
    return found;
  }
}

interface KnownOfTasks {
  /** Of parts that are out, by the rule whose work needs them. [days] */
  readonly leadDays: ReadonlyMap<string, number>;
  readonly doneShares: ReadonlyMap<TaskId, number>;
}

/** A window that has begun or passed starts today: late work is done as soon as may be. */
function bundleTask(
  view: CareTaskView,
  others: readonly CareTaskView[],
  today: CivilDay,
  { leadDays, doneShares }: KnownOfTasks,
): BundleTask {
  const { task, rule } = view;
  const { earliestOn, latestOn } = daysOf(view);
  const idsOf = (ruleIds: readonly string[]) =>
    others.filter((other) => ruleIds.includes(other.task.ruleId)).map((other) => other.task.id);
  const lead = leadDays.get(task.ruleId);
  return {
    id: task.id,
    earliest: Math.max(civilDay(earliestOn), today) as CivilDay,
    latest: Math.max(civilDay(latestOn), today) as CivilDay,
    minutes: restMinutes(task.planned.minutes, doneShares.get(task.id) ?? 0),
    people: task.planned.people,
    skills: rule.skills,
    notWith: idsOf(rule.notWithin.map((one) => one.ruleId)),
    alignWith: idsOf(rule.alignWith),
    ...(lead !== undefined && { partsFrom: addDays(today, lead) }),
  };
}

function closesOn({ visits }: PondProposal): number {
  return visits[0]?.dueWindow.latest ?? Number.POSITIVE_INFINITY;
}
