/** Litres in one of each; all exact by definition (231 in³; Weights and Measures Act; 0.3048 m cubed). [L] */
export const L_PER_US_GAL = 3.785411784;
export const L_PER_IMPERIAL_GAL = 4.54609;
export const L_PER_FT3 = 28.316846592;
export const L_PER_M3 = 1000;

/**
 * Units a volume may be typed or shown in. There is no plain "gallon": the two differ by 20 %,
 * so whoever types gallons says which.
 */
export type VolumeUnit = 'L' | 'm3' | 'us-gal' | 'imperial-gal' | 'ft3';

const L_PER_UNIT: Readonly<Record<VolumeUnit, number>> = {
  L: 1,
  m3: L_PER_M3,
  'us-gal': L_PER_US_GAL,
  'imperial-gal': L_PER_IMPERIAL_GAL,
  ft3: L_PER_FT3,
};

/** Litres of a volume typed in any of the units. [L] */
export function litresFrom(typed: { volume: number; unit: VolumeUnit }): number {
  return typed.volume * L_PER_UNIT[typed.unit];
}

/** A stored volume in the unit it is to be shown in. */
export function volumeIn(stored: { volumeL: number; unit: VolumeUnit }): number {
  return stored.volumeL / L_PER_UNIT[stored.unit];
}

export function litresFromUsGal(volumeUsGal: number): number {
  return volumeUsGal * L_PER_US_GAL;
}

export function usGalFromL(volumeL: number): number {
  return volumeL / L_PER_US_GAL;
}

export function litresFromImperialGal(volumeImperialGal: number): number {
  return volumeImperialGal * L_PER_IMPERIAL_GAL;
}

export function imperialGalFromL(volumeL: number): number {
  return volumeL / L_PER_IMPERIAL_GAL;
}

export function litresFromFt3(volumeFt3: number): number {
  return volumeFt3 * L_PER_FT3;
}

export function ft3FromL(volumeL: number): number {
  return volumeL / L_PER_FT3;
}

export function cubicMetresFromL(volumeL: number): number {
  return volumeL / L_PER_M3;
}
