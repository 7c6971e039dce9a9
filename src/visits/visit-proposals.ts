import { Injectable } from '@nestjs/common';
import type { CareTaskView } from '../care-calendar/index.js';
import { type CivilDay, civilDay } from '../core/units/civil-day.js';
import { type BundledVisit, type BundleTask, type Bundling, bundleTasks } from '../core/visits/bundling.js';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PondId } from '../platform/ids.js';
import { type PondEntity, PondsService } from '../ponds/index.js';
import { daysOf, VisitCareTasks } from './visit-care-tasks.js';
import { VisitRecords } from './visit-records.js';

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
}

@Injectable()
export class VisitProposals {
  constructor(
    private readonly clock: Clock,
    private readonly ponds: PondsService,
    private readonly records: VisitRecords,
    private readonly careTasks: VisitCareTasks,
  ) {}

  /** For one pond, or for all that have technician tasks waiting; the pond whose window closes first comes first. */
  async proposalsFor(companyId: CompanyId, pondId: PondId | null): Promise<PondProposal[]> {
    const tasks = await this.careTasks.dueWithin(companyId, pondId, AHEAD_DAYS);
    const onVisits = await this.records.openVisitsOfTasks(
      companyId,
      tasks.map(({ task }) => task.id),
    );
    const byPond = new Map<PondId, CareTaskView[]>();
    for (const view of tasks) {
      const { id, pondId: at } = view.task;
      if (!onVisits.has(id)) byPond.set(at, [...(byPond.get(at) ?? []), view]);
    }
    const proposals: PondProposal[] = [];
    for (const [id, ofPond] of byPond) {
      proposals.push(this.proposal(await this.ponds.pond(companyId, id), ofPond));
    }
    return proposals.sort((a, b) => closesOn(a) - closesOn(b) || (a.pond.name < b.pond.name ? -1 : 1));
  }

  private proposal(pond: PondEntity, tasks: readonly CareTaskView[]): PondProposal {
    const today = this.clock.today(pond.timeZone);
    const { visits, ...proof } = bundleTasks({
      tasks: tasks.map((task) => bundleTask(task, tasks, today)),
      minutesPerVisit: MINUTES_PER_VISIT,
      setUpMinutes: SET_UP_MINUTES,
    });
    const byId = new Map(tasks.map((view) => [view.task.id, view]));
    const withTasks = visits.map((visit) => ({
      ...visit,
      tasks: visit.taskIds.map((id) => byId.get(id) as CareTaskView),
    }));
    return { pond, today, visits: withTasks, ...proof };
  }
}

/** A window that has begun or passed starts today: late work is done as soon as may be. */
function bundleTask(view: CareTaskView, others: readonly CareTaskView[], today: CivilDay): BundleTask {
  const { task, rule } = view;
  const { earliestOn, latestOn } = daysOf(view);
  const apart = rule.notWithin.map((one) => one.ruleId);
  return {
    id: task.id,
    earliest: Math.max(civilDay(earliestOn), today) as CivilDay,
    latest: Math.max(civilDay(latestOn), today) as CivilDay,
    minutes: task.planned.minutes,
    people: task.planned.people,
    skills: rule.skills,
    notWith: others.filter((other) => apart.includes(other.task.ruleId)).map((other) => other.task.id),
  };
}

function closesOn({ visits }: PondProposal): number {
  return visits[0]?.dueWindow.latest ?? Number.POSITIVE_INFINITY;
}
