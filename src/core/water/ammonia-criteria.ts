import { requireWithin } from '../errors.js';
import type { AmmoniaSample } from './ammonia.js';

/** Range of the tables of the criteria. [-, °C] */
const PH_RANGE = { min: 6.5, max: 9 } as const;
const TEMPERATURE_RANGE_C = { min: 0, max: 30 } as const;
/** No four days of a month may pass the chronic figure by more than this (published source). [-] */
const FOUR_DAY_FACTOR = 2.5;

/** Total ammonia a natural water may carry, as N. [mg/L N] */
export interface AmmoniaCriteria {
  /** Mean of one hour, in a water without trout and salmon. */
  readonly acuteMgNPerL: number;
  /** Mean of thirty days. */
  readonly chronicMgNPerL: number;
  /** Highest mean of four days within those thirty. */
  readonly fourDayMgNPerL: number;
}

/**
 * Total ammonia that protects the life of a natural fresh water; none may be passed more than once in three years.
 * Set by mussels, so far stricter than carp need: a bound for water let out to a stream, not for the pond itself.
 *   acute   = 0.7249 (0.0114 / (1 + 10^(7.204 - pH)) + 1.6181 / (1 + 10^(pH - 7.204))) min(51.93, 23.12 10^(0.036 (20 - T)))
 *   chronic = 0.8876 (0.0278 / (1 + 10^(7.688 - pH)) + 1.1994 / (1 + 10^(pH - 7.688))) 2.126 10^(0.028 (20 - max(T, 7)))
 * At pH 7 and 20 °C 17 and 1.9. Outside the range it throws.
 * @param sample.temperatureC 0 to 30. [°C]
 * @param sample.ph 6.5 to 9. [-]
 * @see US EPA (2013), Aquatic Life Ambient Water Quality Criteria for Ammonia - Freshwater, EPA 822-R-13-001
 *      (published source, formulas quoted by a public code).
 */
export function ammoniaCriteria(sample: AmmoniaSample): AmmoniaCriteria {
  const { ph, temperatureC } = sample;
  requireWithin('pH', ph, PH_RANGE);
  requireWithin('water temperature, °C', temperatureC, TEMPERATURE_RANGE_C);

  const acuteByPh = 0.0114 / (1 + 10 ** (7.204 - ph)) + 1.6181 / (1 + 10 ** (ph - 7.204));
  const chronicByPh = 0.0278 / (1 + 10 ** (7.688 - ph)) + 1.1994 / (1 + 10 ** (ph - 7.688));
  const chronicMgNPerL = 0.8876 * chronicByPh * 2.126 * 10 ** (0.028 * (20 - Math.max(temperatureC, 7)));
  return {
    acuteMgNPerL: 0.7249 * acuteByPh * Math.min(51.93, 23.12 * 10 ** (0.036 * (20 - temperatureC))),
    chronicMgNPerL,
    fourDayMgNPerL: FOUR_DAY_FACTOR * chronicMgNPerL,
  };
}
