import type { PondId } from '../platform/ids.js';

/** Rows of several ponds, read with one query, by the pond they belong to; the order of the rows is kept. */
export function byPond<T extends { readonly pondId: PondId }>(rows: readonly T[]): Map<PondId, T[]> {
  const groups = new Map<PondId, T[]>();
  for (const row of rows) {
    const group = groups.get(row.pondId);
    if (group) group.push(row);
    else groups.set(row.pondId, [row]);
  }
  return groups;
}
