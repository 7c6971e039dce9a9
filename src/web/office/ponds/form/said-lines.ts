import type { StockGroup } from '../../../../core/care/pond-facts.js';
import { nitrificationCapacityGNPerDay } from '../../../../core/filter/nitrification.js';
import { pondVolume, type VolumeMethod } from '../../../../core/hydraulics/pond-volume.js';
import type { CircuitFlow } from '../../../../core/hydraulics/pump-line.js';
import { KOI_TURNOVER_PER_HOUR, turnover } from '../../../../core/hydraulics/turnover.js';
import { ammoniaLoadGNPerDay, turtleFeedGPerDay } from '../../../../core/stock/ammonia-load.js';
import { FEED_PROTEIN_SHARE, feedFor } from '../../../../core/stock/feed-ration.js';
import { stockBiomass } from '../../../../core/stock/fish-mass.js';
import { type Stocking, stockVerdict } from '../../../../core/stock/stocking.js';
import { ftFromM } from '../../../../core/units/length-units.js';
import { G_PER_LB } from '../../../../core/units/mass-units.js';
import {
  figures,
  showArea,
  showFlow,
  showLength,
  showMass,
  showMinutes,
  showTemperature,
  showVolume,
  type UnitSystem,
} from '../../../../core/units/show.js';
import { L_PER_US_GAL } from '../../../../core/units/volume-units.js';
import { storedVolumeOf, type WaterInput } from '../../../../ponds/index.js';

/** What the program concludes while somebody types; `act` asks for a second look. */
export interface SaidLine {
  readonly tone: 'fact' | 'act';
  /** In bold, before the rest. */
  readonly lead: string;
  readonly text: string;
}

const fact = (lead: string, text: string): SaidLine => ({ tone: 'fact', lead, text });
const act = (lead: string, text: string): SaidLine => ({ tone: 'act', lead, text });

const METHOD_WORDS: Readonly<Record<VolumeMethod, string>> = {
  'metered-fill': 'by meter',
  'salt-dilution': 'by salt test',
  'shelf-by-shelf': 'from the shelves',
  'depth-contours': 'from its depth contours',
  'vertical-sides': 'from straight walls',
  'average-depth': 'from length, width and mean depth',
  'bowl-rule': 'from the deepest point of a bowl',
};

/** How a volume was found, in words. */
export function methodWords(method: string): string {
  return METHOD_WORDS[method as VolumeMethod] ?? method;
}

/** The volume with its method and error, and whether meter and shape agree. */
export function saidOfWater(water: WaterInput, units: UnitSystem): SaidLine {
  const stored = storedVolumeOf(water);
  const volume = showVolume(stored.volumeL, units);
  const area = showArea(stored.surfaceAreaM2, units);
  if (water.method === 'shape' || !water.shape) {
    const depth = `Surface ${area}, on average ${showLength(stored.meanDepthM, units)} deep.`;
    const unsure = stored.volumeSigmaPct > 15 ? ' Meter the next fill: every dose is worked out for this volume.' : '';
    return fact(
      volume,
      `${methodWords(stored.volumeMethod)}, give or take ${stored.volumeSigmaPct} %. ${depth}${unsure}`,
    );
  }
  const shape = pondVolume(water.shape);
  const offPct = (100 * (shape.volumeL - stored.volumeL)) / stored.volumeL;
  const error = water.method === 'salt-test' ? `, give or take ${stored.volumeSigmaPct} %` : '';
  const words = `${methodWords(stored.volumeMethod)}${error}. The shape gives ${showVolume(shape.volumeL, units)}, ${Math.round(Math.abs(offPct))} % ${offPct < 0 ? 'less' : 'more'}`;
  if (Math.abs(offPct) <= 2 * shape.volumeSigmaPct)
    return fact(volume, `${words}: they agree. Doses use the measured volume.`);
  return act(volume, `${words}: they do not agree. Check the meter, its unit and the depths before anything is dosed.`);
}

/** Whether the circuits move the volume once an hour, by their working points where lift and pipe are known. */
export function saidOfTurnover(circuits: readonly CircuitFlow[], volumeL: number, units: UnitSystem): SaidLine | null {
  if (circuits.length === 0) return null;
  const { perHour, isMet, missingLPerH } = turnover({
    volumeL,
    circuitFlowsLPerH: circuits.map(({ flowLPerH }) => flowLPerH),
    neededPerHour: KOI_TURNOVER_PER_HOUR,
  });
  const basis = circuits.flatMap((circuit, i) => pointWords(circuit, i, circuits.length, units)).join(' ');
  const lead = circuits.length === 1 ? 'One circuit moves' : `${circuits.length} circuits move`;
  const flow = showFlow(perHour * volumeL, units);
  if (perHour === 0) return act('No circuit moves any water.', basis);
  if (!isMet) {
    const next = circuits.length === 1 ? 'A second circuit' : 'One more circuit';
    return act(
      `${lead} ${flow}, less than the volume of ${showVolume(volumeL, units)} in an hour.`,
      `${next} of at least ${showFlow(missingLPerH, units)} closes the gap. ${basis}`,
    );
  }
  return fact(`${lead} ${flow}:`, `the whole pond in ${showMinutes(60 / perHour)}. ${basis}`);
}

/** On what the flow of one circuit rests, and what its line should be told of. */
function pointWords({ point }: CircuitFlow, index: number, count: number, units: UnitSystem): string[] {
  const name = count === 1 ? 'The pump' : `Pump ${index + 1}`;
  if (point === null) {
    const rated = count === 1 ? 'Rated figures' : `${name}: rated figures`;
    return [`${rated}; with lift and pipe the real flow is worked out. Measure it at the first visit.`];
  }
  if (point.state === 'no-flow')
    return [`${name} does not reach its outlet: the lift is more than its greatest height.`];
  const works = `${name} works against ${showLength(point.headM, units)}.`;
  if (!point.isFast) return [works];
  const speed =
    units === 'us' ? `${figures(ftFromM(point.velocityMPerS))} ft/s` : `${figures(point.velocityMPerS)} m/s`;
  return [
    `${works} The water runs at ${speed} in its pipe, which is too fast: a wider pipe brings more for the same watts.`,
  ];
}

const STOCKING_WORDS: Readonly<Record<Stocking, string>> = {
  comfortable: 'Comfortable for this water.',
  full: 'A full pond: filter and readings decide.',
  over: 'More than this water carries without a strong filter and frequent changes.',
  'far-over': 'Far more than this water carries.',
};
/** The length to which koi are reckoned to grow here. [cm] */
const GROWN_KOI_CM = 50;
const WARM_WATER_C = 25;

/** Live mass against the water, what it becomes when the koi have grown, and whether the filter carries its food. */
export function saidOfStock(
  stock: readonly StockGroup[],
  pond: { readonly volumeL: number; readonly mediaAreaM2: number | null },
  units: UnitSystem,
): SaidLine | null {
  if (stock.length === 0) return null;
  const { totalKg } = stockBiomass(stock);
  if (totalKg <= 0) return null;
  const { verdict, kgPerM3 } = stockVerdict({ totalKg, volumeL: pond.volumeL });
  const isHeavy = verdict === 'over' || verdict === 'far-over';
  const load = filterLine(stock, pond.mediaAreaM2, units);
  const lead = `${showMass(totalKg * 1000, units)} of fish and turtles: ${waterPerMass(totalKg, pond.volumeL, units)}.`;
  const rest = [
    `${figures(kgPerM3)} kg per m³. ${STOCKING_WORDS[verdict]}`,
    grownLine(stock, pond.volumeL, units),
    load?.text,
  ].filter(Boolean);
  return { tone: isHeavy || load?.isShort ? 'act' : 'fact', lead, text: rest.join(' ') };
}

function waterPerMass(totalKg: number, volumeL: number, units: UnitSystem): string {
  if (units === 'metric') return `one kilogram to ${figures(volumeL / totalKg)} L`;
  return `one pound to ${figures(volumeL / L_PER_US_GAL / ((totalKg * 1000) / G_PER_LB))} gal`;
}

function grownLine(stock: readonly StockGroup[], volumeL: number, units: UnitSystem): string {
  if (!stock.some(({ species, lengthCm }) => species === 'koi' && lengthCm < GROWN_KOI_CM)) return '';
  const grown = stock.map((group) =>
    group.species === 'koi' ? { ...group, lengthCm: Math.max(group.lengthCm, GROWN_KOI_CM) } : group,
  );
  const length = units === 'us' ? '20 inches' : `${GROWN_KOI_CM} cm`;
  return `When the koi reach ${length} it will be ${waterPerMass(stockBiomass(grown).totalKg, volumeL, units)}.`;
}

function filterLine(stock: readonly StockGroup[], mediaAreaM2: number | null, units: UnitSystem) {
  if (mediaAreaM2 === null) return null;
  const warm = { waterTemperature7dMeanC: WARM_WATER_C, waterTemperature3dMeanC: WARM_WATER_C };
  const feedG =
    feedFor({ stock, ...warm, waterTemperatureMaxC: WARM_WATER_C }).feedGPerDay + turtleFeedGPerDay({ stock, ...warm });
  const loadG = ammoniaLoadGNPerDay({ feedGPerDay: feedG, feedProteinShare: FEED_PROTEIN_SHARE.staple });
  const capacityG = nitrificationCapacityGNPerDay({ mediaAreaM2, temperatureC: WARM_WATER_C, maturityShare: 1 });
  const at = showTemperature(WARM_WATER_C, units);
  const isShort = loadG > capacityG;
  const verb = isShort ? 'leaves more ammonia than the ripe filter takes' : 'is within what the ripe filter takes';
  return {
    isShort,
    text: `Its food at ${at} ${verb}: ${figures(loadG)} of about ${figures(capacityG)} g nitrogen a day.`,
  };
}

/** What the tap water means for every change and top-up. */
export function saidOfTap(source: string, totalChlorineMgPerL: number | null): SaidLine | null {
  if (totalChlorineMgPerL !== null && totalChlorineMgPerL > 4) {
    const meant = Number((totalChlorineMgPerL / 10).toPrecision(3));
    const proposal = totalChlorineMgPerL >= 5 ? ` Did you mean ${meant}?` : '';
    return act('Above 4 mg/L a supplier may not go.', `Measure again, or ask the supplier.${proposal}`);
  }
  const dose = totalChlorineMgPerL === null ? 'Until it is measured, doses are worked out for 4 mg/L.' : '';
  if (source === 'chloramine') {
    return fact('Chloramine does not gas off.', `The dechlorinator must bind its ammonia as well. ${dose}`.trim());
  }
  if (source === 'well') return fact('Well water', 'needs no dechlorinator.');
  if (source === 'chlorine') return dose ? fact('Chlorine.', dose) : null;
  return source === 'unknown'
    ? act('Not known.', `Ask the supplier whether it is chlorine or chloramine. ${dose}`)
    : null;
}
