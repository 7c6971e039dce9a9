import { freezingDegreeDaysC } from '../climate/freezing-degree-days.js';
import { isVolumeUncertain } from '../hydraulics/dose-volume.js';
import { GARDEN_TURNOVER_PER_HOUR, KOI_TURNOVER_PER_HOUR, turnover } from '../hydraulics/turnover.js';
import { refugeDepth } from '../hydraulics/winter-refuge.js';
import { ammoniaLoadGNPerDay, turtleFeedGPerDay } from '../stock/ammonia-load.js';
import { FEED_PROTEIN_SHARE, feedFor } from '../stock/feed-ration.js';
import { stockBiomass } from '../stock/fish-mass.js';
import { stockVerdict } from '../stock/stocking.js';
import { iceThicknessCm } from '../thermal/ice.js';
import type { WaterForecast } from '../thermal/water-forecast.js';
import type { PlanInput, PondFinding } from './care-plan.js';
import type { PondFacts } from './pond-facts.js';
import { filterCapacityGNPerDay } from './quantities/filter-capacity.js';
import { input } from './triggers/trigger-outcome.js';

/** A filter is judged in warm water, when the fish eat most (common practice). [°C] */
const FILTER_JUDGED_AT_C = 25;
/** Design ice: the coldest tenth of the winters, as the three coldest of thirty. [-] */
const COLDEST_SHARE = 0.1;

/** Plain verdicts of the pond itself, for the stock on its record whether it swims there yet or not. */
export function pondFindings(plan: PlanInput): readonly PondFinding[] {
  const { pond } = plan;
  return [
    turnoverFinding(pond),
    refugeFinding(pond, plan.forecast),
    stockingFinding(pond),
    filterFinding(pond),
    volumeFinding(pond),
  ].filter((finding) => finding !== null);
}

/** One circuit too small is told so, with the flow a second circuit would have to add. */
function turnoverFinding(pond: PondFacts): PondFinding | null {
  const flows = pond.equipment
    .filter((machine) => machine.kind === 'pump' && machine.rated.flowLPerH !== undefined)
    .map((machine) => machine.rated.flowLPerH ?? 0);
  if (flows.length === 0) return null;
  const neededPerHour = pond.stock.length > 0 ? KOI_TURNOVER_PER_HOUR : GARDEN_TURNOVER_PER_HOUR;
  const verdict = turnover({ volumeL: pond.volumeL, circuitFlowsLPerH: flows, neededPerHour });
  if (verdict.isMet) return null;
  return {
    code: 'turnover-not-met',
    inputs: [
      input('volume', Math.round(pond.volumeL), 'L'),
      input('circuits', flows.length),
      input(
        'flow',
        flows.reduce((sum, flow) => sum + flow, 0),
        'L/h',
      ),
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

function stockingFinding(pond: PondFacts): PondFinding | null {
  const { totalKg } = stockBiomass(pond.stock);
  const { verdict, kgPerM3 } = stockVerdict({ totalKg, volumeL: pond.volumeL });
  if (verdict === 'comfortable' || verdict === 'full') return null;
  return {
    code: 'overstocked',
    inputs: [
      input('stock', Number(totalKg.toFixed(1)), 'kg'),
      input('volume', Math.round(pond.volumeL), 'L'),
      input('density', Number(kgPerM3.toFixed(1)), 'kg/m3'),
      input('verdict', verdict),
    ],
  };
}

/** Ammonia of the food at 25 °C against what the media oxidise there. */
function filterFinding(pond: PondFacts): PondFinding | null {
  const capacityG = filterCapacityGNPerDay(pond, FILTER_JUDGED_AT_C);
  if (capacityG === null) return null;
  const water = { waterTemperature7dMeanC: FILTER_JUDGED_AT_C, waterTemperature3dMeanC: FILTER_JUDGED_AT_C };
  const feed = feedFor({ stock: pond.stock, ...water });
  const feedG = feed.feedGPerDay + turtleFeedGPerDay({ stock: pond.stock, ...water });
  const loadG = ammoniaLoadGNPerDay({ feedGPerDay: feedG, feedProteinShare: FEED_PROTEIN_SHARE.staple });
  if (loadG <= capacityG) return null;
  return {
    code: 'filter-too-small',
    inputs: [
      input('ammonia-load', Number(loadG.toFixed(1)), 'g N/day'),
      input('capacity', Number(capacityG.toFixed(1)), 'g N/day'),
      input('at-temperature', FILTER_JUDGED_AT_C, '°C'),
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
