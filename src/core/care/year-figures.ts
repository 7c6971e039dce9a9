import { pumpFlows } from '../hydraulics/pump-line.js';
import { GARDEN_TURNOVER_PER_HOUR, KOI_TURNOVER_PER_HOUR } from '../hydraulics/turnover.js';
import { turtleFeedGPerDay } from '../stock/ammonia-load.js';
import type { Stocking } from '../stock/stocking.js';
import { addDays, type CivilDay, monthOf } from '../units/civil-day.js';
import type { CareYear } from './compare-plans.js';
import { type DawnForecast, dawnForecast } from './dawn-forecast.js';
import { livingStock } from './living-stock.js';
import { ammoniaLoadOn } from './loads/ammonia-load.js';
import type { PlanningContext } from './planning-context.js';
import { filterCapacityGNPerDay } from './quantities/filter-capacity.js';
import { stockJudgement } from './stocking-stages.js';

const YEAR_DAYS = 365;
/** Ice over more than half of the traces counts as a day with ice. [-] */
const ICED_SHARE = 0.5;
/** Loads below this are none worth a share of a filter. [g N/day] */
const LEAST_LOAD_G_N_PER_DAY = 0.001;

/** What a year asks of a pond and of the people who care for it, along the median of the forecast. */
export interface YearFigures {
  /** Food of fish and turtles in the year, and on the day with most. [g] */
  readonly feedG: number;
  readonly mostFeedGPerDay: number;
  /** Ammonia of that food on the day it takes most of the filter, ripe, and what the filter takes there; null without a load. [g N/day] */
  readonly ammonia: {
    readonly on: CivilDay;
    readonly loadGNPerDay: number;
    readonly capacityGNPerDay: number | null;
  } | null;
  /** Volumes an hour through the filter circuits, and what is asked for; null where no pump's flow is known. [1/h] */
  readonly turnover: { readonly perHour: number; readonly neededPerHour: number } | null;
  /** Means of the median over the month. [°C] */
  readonly julyC: number;
  readonly januaryC: number;
  /** Days on which ice is more likely than not. */
  readonly iceDays: number;
  /** How the stock is borne; null without livestock. */
  readonly stocking: { readonly verdict: Stocking; readonly settledBy: 'water' | 'filter' | 'oxygen' } | null;
  /** At the end of the night of the warmest day; null without fish. */
  readonly dawn: { readonly on: CivilDay; readonly oxygen: DawnForecast } | null;
  /** Time of the company's people on site, planned and projected. [min] */
  readonly companyMinutes: number;
}

/** The figures of the year that begins today. @see the models they come from, each with its source. */
export function yearFigures(context: PlanningContext, year: CareYear): YearFigures {
  const days = Array.from({ length: YEAR_DAYS }, (_, ahead) => addDays(context.today, ahead));
  const feed = days.map((day) => feedOn(context, day));
  const warmest = days.reduce((best, day) =>
    context.outlook.median7dMeanC(day) > context.outlook.median7dMeanC(best) ? day : best,
  );
  const oxygen = dawnForecast(context, warmest);
  return {
    feedG: feed.reduce((sum, grams) => sum + grams, 0),
    mostFeedGPerDay: Math.max(...feed),
    ammonia: heaviestAmmonia(context, days),
    turnover: turnoverOf(context),
    julyC: monthMeanC(context, days, 7),
    januaryC: monthMeanC(context, days, 1),
    iceDays: days.filter((day) => context.outlook.iceShare(day) > ICED_SHARE).length,
    stocking: stockingOf(context),
    dawn: oxygen ? { on: warmest, oxygen } : null,
    companyMinutes: [...year.plan.tasks, ...year.later]
      .filter(({ doneBy }) => doneBy === 'technician')
      .reduce((sum, { minutes, people }) => sum + minutes * people, 0),
  };
}

function feedOn(context: PlanningContext, day: CivilDay): number {
  const turtlesG = turtleFeedGPerDay({
    stock: livingStock(context.pond),
    waterTemperature7dMeanC: context.outlook.median7dMeanC(day),
  });
  return context.loads.feedOn(day).feedGPerDay + turtlesG;
}

/** The day with the highest load for its filter; where the filter is not known, with the highest load. */
function heaviestAmmonia(context: PlanningContext, days: readonly CivilDay[]): YearFigures['ammonia'] {
  const { pond, outlook } = context;
  let heaviest: YearFigures['ammonia'] = null;
  let most = 0;
  for (const on of days) {
    const loadGNPerDay = ammoniaLoadOn(context, on);
    if (loadGNPerDay < LEAST_LOAD_G_N_PER_DAY) continue;
    const capacityGNPerDay = filterCapacityGNPerDay(pond, outlook.medianC(on), 1);
    const use =
      capacityGNPerDay === null ? loadGNPerDay : loadGNPerDay / Math.max(capacityGNPerDay, LEAST_LOAD_G_N_PER_DAY);
    if (use <= most) continue;
    most = use;
    heaviest = { on, loadGNPerDay, capacityGNPerDay };
  }
  return heaviest;
}

function turnoverOf({ pond }: PlanningContext): YearFigures['turnover'] {
  const flows = pumpFlows(pond.equipment).map(({ flowLPerH }) => flowLPerH);
  if (flows.length === 0) return null;
  return {
    perHour: flows.reduce((sum, flow) => sum + flow, 0) / pond.volumeL,
    neededPerHour: pond.stock.length > 0 ? KOI_TURNOVER_PER_HOUR : GARDEN_TURNOVER_PER_HOUR,
  };
}

function monthMeanC({ outlook }: PlanningContext, days: readonly CivilDay[], month: number): number {
  const ofMonth = days.filter((day) => monthOf(day) === month);
  return ofMonth.reduce((sum, day) => sum + outlook.medianC(day), 0) / ofMonth.length;
}

function stockingOf({ pond }: PlanningContext): YearFigures['stocking'] {
  if (pond.stock.length === 0) return null;
  const { verdict, limiting } = stockJudgement(pond);
  return { verdict, settledBy: limiting.limit };
}
