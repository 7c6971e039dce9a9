/** Quantile of ascending values by linear interpolation between order statistics (Hyndman & Fan 1996, type 7; from memory). */
export function quantileOfSorted(sorted: ArrayLike<number>, probability: number): number {
  const position = (sorted.length - 1) * probability;
  const below = Math.floor(position);
  const low = sorted[below] as number;
  const high = sorted[Math.min(sorted.length - 1, below + 1)] as number;
  return low + (position - below) * (high - low);
}

/**
 * Copies `values` into `sorted` in the order of `order` and restores ascending order in both by insertion: yesterday's
 * order is nearly today's, so this is far cheaper than a fresh sort.
 */
export function sortByLastOrder(values: Float64Array, order: Int32Array, sorted: Float64Array): void {
  for (let i = 0; i < order.length; i++) {
    const trace = order[i] as number;
    const value = values[trace] as number;
    let place = i;
    while (place > 0 && (sorted[place - 1] as number) > value) {
      sorted[place] = sorted[place - 1] as number;
      order[place] = order[place - 1] as number;
      place--;
    }
    sorted[place] = value;
    order[place] = trace;
  }
}
