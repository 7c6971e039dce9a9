/**
 * Noise addressed by number: the value at (key, index) depends on these two alone, so any day can be asked for in any
 * order and two runs that share a day share its noise. Not for secrets.
 */

const { imul, log, sqrt } = Math;

/** A 32-bit key for one stream of a seed; other streams of the seed are unrelated. */
export function noiseKey(seed: number, stream: number): number {
  return scramble(scramble(seed | 0) + imul(stream + 1, 0x9e3779b1));
}

/** Standard normal deviate at (key, index), by inverting the distribution; beyond 6.2 never. [-] */
export function gaussianAt(key: number, index: number): number {
  return normalQuantile(uniformAt(key, index));
}

/** Uniform deviate at (key, index), strictly between 0 and 1. [-] */
export function uniformAt(key: number, index: number): number {
  const bits = scramble(scramble(imul(index, 0x9e3779b1) ^ key) + key);
  return ((bits >>> 0) + 0.5) / 4294967296;
}

/** The 32-bit finaliser of MurmurHash3 (A. Appleby, public domain; from memory). A bijection. */
function scramble(bits: number): number {
  let h = bits | 0;
  h = imul(h ^ (h >>> 16), 0x85ebca6b);
  h = imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}

/**
 * Quantile of the standard normal distribution for a probability strictly between 0 and 1.
 * Rational approximation of P. J. Acklam (2003), relative error below 1.2e-9; coefficients from memory, checked in the
 * tests against tabled quantiles.
 */
export function normalQuantile(probability: number): number {
  const tail = 0.02425;
  if (probability < tail) return tailQuantile(sqrt(-2 * log(probability)));
  if (probability > 1 - tail) return -tailQuantile(sqrt(-2 * log(1 - probability)));
  const q = probability - 0.5;
  const r = q * q;
  return (
    ((((((-39.69683028665376 * r + 220.9460984245205) * r - 275.9285104469687) * r + 138.357751867269) * r -
      30.66479806614716) *
      r +
      2.506628277459239) *
      q) /
    (((((-54.47609879822406 * r + 161.5858368580409) * r - 155.6989798598866) * r + 66.80131188771972) * r -
      13.28068155288572) *
      r +
      1)
  );
}

function tailQuantile(q: number): number {
  return (
    (((((-0.007784894002430293 * q - 0.3223964580411365) * q - 2.400758277161838) * q - 2.549732539343734) * q +
      4.374664141464968) *
      q +
      2.938163982698783) /
    ((((0.007784695709041462 * q + 0.3224671290700398) * q + 2.445134137142996) * q + 3.754408661907416) * q + 1)
  );
}
