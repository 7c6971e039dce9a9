import { Inject, Injectable } from '@nestjs/common';
import { CareCalendarService, type CareTaskView, type PlanOutcomeEntity } from '../../care-calendar/index.js';
import { CARE_RULES } from '../../config/index.js';
import type { CareRule } from '../../core/care/care-rule.js';
import { addDays, type CivilDay } from '../../core/units/civil-day.js';
import { Clock } from '../../platform/clock.js';
import { type PondEntity, PondsService, type ReadingEntity, ReadingsService } from '../../ponds/index.js';
import {
  ComingDays,
  choosable,
  chooseForDigest,
  type Homeowner,
  type MailVisit,
  type SpokenVisit,
  VisitReportMails,
} from '../../reminders/index.js';
import { VisitsService } from '../../visits/index.js';
import { conflictLines, type WhyNotLine, whyNotAtHome } from '../why-not/why-not.view-model.js';

/** What the page of a homeowner shows of one pond. No gate code, no address, no other people. */
export interface MyPond {
  readonly pond: PondEntity;
  readonly today: CivilDay;
  readonly hasFish: boolean;
  readonly outcome: PlanOutcomeEntity | null;
  /** The homeowner's own tasks of the coming week, as the mail has them. */
  readonly week: { readonly asked: readonly CareTaskView[]; readonly routine: readonly CareTaskView[] };
  /** All open tasks of both sides. */
  readonly calendar: readonly CareTaskView[];
  /** What would be theirs and has no task, with the reason in their words. */
  readonly whyNot: readonly WhyNotLine[];
  /** What could not be arranged as the rules wish, of their tasks. */
  readonly conflicts: readonly string[];
  readonly visits: readonly MailVisit[];
  readonly readings: readonly ReadingEntity[];
  readonly lastVisit: { readonly visitId: string; readonly spoken: SpokenVisit } | null;
}

const WEEK_DAYS = 7;

/** Gathers it. Reads only. */
@Injectable()
export class MyPondReader {
  private readonly rules: ReadonlyMap<string, CareRule>;

  constructor(
    private readonly clock: Clock,
    private readonly ponds: PondsService,
    private readonly readings: ReadingsService,
    private readonly calendar: CareCalendarService,
    private readonly visits: VisitsService,
    private readonly coming: ComingDays,
    private readonly reports: VisitReportMails,
    @Inject(CARE_RULES) rules: readonly CareRule[],
  ) {
    this.rules = new Map(rules.map((rule) => [rule.id, rule]));
  }

  async of(homeowner: Homeowner): Promise<MyPond[]> {
    const ponds: MyPond[] = [];
    for (const pond of homeowner.allPonds) ponds.push(await this.one(homeowner, pond));
    return ponds;
  }

  private async one(homeowner: Homeowner, pond: PondEntity): Promise<MyPond> {
    const companyId = homeowner.company.id;
    const today = this.clock.today(pond.timeZone);
    const { stock, agreement } = await this.ponds.get(companyId, pond.id);
    const calendar = await this.calendar.tasksOf(companyId, pond.id);
    const own = calendar.filter(({ task }) => task.doneBy === 'homeowner').map(choosable);
    const choice = chooseForDigest(own, { from: today, to: addDays(today, WEEK_DAYS - 1) });
    const outcome = await this.calendar.outcomeOf(companyId, pond.id);
    const { defaultDoneBy } = homeowner.company;
    const [last] = await this.visits.ofPond(companyId, pond.id, { states: ['COMPLETED'], take: 1 });
    return {
      pond,
      today,
      hasFish: stock.some(({ species }) => species !== 'slider-turtle'),
      outcome,
      whyNot: whyNotAtHome(outcome, this.rules, { agreement, defaultDoneBy, today, tasks: calendar }),
      conflicts: conflictLines(outcome, this.rules, new Set(own.map(({ view }) => view.rule.id))),
      week: {
        asked: [...choice.urgent, ...choice.tasks].map(({ view }) => view),
        routine: choice.routine.map(({ view }) => view),
      },
      calendar,
      visits: await this.coming.nextVisits(companyId, [pond], today),
      readings: [...(await this.readings.latest(companyId, pond.id)).values()],
      lastVisit: last
        ? {
            visitId: last.visit.id,
            spoken: this.reports.spoken(await this.visits.history(companyId, last.visit.id), homeowner.units),
          }
        : null,
    };
  }
}
