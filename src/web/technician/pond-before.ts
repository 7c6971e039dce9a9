import { Inject, Injectable } from '@nestjs/common';
import { CompaniesService } from '../../accounts/index.js';
import { CareCalendarService, type OutlookSummary } from '../../care-calendar/index.js';
import { CARE_RULES } from '../../config/index.js';
import type { CareRule } from '../../core/care/care-rule.js';
import { type CivilDay, civilDay } from '../../core/units/civil-day.js';
import { showTemperature, type UnitSystem } from '../../core/units/show.js';
import type { CompanyId, VisitId } from '../../platform/ids.js';
import { type PondEntity, PondsService } from '../../ponds/index.js';
import { type VisitHistory, VisitsService } from '../../visits/index.js';
import { longDate, weekdayDate } from '../charts/show-date.js';
import { conflictLines, type WhyNotLine, whyNotOnSite } from '../why-not/why-not.view-model.js';
import { readingFields } from './reading-fields.js';
import { shown } from './typed-reading.js';

/** What was there before this visit, and what the water is likely to do. */
export interface PondBeforeView {
  /** "The water is likely 54 to 60 °F today, and 50 to 57 °F in a week." Empty until the pond has been planned. */
  readonly water: string;
  /** The last visits, newest first. */
  readonly visits: readonly { readonly title: string; readonly lines: readonly string[] }[];
  /** The company's work that has no task now, where somebody at the pond can do something about it. */
  readonly whyNot: readonly WhyNotLine[];
  /** What could not be arranged as the rules wish, of the company's open tasks here. */
  readonly conflicts: readonly string[];
}

const LAST_VISITS = 3;

@Injectable()
export class PondBefore {
  private readonly rules: ReadonlyMap<string, CareRule>;

  constructor(
    private readonly visits: VisitsService,
    private readonly calendar: CareCalendarService,
    private readonly ponds: PondsService,
    private readonly companies: CompaniesService,
    @Inject(CARE_RULES) rules: readonly CareRule[],
  ) {
    this.rules = new Map(rules.map((rule) => [rule.id, rule]));
  }

  /** The last three closed visits of a pond other than this one, and its water forecast. */
  async of(
    companyId: CompanyId,
    pond: PondEntity,
    about: { readonly visitId: VisitId; readonly today: CivilDay; readonly units: UnitSystem },
  ): Promise<PondBeforeView> {
    const closed = await this.visits.ofPond(companyId, pond.id, { states: ['COMPLETED'], take: LAST_VISITS + 1 });
    const earlier = closed.filter(({ visit }) => visit.id !== about.visitId).slice(0, LAST_VISITS);
    const histories: VisitHistory[] = [];
    for (const { visit } of earlier) histories.push(await this.visits.history(companyId, visit.id));
    const outcome = await this.calendar.outcomeOf(companyId, pond.id);
    const tasks = await this.calendar.tasksOf(companyId, pond.id);
    const { agreement } = await this.ponds.get(companyId, pond.id);
    const { defaultDoneBy } = await this.companies.get(companyId);
    const ours = tasks.filter(({ task }) => task.doneBy === 'technician').map(({ rule }) => rule.id);
    return {
      water: outcome ? waterWords(outcome.outlook, about.today, about.units) : '',
      visits: histories.map((history) => visitWords(history, about.units)),
      whyNot: whyNotOnSite(outcome, this.rules, { agreement, defaultDoneBy, today: about.today, tasks }),
      conflicts: conflictLines(outcome, this.rules, new Set(ours)),
    };
  }
}

/** The likely band today and in a week, 8 years in 10. */
export function waterWords(outlook: OutlookSummary, today: CivilDay, units: UnitSystem): string {
  const at = (day: CivilDay) => {
    const [low, high] = [outlook.p10C, outlook.p90C].map((ofDay) => ofDay[day - civilDay(outlook.firstDay)]);
    return low === undefined || high === undefined ? null : band(low, high, units);
  };
  const [now, inAWeek] = [at(today), at((today + 7) as CivilDay)];
  if (now === null) return '';
  const later = inAWeek === null ? '' : `, and ${inAWeek} on ${longDate((today + 7) as CivilDay)}`;
  return `The water is likely ${now} today${later} (8 years in 10).`;
}

function band(lowC: number, highC: number, units: UnitSystem): string {
  const [low, high] = [showTemperature(lowC, units), showTemperature(highC, units)];
  return low === high ? low : `${low.replace(/ .*/, '')} to ${high}`;
}

function visitWords(history: VisitHistory, units: UnitSystem): PondBeforeView['visits'][number] {
  const { visit, tasks, readings, closings, technicianName } = history;
  const done = tasks.filter(({ onVisit }) => onVisit.outcome === 'done').map(({ care }) => care.rule.title);
  const left = tasks.filter(({ onVisit }) => onVisit.outcome === 'not-done' || onVisit.outcome === 'partly');
  const measured = readingFields(units).flatMap((field) => {
    const value = readings.filter((one) => one.quantity === field.quantity).at(-1)?.value;
    return value === undefined ? [] : [`${field.inWords} ${shown(field, value)}${field.unit && ` ${field.unit}`}`];
  });
  const notes = closings.filter((one) => one.reopenedAt === null).map(({ record }) => record.note);
  const who = technicianName === null ? '' : `, ${technicianName}`;
  return {
    title: `${weekdayDate(civilDay(visit.plannedOn))}${who}`,
    lines: [
      done.length > 0 ? `Done: ${done.join('; ')}.` : '',
      left.length > 0
        ? `Left: ${left.map(({ care, onVisit }) => leftWords(care.rule.title, onVisit.remark)).join('; ')}.`
        : '',
      measured.length > 0 ? `Read: ${measured.join(', ')}.` : '',
      ...notes,
    ].filter((line) => line !== ''),
  };
}

function leftWords(title: string, remark: string): string {
  return remark === '' ? title : `${title} (${remark})`;
}
