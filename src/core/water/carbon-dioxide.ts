import { requireWithin } from '../errors.js';

/** Free carbon dioxide per alkalinity at pH 6, by temperature (Tucker 1984). [°C, mg CO2 per mg CaCO3] */
const AT_PH_6: readonly (readonly [temperatureC: number, factor: number])[] = [
  [5, 2.915],
  [10, 2.539],
  [15, 2.315],
  [20, 2.112],
  [25, 1.97],
  [30, 1.882],
  [35, 1.839],
];
const TABLE_RANGE_C = { min: 5, max: 35 } as const;
/** Beyond 8.4 carbonate takes over a share of the alkalinity and little dioxide is left. [-] */
const PH_RANGE = { min: 5, max: 8.4 } as const;
const ALKALINITY_RANGE = { min: 0, max: 400 } as const;

/** Good, and at alert (common practice). [mg/L CO2] */
export const CARBON_DIOXIDE_WATCH_MG_PER_L = 10;
export const CARBON_DIOXIDE_ACT_MG_PER_L = 20;

export interface CarbonDioxideSample {
  /** 5 to 35. [°C] */
  readonly temperatureC: number;
  /** 5 to 8.4. [-] */
  readonly ph: number;
  /** 0 to 400. [mg/L CaCO3] */
  readonly alkalinityMgCaCO3PerL: number;
}

/**
 * Free carbon dioxide of a sample. [mg/L CO2]
 *   CO2 = Alk k6(T) 10^(6 - pH)        k6 2.915 at 5 °C, 2.112 at 20 °C, 1.839 at 35 °C
 * Between two temperatures of the table on a line through the logarithms. 100 mg/L at pH 7.5 and 20 °C: 6.7. Outside the
 * table it throws; a figure far above 40 in water under open sky means that pH or alkalinity was misread.
 * @see Tucker (1984) (published source, quoted by a reprint).
 */
export function carbonDioxideMgPerL(sample: CarbonDioxideSample): number {
  requireWithin('pH', sample.ph, PH_RANGE);
  requireWithin('alkalinity, mg/L CaCO3', sample.alkalinityMgCaCO3PerL, ALKALINITY_RANGE);
  return sample.alkalinityMgCaCO3PerL * factorAtPh6(sample.temperatureC) * 10 ** (6 - sample.ph);
}

/** In order below 10, to be watched below 20, else to be acted on: more air, less feed (common practice). */
export function carbonDioxideLevel(carbonDioxideMgPerLHere: number): 'in-order' | 'watch' | 'act' {
  requireWithin('carbon dioxide, mg/L', carbonDioxideMgPerLHere, { min: 0, max: 12_000 });
  if (carbonDioxideMgPerLHere >= CARBON_DIOXIDE_ACT_MG_PER_L) return 'act';
  return carbonDioxideMgPerLHere >= CARBON_DIOXIDE_WATCH_MG_PER_L ? 'watch' : 'in-order';
}

function factorAtPh6(temperatureC: number): number {
  requireWithin('water temperature, °C', temperatureC, TABLE_RANGE_C);
  const above = Math.max(
    1,
    AT_PH_6.findIndex(([tableC]) => tableC >= temperatureC),
  );
  const [lowC, low] = AT_PH_6[above - 1]!;
  const [highC, high] = AT_PH_6[above]!;
  return low * (high / low) ** ((temperatureC - lowC) / (highC - lowC));
}
