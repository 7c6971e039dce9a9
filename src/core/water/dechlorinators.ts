import { InvalidValueError, requireWithin } from '../errors.js';

/** Molar mass of chlorine, Cl2. [g/mol] */
const CL2_G_PER_MOL = 70.906;

/** Reagents that take chlorine out of water. The last one also binds ammonia and is dosed by its label only. */
export const REAGENTS = [
  'thiosulfate-crystals',
  'thiosulfate-anhydrous',
  'sodium-sulfite',
  'sodium-bisulfite',
  'sodium-metabisulfite',
  'ascorbic-acid',
  'sodium-ascorbate',
  'hydroxymethanesulfonate',
] as const;
export type Reagent = (typeof REAGENTS)[number];

/** What a thiosulfate is turned into; it depends on pH and excess. Other reagents have one product only. */
export type ThiosulfateProduct = 'sulfate' | 'sulfur' | 'tetrathionate';
/** Thiosulfate used up by one molecule of chlorine. [mol/mol] */
const THIOSULFATE_PER_CL2: Readonly<Record<ThiosulfateProduct, number>> = {
  sulfate: 1 / 4,
  sulfur: 1,
  tetrathionate: 2,
};

interface ReagentFacts {
  readonly gPerMol: number;
  /** Molecules for one of chlorine; null for thiosulfate, where it depends on the product. [mol/mol] */
  readonly perCl2: number | null;
  /** AWWA field guide, table 7-2, pH 7; null where it has none. [mg per mg Cl2] */
  readonly fieldMgPerMg: number | null;
  /** What the product is counted on with; null where only a label may say. [mg per mg Cl2] */
  readonly usedMgPerMg: number | null;
  /** Oxygen that a milligram left over takes up (derived). [mg O2 per mg] */
  readonly oxygenMgPerMg: number;
}

const FACTS: Readonly<Record<Reagent, ReagentFacts>> = {
  'thiosulfate-crystals': { gPerMol: 248.17, perCl2: null, fieldMgPerMg: null, usedMgPerMg: 7, oxygenMgPerMg: 0 },
  'thiosulfate-anhydrous': { gPerMol: 158.1, perCl2: null, fieldMgPerMg: 1.9, usedMgPerMg: 4.5, oxygenMgPerMg: 0 },
  'sodium-sulfite': { gPerMol: 126.04, perCl2: 1, fieldMgPerMg: 1.96, usedMgPerMg: 2, oxygenMgPerMg: 0.1269 },
  'sodium-bisulfite': { gPerMol: 104.06, perCl2: 1, fieldMgPerMg: 1.61, usedMgPerMg: 1.65, oxygenMgPerMg: 0.1537 },
  'sodium-metabisulfite': {
    gPerMol: 190.1,
    perCl2: 1 / 2,
    fieldMgPerMg: 1.47,
    usedMgPerMg: 1.5,
    oxygenMgPerMg: 0.1683,
  },
  'ascorbic-acid': { gPerMol: 176.12, perCl2: 1, fieldMgPerMg: 2.5, usedMgPerMg: 2.75, oxygenMgPerMg: 0 },
  'sodium-ascorbate': { gPerMol: 198.11, perCl2: 1, fieldMgPerMg: 2.8, usedMgPerMg: 3, oxygenMgPerMg: 0 },
  hydroxymethanesulfonate: { gPerMol: 134.08, perCl2: 1, fieldMgPerMg: null, usedMgPerMg: null, oxygenMgPerMg: 0 },
};

/**
 * Reagent that one milligram of chlorine uses up by its reaction. [mg per mg Cl2]
 *   M n / 70.906        n molecules for one of chlorine
 * @param reaction.product Only for thiosulfate: to sulfate 0.557 anhydrous, to sulfur 2.23, to tetrathionate 4.46, which
 *        is the upper bound and taken when left out.
 * @see Stoichiometry (derived).
 */
export function reagentByTheoryMgPerMgChlorine(reaction: { reagent: Reagent; product?: ThiosulfateProduct }): number {
  const { gPerMol, perCl2 } = FACTS[reaction.reagent];
  return (gPerMol * (perCl2 ?? THIOSULFATE_PER_CL2[reaction.product ?? 'tetrathionate'])) / CL2_G_PER_MOL;
}

/** What a field guide for mains asks for at pH 7, or null. [mg per mg Cl2] @see AWWA field guide, table 7-2 (published source). */
export function reagentByFieldGuideMgPerMgChlorine(reagent: Reagent): number | null {
  return FACTS[reagent].fieldMgPerMg;
}

/**
 * What the product counts on: for crystals of thiosulfate 7.0, anhydrous 4.5. [mg per mg Cl2]
 * Throws for a reagent that also binds ammonia: its label rules, and no sound figure exists to ship.
 * @see The upper bound of the chemistry, or the field guide rounded up (common practice).
 */
export function reagentUsedMgPerMgChlorine(reagent: Reagent): number {
  const { usedMgPerMg } = FACTS[reagent];
  if (usedMgPerMg === null) {
    throw new InvalidValueError(
      'dechlorinator',
      reagent,
      'It is dosed by its label: enter the strength the label states.',
    );
  }
  return usedMgPerMg;
}

/**
 * Strength of a labelled product, from the dose its label asks for. [mg per mg Cl2]
 *   100 g for 10,000 L of water with 2 mg/L: 5.0
 * For a liquid the mass of the liquid counts. A label that names no chlorine is read for 1 mg/L, so that stronger tap
 * water takes more.
 * @param label.productG Dose of the label, 0.01 to 100,000. [g]
 * @param label.treatsL Water it is for, 1 to 10,000,000. [L]
 * @param label.chlorineMgCl2PerL Chlorine the label speaks of, 0.1 to 20; 1 when left out. [mg/L Cl2]
 */
export function labelledMgPerMgChlorine(label: {
  productG: number;
  treatsL: number;
  chlorineMgCl2PerL?: number;
}): number {
  const { productG, treatsL, chlorineMgCl2PerL = 1 } = label;
  requireWithin('dose of the label, g', productG, { min: 0.01, max: 100_000 });
  requireWithin('water the label speaks of, L', treatsL, { min: 1, max: 10_000_000 });
  requireWithin('chlorine the label speaks of, mg/L Cl2', chlorineMgCl2PerL, { min: 0.1, max: 20 });
  const strength = (productG * 1000) / (treatsL * chlorineMgCl2PerL);
  requireWithin('strength by the label, mg per mg Cl2', strength, { min: 0.1, max: 100 });
  return strength;
}

/** Strength of a solution of a reagent: a tenth of it takes ten times as much. [mg per mg Cl2] */
export function solutionMgPerMgChlorine(solution: { reagent: Reagent; reagentShare: number }): number {
  requireWithin('reagent in the solution, share', solution.reagentShare, { min: 0.05, max: 1 });
  return reagentUsedMgPerMgChlorine(solution.reagent) / solution.reagentShare;
}

/**
 * Oxygen that a reagent left over takes out of a pond. [mg/L]        0.127 mg for each milligram of sodium sulfite
 * Aerate while dosing. Thiosulfate and ascorbate take up little and slowly: counted as none.
 * @param excess.excessG Reagent beyond what the chlorine used up, 0 to 1,000,000. [g]
 * @see Stoichiometry, half a molecule of oxygen for each sulfite (derived).
 */
export function oxygenTakenByExcessMgPerL(excess: { reagent: Reagent; excessG: number; volumeL: number }): number {
  requireWithin('reagent left over, g', excess.excessG, { min: 0, max: 1_000_000 });
  requireWithin('pond volume, L', excess.volumeL, { min: 1, max: 10_000_000 });
  return (FACTS[excess.reagent].oxygenMgPerMg * excess.excessG * 1000) / excess.volumeL;
}
