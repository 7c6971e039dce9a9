import { freezingDegreeDaysC } from '../climate/freezing-degree-days.js';
import { isVolumeUncertain } from '../hydraulics/dose-volume.js';
import { pumpFlows } from '../hydraulics/pump-line.js';
import { GARDEN_TURNOVER_PER_HOUR, KOI_TURNOVER_PER_HOUR, turnover } from '../hydraulics/turnover.js';
import { refugeDepth } from '../hydraulics/winter-refuge.js';
import { FILTER_JUDGED_AT_C, OXYGEN_JUDGED_AT_C, type StockJudgement } from '../stock/stock-judgement.js';
import { iceThicknessCm } from '../thermal/ice.js';
import type { WaterForecast } from '../thermal/water-forecast.js';
import type { PondFinding } from './care-plan.js';
import type { PlanningContext } from './planning-context.js';
import type { PondFacts } from './pond-facts.js';
import { stockingOutlook } from './stocking-outlook.js';
import { stockJudgement } from './stocking-stages.js';
import { input } from './triggers/trigger-outcome.js';

/** Design ice: the coldest tenth of the winters, as the three coldest of thirty. [-] */
const COLDEST_SHARE = 0.1;

/** Plain verdicts of the pond itself, for the stock on its record whether it swims there yet or not. */
export function pondFindings(context: PlanningContext): readonly PondFinding[] {
  const { pond, input: plan } = context;
  const judgement = stockJudgement(pond);
  return [
    turnoverFinding(pond),
    refugeFinding(pond, plan.forecast),
    stockingFinding(pond, judgement),
    filterFinding(judgement),
    oxygenFinding(judgement),
    stagesFinding(context),
    volumeFinding(pond),
  ].filter((finding) => finding !== null);
}

/** One circuit too small is told so, with the flow a second circuit would have to add. */
function turnoverFinding(pond: PondFacts): PondFinding | null {
  const flows = pumpFlows(pond.equipment).map(({ flowLPerH }) => flowLPerH);
  if (flows.length === 0) return null;
  const neededPerHour = pond.stock.length > 0 ? KOI_TURNOVER_PER_HOUR : GARDEN_TURNOVER_PER_HOUR;
  const verdict = turnover({ volumeL: pond.volumeL, circuitFlowsLPerH: flows, neededPerHour });
  if (verdict.isMet) return null;
  return {
    code: 'turnover-not-met',
    inputs: [
      input('volume', Math.round(pond.volumeL), 'L'),
      input('circuits', flows.length),
      input('flow', Math.round(flows.reduce((sum, flow) => sum + flow, 0)), 'L/h'),
      input('turnover', Number(verdict.perHour.toFixed(2)), '1/h'),
      input('needed', neededPerHour, '1/h'),
      input('missing', Math.ceil(verdict.missingLPerH), 'L/h'),
    ],
  };
}

function refugeFinding(pond: PondFacts, forecast: WaterForecast): PondFinding | null {
  if (pond.winterClass === 'W0' || pond.stock.length === 0) return null;
  const iceCm = designIceCm(forecast);
  const refuge = refugeDepth({ maxDepthM: pond.maxDepthM, iceThicknessCm: iceCm, winterClass: pond.winterClass });
  if (refuge.warning === null) return null;
  return {
    code: 'refuge-too-shallow',
    inputs: [
      input('warning', refuge.warning),
      input('max-depth', pond.maxDepthM, 'm'),
      input('ice', Math.round(iceCm), 'cm'),
      input('free-depth', Number(refuge.freeDepthM.toFixed(2)), 'm'),
      input('needed-free-depth', refuge.neededFreeDepthM, 'm'),
    ],
  };
}

/** Ice by freezing degree-days of the traces' air, mean of the coldest tenth. [cm] */
function designIceCm({ airC, days, traces }: WaterForecast): number {
  const cold = Array.from({ length: traces }, (_, trace) =>
    freezingDegreeDaysC(airC.subarray(trace * days, (trace + 1) * days)),
  ).sort((a, b) => b - a);
  const coldest = cold.slice(0, Math.max(1, Math.round(COLDEST_SHARE * traces)));
  const meanCold = coldest.reduce((sum, degreeDays) => sum + degreeDays, 0) / coldest.length;
  return iceThicknessCm({ freezingDegreeDaysC: meanCold });
}

function stockingFinding(pond: PondFacts, { totalKg, measures }: StockJudgement): PondFinding | null {
  const water = measures.find(({ limit }) => limit === 'water');
  if (!water || water.verdict === 'comfortable' || water.verdict === 'full') return null;
  return {
    code: 'overstocked',
    inputs: [
      input('stock', Number(totalKg.toFixed(1)), 'kg'),
      input('volume', Math.round(pond.volumeL), 'L'),
      input('density', Number(water.load.toFixed(1)), 'kg/m3'),
      input('verdict', water.verdict),
    ],
  };
}

/** Ammonia of the food in warm water against what the media oxidise there. */
function filterFinding({ measures }: StockJudgement): PondFinding | null {
  const filter = measures.find(({ limit }) => limit === 'filter');
  if (!filter || filter.use <= 1) return null;
  return {
    code: 'filter-too-small',
    inputs: [
      input('ammonia-load', Number(filter.load.toFixed(1)), 'g N/day'),
      input('capacity', Number(filter.capacity.toFixed(1)), 'g N/day'),
      input('at-temperature', FILTER_JUDGED_AT_C, '°C'),
    ],
  };
}

/** Oxygen the fish use in hot water against what surface and aerators bring in there. */
function oxygenFinding({ measures }: StockJudgement): PondFinding | null {
  const oxygen = measures.find(({ limit }) => limit === 'oxygen');
  if (!oxygen || oxygen.use <= 1) return null;
  return {
    code: 'oxygen-short',
    inputs: [
      input('demand', Number(oxygen.load.toFixed(1)), 'g O2/h'),
      input('supply', Number(oxygen.capacity.toFixed(1)), 'g O2/h'),
      input('at-temperature', OXYGEN_JUDGED_AT_C, '°C'),
    ],
  };
}

/** The parts in which a new pond is stocked, and when at the earliest the next and the last of them go in. */
function stagesFinding(context: PlanningContext): PondFinding | null {
  const outlook = stockingOutlook(context);
  const next = outlook?.stages[0];
  const last = outlook?.stages.at(-1);
  if (!outlook || !next || !last) return null;
  return {
    code: 'stocking-in-stages',
    inputs: [
      input('planned', Number(outlook.plannedKg.toFixed(1)), 'kg'),
      input('stocked', Number(outlook.stockedKg.toFixed(1)), 'kg'),
      input('stocked-share', Number((outlook.stockedKg / outlook.plannedKg).toFixed(3))),
      input('parts', outlook.stages.length),
      input('part', Number(next.kg.toFixed(1)), 'kg'),
      ...(next.notBefore === null ? [] : [input('next-on', next.notBefore, 'day')]),
      ...(last.notBefore === null || last === next ? [] : [input('last-on', last.notBefore, 'day')]),
      input('warning', outlook.stockedKg === 0 ? 'first-part' : last === next ? 'last-part' : 'parts'),
    ],
  };
}

function volumeFinding(pond: PondFacts): PondFinding | null {
  if (!isVolumeUncertain(pond)) return null;
  return {
    code: 'volume-uncertain',
    inputs: [input('volume', Math.round(pond.volumeL), 'L'), input('sigma', pond.volumeSigmaPct, '%')],
  };
}
