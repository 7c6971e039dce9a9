/**
 * Share of a normal distribution below a value.
 * @param z In standard deviations; any number, infinities included.
 * @see Abramowitz & Stegun (1964), Handbook of Mathematical Functions, eq. 26.2.17 (published source); error < 7.5e-8.
 */
export function normalShareBelow(z: number): number {
  const size = Math.abs(z);
  if (size > 8) return z > 0 ? 1 : 0;
  const t = 1 / (1 + 0.2316419 * size);
  const series = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp(-(size ** 2) / 2) / Math.sqrt(2 * Math.PI)) * series;
  return z > 0 ? 1 - tail : tail;
}
