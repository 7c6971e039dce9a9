import { siteEvaporationMmPerDay } from '../../evaporation/site-evaporation.js';
import { topUpLPerDay } from '../../evaporation/top-up.js';
import { solidsLoadGPerDay } from '../../filter/rinse-interval.js';
import { addDays, type CivilDay, monthOf } from '../../units/civil-day.js';
import type { PlanInput } from '../care-plan.js';
import type { CareRule, RunningLoad } from '../care-rule.js';
import type { HistoryIndex } from '../history-index.js';
import type { WaterOutlook } from '../water-outlook.js';
import { type DailyFeed, dailyFeed, NO_FEED } from './daily-feed.js';
import { runsOn, type SwitchedDays, switchedDays } from './switched-days.js';

/** How far back a load is counted; what is older has reached any limit by then. [days] */
const SWITCH_SPAN_DAYS = 2200;
const FEED_SPAN_DAYS = 400;
/** Beyond the horizon, so that a season that starts before it is seen to its end. [days] */
export const AFTER_HORIZON_DAYS = 240;

/** Lamp on and off, circulation on and off, where no rule says else (common practice). [°C] */
const LAMP_SWITCH_C = 10;
const PUMP_ON_C = 7;
const PUMP_OFF_C = 5;
const HOURS_PER_DAY = 24;
const MEAN_MONTH_DAYS = 30.4;

/** What runs up on one pond, day by day along the median of the forecast. */
export interface PondLoads {
  feedOn(day: CivilDay): DailyFeed;
  lampIsOn(day: CivilDay): boolean;
  pumpIsOn(day: CivilDay): boolean;
  /** Added on that day: hours, days, grams or litres. */
  perDay(load: RunningLoad, day: CivilDay): number;
  /** Water lost and not rained back on that day. [L] */
  netLossL(day: CivilDay): number;
  /** First day the series reach back to. */
  readonly from: CivilDay;
}

export function pondLoads(context: {
  readonly input: PlanInput;
  readonly outlook: WaterOutlook;
  readonly history: HistoryIndex;
  readonly horizon: CivilDay;
}): PondLoads {
  const { input, outlook, horizon } = context;
  const until = addDays(horizon, AFTER_HORIZON_DAYS);
  const from = addDays(input.today, -SWITCH_SPAN_DAYS);
  const feedFrom = addDays(input.today, -FEED_SPAN_DAYS);
  const lamp = once(() => lampDays(context, { from, until }));
  const pump = once(() => pumpDays(context, { from, until }));
  const feed = once(() => dailyFeed(input.pond, outlook, { from: feedFrom, until }));
  const lossL = once(() => lossPerMonthL(input));

  const feedOn = (day: CivilDay) => feed()[day - feedFrom] ?? NO_FEED;
  const lampIsOn = (day: CivilDay) => runsOn(lamp(), day);
  const pumpIsOn = (day: CivilDay) => runsOn(pump(), day);
  const netLossL = (day: CivilDay) => (outlook.iceShare(day) > 0.5 ? 0 : (lossL()[monthOf(day) - 1] ?? 0));
  const perDay = (load: RunningLoad, day: CivilDay): number => {
    switch (load) {
      case 'lamp-hours':
        return lampIsOn(day) ? HOURS_PER_DAY : 0;
      case 'pump-days':
        return pumpIsOn(day) ? 1 : 0;
      case 'aerator-days':
        return 1;
      case 'filter-solids-g':
        return pumpIsOn(day)
          ? solidsLoadGPerDay({ feedGPerDay: feedOn(day).feedGPerDay, surfaceAreaM2: input.pond.surfaceAreaM2 })
          : 0;
      case 'evaporation-l':
        return netLossL(day);
    }
  };
  return { feedOn, lampIsOn, pumpIsOn, perDay, netLossL, from };
}

function lampDays(
  { input, outlook, history }: { input: PlanInput; outlook: WaterOutlook; history: HistoryIndex },
  span: { from: CivilDay; until: CivilDay },
): SwitchedDays {
  const seasonal = {
    onAboveC: switchTemperatureC(input.rules, 'uv-season-on', LAMP_SWITCH_C),
    offBelowC: switchTemperatureC(input.rules, 'uv-season-off', LAMP_SWITCH_C),
    runsAllYear: input.pond.winterClass === 'W0',
    done: switchesDone(history, ['uv-season-on'], ['uv-season-off']),
  };
  return switchedDays(seasonal, outlook, span);
}

function pumpDays(
  { input, outlook, history }: { input: PlanInput; outlook: WaterOutlook; history: HistoryIndex },
  span: { from: CivilDay; until: CivilDay },
): SwitchedDays {
  const { winterClass } = input.pond;
  const seasonal = {
    onAboveC: switchTemperatureC(input.rules, 'spring-start-up', PUMP_ON_C),
    offBelowC: switchTemperatureC(input.rules, 'winter-pump-shutdown', PUMP_OFF_C),
    runsAllYear: winterClass === 'W0' || winterClass === 'W1',
    done: switchesDone(history, ['spring-start-up'], ['winter-pump-shutdown']),
  };
  return switchedDays(seasonal, outlook, span);
}

/** Threshold of the crossing a rule fires at; a company may have changed it. */
function switchTemperatureC(rules: readonly CareRule[], ruleId: string, otherwiseC: number): number {
  const rule = rules.find((candidate) => candidate.id === ruleId);
  const crossing = rule?.anyOf.find((trigger) => trigger.kind === 'crossing');
  return (crossing && rule?.parameters[crossing.threshold]?.value) ?? otherwiseC;
}

function switchesDone(history: HistoryIndex, on: readonly string[], off: readonly string[]) {
  const switches = [
    ...on.flatMap((ruleId) => history.completed(ruleId)).map((task) => ({ on: task.on, isOn: true })),
    ...off.flatMap((ruleId) => history.completed(ruleId)).map((task) => ({ on: task.on, isOn: false })),
  ];
  return switches.sort((a, b) => a.on - b.on || Number(a.isOn) - Number(b.isOn));
}

/** Net loss of the pond in an average day of each month. [L/day] */
function lossPerMonthL({ climate, pond }: PlanInput): readonly number[] {
  return Array.from({ length: 12 }, (_, index) => {
    const month = index + 1;
    return topUpLPerDay({
      evaporationMmPerDay: siteEvaporationMmPerDay(climate, month),
      precipitationMmPerDay: climate.precipitationMm ? (climate.precipitationMm[index] ?? 0) / MEAN_MONTH_DAYS : 0,
      surfaceAreaM2: pond.surfaceAreaM2,
      hasWaterfall: pond.waterfall,
    });
  });
}

function once<T>(make: () => T): () => T {
  let made: { value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
