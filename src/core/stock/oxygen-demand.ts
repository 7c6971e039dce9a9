import type { StockGroup } from '../care/pond-facts.js';
import { requireWithin } from '../errors.js';
import { fishMassG } from './fish-mass.js';

/** Oxygen used at 20 °C over oxygen used at a temperature (Winberg 1956, from memory). [°C, -] */
const WINBERG_DIVISORS: readonly (readonly [temperatureC: number, divisor: number])[] = [
  [5, 5.19],
  [10, 2.67],
  [15, 1.57],
  [20, 1.0],
  [25, 0.609],
  [30, 0.437],
];
const MG_PER_ML_OXYGEN = 1.429;
/** A fed, moving fish over a quiet one (common practice). [-] */
const FED_FACTOR = 1.5;
/** Koi use less again at 30 °C than at 26 (published source: Water 17(5), 666, 2025); so no growth above this. [°C] */
const FLAT_FROM_C = 28;
/** Oxygen for fish and bacteria together per food (from memory, 0.4 to 1.0). [g/g] */
const OXYGEN_PER_FEED = 0.5;

const FISH_MASS_RANGE_G = { min: 0.001, max: 50_000 } as const;
const WATER_RANGE_C = { min: -1, max: 45 } as const;

/**
 * Routine oxygen use of a carp-like fish by Winberg, 5 to 30 °C; colder and warmer count as the end of the range.
 *   Q = 0.336 W^0.80 mL/h at 20 °C, divided by q(T)        [mg per kg and hour]
 * 1 kg at 20 °C: 121.
 * @see Winberg (1956) (from memory). Not fitted to adult koi.
 */
export function winbergOxygenUseMgPerKgH(fish: { fishMassG: number; temperatureC: number }): number {
  requireWithin('fish mass, g', fish.fishMassG, FISH_MASS_RANGE_G);
  requireWithin('water temperature, °C', fish.temperatureC, WATER_RANGE_C);
  const at20MgPerH = 0.336 * fish.fishMassG ** 0.8 * MG_PER_ML_OXYGEN;
  return (at20MgPerH / winbergDivisor(fish.temperatureC) / fish.fishMassG) * 1000;
}

/** Between two temperatures of the table on a line through the logarithms, as a rate is. */
function winbergDivisor(temperatureC: number): number {
  const first = WINBERG_DIVISORS[0]!;
  let below = first;
  for (const point of WINBERG_DIVISORS) {
    if (temperatureC <= point[0]) {
      if (point === first || temperatureC === point[0]) return point[1];
      const part = (temperatureC - below[0]) / (point[0] - below[0]);
      return below[1] * (point[1] / below[1]) ** part;
    }
    below = point;
  }
  return below[1];
}

/**
 * Routine oxygen use of young round crucian carp. [mg per kg and hour]
 *   0.0674 W^-0.193 exp(0.0562 T) mg/g/h        10 g at 20 °C: 133
 * @see Yamanaka et al. (2013), J. Appl. Ichthyol. 29, 891 (published source), 15 to 30 °C; larvae and juveniles only.
 */
export function yamanakaOxygenUseMgPerKgH(fish: { fishMassG: number; temperatureC: number }): number {
  requireWithin('fish mass, g', fish.fishMassG, FISH_MASS_RANGE_G);
  requireWithin('water temperature, °C', fish.temperatureC, WATER_RANGE_C);
  return 1000 * 0.0674 * fish.fishMassG ** -0.193 * Math.exp(0.0562 * fish.temperatureC);
}

/**
 * Lowest oxygen at which a young crucian carp can still breathe as it does at rest. [mg/L]
 *   1.35 W^-0.107        1, 10 and 100 g: 1.35, 1.06 and 0.82
 * Far below what a pond may fall to; grown koi were not measured.
 * @see Yamanaka et al. (2013), J. Appl. Ichthyol. 29, 891 (published source).
 */
export function yamanakaCriticalOxygenMgPerL(fish: { fishMassG: number }): number {
  requireWithin('fish mass, g', fish.fishMassG, FISH_MASS_RANGE_G);
  return 1.35 * fish.fishMassG ** -0.107;
}

export interface OxygenDemand {
  /** What to plan for: the larger of the fish route and the feed route. [g/h] */
  readonly demandGPerH: number;
  /** The two formulas for quiet fish, which differ by a factor of two at 1 kg. [g/h] */
  readonly lowGPerH: number;
  readonly highGPerH: number;
}

/**
 * Oxygen the fish of a pond use in an hour; turtles breathe air. Show it as a range.
 * @param pond.feedGPerDay Counts for filter bacteria as well; 0 where nothing is fed. [g/day]
 */
export function oxygenDemand(pond: {
  stock: readonly StockGroup[];
  waterTemperatureC: number;
  feedGPerDay: number;
}): OxygenDemand {
  requireWithin('feed, g/day', pond.feedGPerDay, { min: 0, max: 10_000_000 });
  const temperatureC = Math.min(pond.waterTemperatureC, FLAT_FROM_C);
  let winbergGPerH = 0;
  let yamanakaGPerH = 0;
  for (const { species, count, lengthCm } of pond.stock) {
    requireWithin(`number of ${species}`, count, { min: 0, max: 100_000 });
    if (species === 'slider-turtle') continue;
    const fish = { fishMassG: fishMassG({ species, lengthCm }), temperatureC };
    const groupKg = (count * fish.fishMassG) / 1000;
    winbergGPerH += (groupKg * winbergOxygenUseMgPerKgH(fish)) / 1000;
    yamanakaGPerH += (groupKg * yamanakaOxygenUseMgPerKgH(fish)) / 1000;
  }
  return {
    demandGPerH: Math.max(FED_FACTOR * winbergGPerH, (OXYGEN_PER_FEED * pond.feedGPerDay) / 24),
    lowGPerH: Math.min(winbergGPerH, yamanakaGPerH),
    highGPerH: Math.max(winbergGPerH, yamanakaGPerH),
  };
}
