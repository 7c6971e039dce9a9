import { type CivilDay, dayFromParts, yearOf } from '../units/civil-day.js';

const SHORTEST_SPIN_UP_DAYS = 60;
const MIDSUMMER_MONTH_NORTH = 8;
const MIDSUMMER_MONTH_SOUTH = 2;

/** The last midsummer (1 August in the north, 1 February in the south) at least 60 days before a day: no ice, little memory. */
export function spinUpStart(firstDay: CivilDay, latitude: number): CivilDay {
  const month = latitude >= 0 ? MIDSUMMER_MONTH_NORTH : MIDSUMMER_MONTH_SOUTH;
  for (let year = yearOf(firstDay); ; year--) {
    const start = dayFromParts(year, month, 1);
    if (firstDay - start >= SHORTEST_SPIN_UP_DAYS) return start;
  }
}
