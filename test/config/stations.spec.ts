import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { SettingsError } from '../../src/config/settings-faults.js';
import { loadStationGaps, loadStationOrigins, loadStations } from '../../src/config/stations.js';
import { siteClimateFor } from '../../src/core/climate/site-climate.js';

const BUNDLED = path.resolve('config/stations');
const STATES =
  'AK AL AR AZ CA CO CT FL GA HI IA ID IL IN KS KY LA MA MD ME MI MN MO MS MT NC ND NE NH NJ NM NV NY OH OK OR PA RI SC SD TN TX UT VA VT WA WI WV WY';

let folder: string;
let copies = 0;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'tarnkeep-stations-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The bundled table with one thing changed. */
function changed(change: (lines: string[]) => string[], head = (text: string) => text): string {
  const copy = path.join(folder, String(++copies));
  cpSync(BUNDLED, copy, { recursive: true });
  const lines = readFileSync(path.join(copy, 'stations.csv'), 'utf8').trimEnd().split('\n');
  writeFileSync(path.join(copy, 'stations.csv'), `${change(lines).join('\n')}\n`);
  writeFileSync(path.join(copy, 'stations.yaml'), head(readFileSync(path.join(copy, 'stations.yaml'), 'utf8')));
  return copy;
}

function faultsOf(directory: string): string {
  try {
    loadStations(directory);
  } catch (error) {
    if (error instanceof SettingsError) return error.message;
    throw error;
  }
  return '';
}

const onLine2 = (change: (line: string) => string) => (lines: string[]) => [
  lines[0]!,
  change(lines[1]!),
  ...lines.slice(2),
];

describe('station table', () => {
  const stations = loadStations(BUNDLED);

  it('has a few hundred stations: every US state but Delaware, and the gardens of the world', () => {
    expect(stations.length).toBeGreaterThan(300);
    const american = stations.filter((station) => station.country === 'US');
    const states = new Set(american.map((station) => station.name.slice(-2)));
    expect(STATES.split(' ').filter((state) => !states.has(state))).toEqual([]);
    const countries = new Set(stations.map((station) => station.country));
    for (const country of 'AU BR CA CN DE ES FR GB IN IT JP KR MA MX NL NZ PL SE ZA'.split(' '))
      expect(countries).toContain(country);
  });

  it('serves Delaware and Denmark from over the border, with the distance said and far ones warned of', () => {
    const nearest = (latitude: number, longitude: number) => {
      const climate = siteClimateFor({ latitude, longitude, elevationM: 10 }, stations);
      return {
        name: climate.stations[0]!.name,
        km: climate.stations[0]!.distanceKm,
        warnings: climate.warnings.length,
      };
    };
    const [wilmington, copenhagen, aarhus] = [nearest(39.74, -75.55), nearest(55.68, 12.57), nearest(56.16, 10.2)];
    expect([wilmington.name, wilmington.warnings]).toEqual(['Philadelphia, PA', 0]);
    expect(wilmington.km).toBeLessThan(30);
    expect([copenhagen.name, copenhagen.warnings]).toEqual(['Arkona', 0]);
    expect([aarhus.name, aarhus.warnings]).toEqual(['List (Sylt)', 1]);
    expect(loadStationGaps(BUNDLED).join(' ')).toMatch(/Delaware has no station.*Denmark has none/);
  });

  it('says honestly which figures are normals and which are means of eighteen years', () => {
    const origins = loadStationOrigins(BUNDLED);
    for (const station of stations) {
      expect(origins[station.origin]).toBeDefined();
      expect(station.period).toBe(station.origin === 'noaa-normals' ? '1991-2020' : '2003-2021');
    }
    expect(origins['dwd-climat']!.attribution).toContain('Deutscher Wetterdienst');
    expect(new Set(stations.map((station) => station.period)).size).toBe(2);
  });

  it('gives every station a climate with a class or an honest null', () => {
    for (const station of stations) {
      const climate = siteClimateFor(station, stations, { stationId: station.id });
      expect(climate.meanC).toEqual(station.meanC);
      expect(climate.koeppen === null).toBe(station.precipitationMm === null);
    }
  });

  it('refuses a number out of range with file, line, field, value and what is allowed', () => {
    const faults = faultsOf(changed(onLine2((line) => line.replace(/,61\.169,/, ',161.169,'))));
    expect(faults).toBe('stations.csv line 2, latitude: "161.169". Allowed: a number from -90 to 90.');
  });

  it('refuses a month missing from a list, an unknown origin and a date that is none', () => {
    const short = faultsOf(changed(onLine2((line) => line.replace('-8.3 -6.1', '-6.1'))));
    expect(short).toContain('stations.csv line 2, mean_c: 11 values. Give twelve numbers');
    const origin = faultsOf(changed(onLine2((line) => line.replace('noaa-normals', 'hearsay'))));
    expect(origin).toBe('stations.csv line 2, origin: "hearsay". Allowed: dwd-climat, noaa-normals.');
    const date = faultsOf(changed(onLine2((line) => line.replace('05-05', '5 May'))));
    expect(date).toContain('stations.csv line 2, last_freeze: "5 May". Write MM-DD');
  });

  it('refuses a mean outside its extremes and an id used twice', () => {
    const mean = faultsOf(changed(onLine2((line) => line.replace('-8.3 -6.1', '8.3 -6.1'))));
    expect(mean).toContain('line 2, mean_c: month 1 is 8.3. The mean lies between min_c and max_c.');
    const twin = faultsOf(changed((lines) => [...lines, lines[1]!]));
    expect(twin).toContain('id: is used twice. It stands in line 2 as well');
  });

  it('refuses columns that are missing or not described, and a head that is wrong', () => {
    const column = faultsOf(changed((lines) => [lines[0]!.replace('mean_c', 'average'), ...lines.slice(1)]));
    expect(column).toContain('the column mean_c is missing');
    expect(column).toContain('the column "average" is not described in stations.yaml');
    const head = faultsOf(
      changed(
        (lines) => lines,
        (text) => text.replace('licence: CC BY 4.0', 'license: CC BY 4.0'),
      ),
    );
    expect(head).toContain('stations.yaml, origins.dwd-climat');
    expect(faultsOf(path.join(folder, 'nowhere'))).toContain('cannot be read (ENOENT)');
  });

  it('takes the columns in any order', () => {
    const swapped = changed((lines) =>
      lines.map((line) => {
        const cells = line.match(/("[^"]*"|[^,]*)(,|$)/g)!.map((cell) => cell.replace(/,$/, ''));
        const [id, name, ...rest] = cells.slice(0, 19);
        return [name, ...rest, id].join(',');
      }),
    );
    expect(loadStations(swapped)).toEqual(stations);
  });
});
