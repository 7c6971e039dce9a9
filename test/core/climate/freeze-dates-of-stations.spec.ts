import { describe, expect, it } from '@jest/globals';
import { loadStations } from '../../../src/config/stations.js';
import { firstFreezeOn, freezeDatesOf, lastFreezeOn } from '../../../src/core/climate/freeze-dates.js';
import { leafFallOn, leafNetDates } from '../../../src/core/climate/leaf-fall.js';
import { siteClimateFor } from '../../../src/core/climate/site-climate.js';
import { type CivilDay, civilDay } from '../../../src/core/units/civil-day.js';
import deBilt from '../../published/knmi-de-bilt-daily-1980-2019.json' with { type: 'json' };
import albany from '../../published/noaa-albany-freeze-dates.json' with { type: 'json' };
import { expectWithin } from '../../support/expect-within.js';

const YEAR = 2025;
const stations = loadStations('config/stations');
const climateOf = (stationId: string) => {
  const station = stations.find(({ id }) => id === stationId)!;
  return siteClimateFor(station, stations, { stationId });
};
const on = (monthDay: string) => civilDay(`${YEAR}-${monthDay}`);

describe('freeze dates from monthly figures alone', () => {
  // Measured: 6.2 and 4.3 days. NOAA dates are of 1991-2020; both spreads are borrowed from neighbours of 2003-2021.
  it('lie within 7 days of the medians of eighty US stations in spring and 5 in autumn, on average', () => {
    const errors: { last: number[]; first: number[] } = { last: [], first: [] };
    for (const station of stations) {
      if (!station.lastFreezeP50 || !station.firstFreezeP50) continue;
      const dates = freezeDatesOf(climateOf(station.id));
      const last = lastFreezeOn(dates, { year: YEAR, probability: 0.5 });
      const first = firstFreezeOn(dates, { year: YEAR, probability: 0.5 });
      if (last !== null) errors.last.push(last - on(station.lastFreezeP50));
      if (first !== null) errors.first.push(first - on(station.firstFreezeP50));
    }
    const meanSize = (days: number[]) => days.reduce((sum, day) => sum + Math.abs(day), 0) / days.length;
    expect(errors.last.length).toBeGreaterThanOrEqual(80);
    expect(errors.first.length).toBeGreaterThanOrEqual(78);
    expect(meanSize(errors.last)).toBeLessThan(7);
    expect(meanSize(errors.first)).toBeLessThan(5);
  });

  it.each(albany.rows)(
    'of Albany: the $event freeze at $probability is about $on',
    ({ event, probability, on: day }) => {
      const dates = freezeDatesOf(climateOf('wmo-72518'));
      const freezeOn = event === 'last' ? lastFreezeOn : firstFreezeOn;
      expectWithin(freezeOn(dates, { year: YEAR, probability })!, on(day), 6);
    },
  );
});

describe('leaf fall by probability', () => {
  it('moves about De Bilt’s date as its 10-day air did in forty years', () => {
    const meanC = deBilt.rows.flatMap((row) => row.meanTenthsC).map((tenths) => tenths / 10);
    const coolDays = Array.from({ length: 40 }, (_, i) => firstCoolDay(meanC, 1980 + i)).sort((a, b) => a - b);
    const climate = climateOf('wmo-06260');
    const at = (probability: number) => leafFallOn(climate, { year: YEAR, probability })!;
    expectWithin(at(0.9) - at(0.1), (coolDays[35] as number) - (coolDays[3] as number), 10);
    expectWithin(at(0.8) - at(0.2), (coolDays[31] as number) - (coolDays[7] as number), 7);
  });

  it('has the rule’s own date in the middle, and later dates for a surer fall', () => {
    const climate = climateOf('wmo-72518');
    const net = leafNetDates(climate, { year: YEAR });
    const dates = [0.05, 0.25, 0.5, 0.75, 0.95].map((probability) => leafFallOn(climate, { year: YEAR, probability }));
    expect(dates[2]).toBe(net.none === null ? net.netOn : undefined);
    expect(dates).toEqual([...dates].sort((a, b) => (a as CivilDay) - (b as CivilDay)));
  });

  it('has none in the tropics', () => {
    expect(leafFallOn(climateOf('wmo-48698'), { year: YEAR, probability: 0.2 })).toBeNull();
  });
});

/** Days from 15 July to the first trailing 10-day mean below 12 °C. */
function firstCoolDay(meanC: readonly number[], year: number): number {
  const start = civilDay(`${year}-07-15`) - civilDay('1980-01-01');
  for (let i = 0; ; i++) {
    const window = meanC.slice(start + i - 9, start + i + 1);
    if (window.reduce((sum, value) => sum + value, 0) / 10 < 12) return i;
  }
}
