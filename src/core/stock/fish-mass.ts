import type { Species, StockGroup } from '../care/pond-facts.js';
import { InvalidValueError, type Range, requireWithin } from '../errors.js';

/** W = a L^b, total length in cm, mass in g. */
interface LengthWeight {
  readonly a: number;
  readonly b: number;
  readonly lengthCm: Range;
}

/** Common carp: de Wilt & van Emmerik (2008), quoted in the AmP collection's entry (published source). Max. 120 cm. */
const CARP: LengthWeight = { a: 0.01, b: 3.129, lengthCm: { min: 1, max: 120 } };
/** Goldfish: FishBase, quoted in the AmP collection's entry (published source). Max. 48 cm; larger claims exist. */
const GOLDFISH: LengthWeight = { a: 0.01349, b: 3, lengthCm: { min: 1, max: 60 } };

/** An adult slider counts as a kilogram of koi, others by the cube of the shell; our own scale, nothing measured found. */
const ADULT_SHELL_CM = 20;
const ADULT_TURTLE_KG = 1;
/** Females hardly grow past this; a longer entry counts as this. [cm] */
const LARGEST_SHELL_CM = 30;
const SHELL_RANGE_CM = { min: 2, max: 40 } as const;
const COUNT_RANGE = { min: 0, max: 100_000 } as const;

/**
 * Mass of one fish from its total length. [g]
 * A koi of 50 cm: 2071 g; a goldfish of 20 cm: 108 g. Single fish differ by 15 to 20 %.
 * @param fish.species `koi` and `other-fish` by the carp formula, `goldfish` by its own; a turtle throws.
 * @param fish.lengthCm Total length, koi 1 to 120, goldfish 1 to 60. [cm]
 */
export function fishMassG(fish: { species: Species; lengthCm: number }): number {
  if (fish.species === 'slider-turtle') {
    throw new InvalidValueError('species', fish.species, 'A turtle has no fish mass; use its equivalent in koi.');
  }
  const { a, b, lengthCm } = fish.species === 'goldfish' ? GOLDFISH : CARP;
  requireWithin(`length of ${fish.species}, cm`, fish.lengthCm, lengthCm);
  return a * fish.lengthCm ** b;
}

/**
 * The mass of koi that loads a pond as much as one slider. [kg]
 * 1 kg for a shell of 20 cm, by the cube of the length, no more from 30 cm on (our own rule; a range of three is fair).
 * @param turtle.shellLengthCm 2 to 40. [cm]
 */
export function turtleKoiEquivalentKg(turtle: { shellLengthCm: number }): number {
  requireWithin('shell length, cm', turtle.shellLengthCm, SHELL_RANGE_CM);
  return ADULT_TURTLE_KG * (Math.min(turtle.shellLengthCm, LARGEST_SHELL_CM) / ADULT_SHELL_CM) ** 3;
}

export interface StockBiomass {
  readonly fishKg: number;
  /** Turtles, as the koi that would load the pond as much. */
  readonly turtleKgEquivalent: number;
  readonly totalKg: number;
  /** 0 where there is no fish. */
  readonly meanFishMassG: number;
}

/** Live mass of a stock, group by group. Counts 0 to 100,000. */
export function stockBiomass(stock: readonly StockGroup[]): StockBiomass {
  let fishG = 0;
  let fishCount = 0;
  let turtleKgEquivalent = 0;
  for (const { species, count, lengthCm } of stock) {
    requireWithin(`number of ${species}`, count, COUNT_RANGE);
    if (species === 'slider-turtle') {
      turtleKgEquivalent += count * turtleKoiEquivalentKg({ shellLengthCm: lengthCm });
    } else {
      fishG += count * fishMassG({ species, lengthCm });
      fishCount += count;
    }
  }
  return {
    fishKg: fishG / 1000,
    turtleKgEquivalent,
    totalKg: fishG / 1000 + turtleKgEquivalent,
    meanFishMassG: fishCount === 0 ? 0 : fishG / fishCount,
  };
}
