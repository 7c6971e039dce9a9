import { Injectable } from '@nestjs/common';
import { ClimateService, NO_WEATHER } from '../climate/index.js';
import type { PlanInput } from '../core/care/care-plan.js';
import { type CareYear, comparePlans, type RuleDifference } from '../core/care/compare-plans.js';
import { type DawnForecast, dawnForecast } from '../core/care/dawn-forecast.js';
import { planCareCalendar } from '../core/care/plan-care-calendar.js';
import { planningContext } from '../core/care/planning-context.js';
import { type ProjectedOccurrence, projectOccurrences } from '../core/care/project-occurrences.js';
import { type YearFigures, yearFigures } from '../core/care/year-figures.js';
import { warmerClimate } from '../core/climate/warmer-climate.js';
import { type CivilDay, isoDateOf } from '../core/units/civil-day.js';
import { Clock } from '../platform/clock.js';
import type { CompanyId, PondId } from '../platform/ids.js';
import { changedRecord, type PondInput, type PondRecord, pondHeat } from '../ponds/index.js';
import { outlookOf } from './outlook-of.js';
import type { OutlookSummary } from './outlook-summary.js';
import { PondPlannerService } from './pond-planner.service.js';
import { ReplanningService, type StandingPond } from './replanning.service.js';

/** What the planned tasks of a pond do not say: what comes after them, and its water in the coming night. */
export interface YearAhead {
  readonly later: readonly ProjectedOccurrence[];
  /** At the end of tonight; null without fish. */
  readonly dawn: DawnForecast | null;
}

/** One side of a question. */
export interface YearSide {
  readonly year: CareYear;
  readonly figures: YearFigures;
  readonly outlook: OutlookSummary;
}

/** A pond as it stands beside the same pond with something changed. */
export interface WhatIfComparison {
  readonly today: CivilDay;
  readonly asItStands: YearSide;
  readonly changed: YearSide;
  readonly differences: readonly RuleDifference[];
  /** The change is one of sun, wind, falls or climate: readings of the pond as it stands are left out on both sides. */
  readonly isWithoutReadings: boolean;
}

export interface WhatIf {
  /** The record as it would be; machines keep their ids. */
  readonly input: PondInput;
  /** Every month warmer by so much, -15 to 15. [°C] */
  readonly warmerC: number;
}

/** Looks ahead without storing anything: the year after the planned tasks, and a pond as it might be. */
@Injectable()
export class YearAheadService {
  constructor(
    private readonly replanning: ReplanningService,
    private readonly planner: PondPlannerService,
    private readonly climate: ClimateService,
    private readonly clock: Clock,
  ) {}

  /** @throws PondThingNotFoundError */
  async of(companyId: CompanyId, pondId: PondId): Promise<YearAhead> {
    const standing = await this.replanning.standing(companyId, pondId);
    const { input } = this.inputOf(standing);
    return {
      later: projectOccurrences(input, planCareCalendar(input)),
      dawn: dawnForecast(planningContext(input), standing.today),
    };
  }

  /** The pond's next year as it stands and as it would be, with what was done and read so far. Stores nothing. */
  async whatIf(companyId: CompanyId, pondId: PondId, { input, warmerC }: WhatIf): Promise<WhatIfComparison> {
    const standing = await this.replanning.standing(companyId, pondId);
    const record = changedRecord(standing.record, input, {
      today: isoDateOf(standing.today),
      instant: this.clock.instant(),
    });
    const isWithoutReadings = warmerC !== 0 || this.heatOf(record) !== this.heatOf(standing.record);
    const known = isWithoutReadings ? withoutWater(standing) : standing;
    const asItStands = this.sideOf(known, 0);
    const changed = this.sideOf({ ...known, record }, warmerC);
    return {
      today: standing.today,
      asItStands,
      changed,
      differences: comparePlans(asItStands.year, changed.year),
      isWithoutReadings,
    };
  }

  private sideOf(standing: StandingPond, warmerC: number): YearSide {
    const { input, climate, winter } = this.inputOf(standing, warmerC);
    const plan = planCareCalendar(input);
    const year = { plan, later: projectOccurrences(input, plan) };
    return {
      year,
      figures: yearFigures(planningContext(input), year),
      outlook: outlookOf(input.forecast, climate, winter.winterClass),
    };
  }

  private inputOf(
    { record, company, history, today, weather }: StandingPond,
    warmerC = 0,
  ): ReturnType<PondPlannerService['planInput']> & { readonly input: PlanInput } {
    const climate = warmerC === 0 ? {} : { climate: warmerClimate(this.climate.siteFor(record.pond), warmerC) };
    return this.planner.planInput(record, history, company, today, { weather, ...climate });
  }

  /** All that the forecast hangs on besides readings and weather, as text to compare. */
  private heatOf(record: PondRecord): string {
    const { stations: _, warnings: __, ...figures } = this.climate.siteFor(record.pond);
    return JSON.stringify([pondHeat(record), figures]);
  }
}

/** Readings of the water and the weather of the place tell of the pond as it stands, not of what it might be. */
function withoutWater(standing: StandingPond): StandingPond {
  const { history } = standing;
  const readings = history.readings.filter(({ quantity }) => quantity !== 'water-temperature');
  return { ...standing, history: { ...history, readings }, weather: NO_WEATHER };
}
