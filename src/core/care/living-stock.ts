import type { PondFacts, StockGroup } from './pond-facts.js';

/** A new pond whose livestock has not been released into it. The stock on its record is what is planned. */
export function isInRunIn(pond: Pick<PondFacts, 'commissionedOn' | 'stockedOn'>): boolean {
  return pond.commissionedOn !== null && pond.stockedOn === null;
}

/** What lives in the pond now: nothing while it runs in, and while it is stocked in parts that share of each group. */
export function livingStock(pond: PondFacts): readonly StockGroup[] {
  if (isInRunIn(pond)) return [];
  const { stock, stockedShare = 1 } = pond;
  return stockedShare === 1 ? stock : stock.map((group) => ({ ...group, count: group.count * stockedShare }));
}
