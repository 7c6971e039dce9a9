import { InvalidValueError, requireWithin } from '../errors.js';
import { kelvinFromC } from '../units/celsius-fahrenheit.js';

/** Range of the dissociation constants taken here; the paper goes to 90 °C. [°C] */
const TEMPERATURE_RANGE_C = { min: 0, max: 50 } as const;
const PH_RANGE = { min: 4.5, max: 11 } as const;
const ALKALINITY_RANGE = { min: 1, max: 1000 } as const;
/** Calcium carbonate that holds one unit of charge. [mg CaCO3 per meq] */
const MG_CACO3_PER_MEQ = 50.0435;
/** Halvings of the pH range that leave less than the last bit. */
const HALVINGS = 60;

interface Temperature {
  readonly temperatureC: number;
}

/** A water whose carbonate system is known. */
export interface CarbonateSample extends Temperature {
  /** 1 to 1000. [mg/L CaCO3] */
  readonly alkalinityMgCaCO3PerL: number;
  /** 4.5 to 11. [-] */
  readonly ph: number;
}

/** First dissociation constant of carbonic acid, minus its logarithm: 6.352 at 25 °C. [-] */
export function carbonicPK1({ temperatureC }: Temperature): number {
  return polynomial(temperatureC, [-356.3094, -0.06091964, 21834.37, 126.8339, -1684915]);
}

/** Second dissociation constant of carbonic acid: 10.329 at 25 °C. [-] */
export function carbonicPK2({ temperatureC }: Temperature): number {
  return polynomial(temperatureC, [-107.8871, -0.03252849, 5151.79, 38.92561, -563713.9]);
}

/** Ion product of water: 14.00 at 25 °C. [-] */
export function waterPKw({ temperatureC }: Temperature): number {
  return polynomial(temperatureC, [-283.971, -0.05069842, 13323, 102.24447, -1119669]);
}

/**
 * Inorganic carbon of a water: dioxide, bicarbonate and carbonate together. [mmol/L]
 *   Alk = CT (K1 H + 2 K1 K2) / (H² + K1 H + K1 K2) + Kw / H - H
 * Unlike the pH it mixes in proportion. Activities are taken as one, which in pond water shifts the pH by some 0.05 both
 * on the way there and on the way back.
 * @see Plummer & Busenberg (1982), Geochim. Cosmochim. Acta 46, 1011-1040 (published source, constants quoted by public
 *      codes); the balance is derived.
 */
export function inorganicCarbonMmolPerL(sample: CarbonateSample): number {
  requireWithin('pH', sample.ph, PH_RANGE);
  requireWithin('alkalinity, mg/L CaCO3', sample.alkalinityMgCaCO3PerL, ALKALINITY_RANGE);
  const { chargePerCarbon, otherMeqPerL } = speciation(constantsAt(sample), sample.ph);
  const carbonateMeqPerL = sample.alkalinityMgCaCO3PerL / MG_CACO3_PER_MEQ - otherMeqPerL;
  if (carbonateMeqPerL <= 0) {
    throw new InvalidValueError('pH', sample.ph, 'So little alkalinity cannot hold it: read both again.');
  }
  return carbonateMeqPerL / chargePerCarbon;
}

/**
 * The pH at which a water of this alkalinity holds this much inorganic carbon. [-]
 * The inverse of `inorganicCarbonMmolPerL`; throws where no pH between 4.5 and 11 does.
 */
export function phOf(
  water: Temperature & { readonly alkalinityMgCaCO3PerL: number; readonly inorganicCarbonMmolPerL: number },
): number {
  requireWithin('alkalinity, mg/L CaCO3', water.alkalinityMgCaCO3PerL, ALKALINITY_RANGE);
  requireWithin('inorganic carbon, mmol/L', water.inorganicCarbonMmolPerL, { min: 1e-6, max: 1000 });
  const wantedMeqPerL = water.alkalinityMgCaCO3PerL / MG_CACO3_PER_MEQ;
  const constants = constantsAt(water);
  const alkalinityAt = (ph: number) => {
    const { chargePerCarbon, otherMeqPerL } = speciation(constants, ph);
    return water.inorganicCarbonMmolPerL * chargePerCarbon + otherMeqPerL;
  };
  let { min, max } = PH_RANGE as { min: number; max: number };
  if (alkalinityAt(min) > wantedMeqPerL || alkalinityAt(max) < wantedMeqPerL) {
    throw new InvalidValueError(
      'inorganic carbon, mmol/L',
      water.inorganicCarbonMmolPerL,
      'No pH from 4.5 to 11 fits this alkalinity.',
    );
  }
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = (min + max) / 2;
    if (alkalinityAt(middle) < wantedMeqPerL) min = middle;
    else max = middle;
  }
  return (min + max) / 2;
}

interface Constants {
  readonly k1: number;
  readonly k2: number;
  readonly kw: number;
}

function constantsAt(water: Temperature): Constants {
  return { k1: 10 ** -carbonicPK1(water), k2: 10 ** -carbonicPK2(water), kw: 10 ** -waterPKw(water) };
}

/** Charge carried by each mole of inorganic carbon, and alkalinity that is hydroxide less acid. [meq/mmol, meq/L] */
function speciation({ k1, k2, kw }: Constants, ph: number): { chargePerCarbon: number; otherMeqPerL: number } {
  const h = 10 ** -ph;
  return {
    chargePerCarbon: (k1 * h + 2 * k1 * k2) / (h * h + k1 * h + k1 * k2),
    otherMeqPerL: 1000 * (kw / h - h),
  };
}

/** -log10 K = -(a + b T + c / T + d log10 T + e / T²), T in K. */
function polynomial(temperatureC: number, [a, b, c, d, e]: readonly [number, number, number, number, number]): number {
  requireWithin('water temperature, °C', temperatureC, TEMPERATURE_RANGE_C);
  const k = kelvinFromC(temperatureC);
  return -(a + b * k + c / k + d * Math.log10(k) + e / k ** 2);
}
