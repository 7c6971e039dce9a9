import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { ForecastFileError, type ForecastFileRequest, runForecastFile } from '../../src/climate/forecast-file/index.js';
import { loadStations } from '../../src/config/stations.js';
import { addDays, civilDay, isoDateOf } from '../../src/core/units/civil-day.js';

const SITE = {
  latitude: 44.98,
  longitude: -93.27,
  elevationM: 260,
  meanDepthM: 0.9,
  areaM2: 20,
  shadeFraction: 0.3,
  timeZone: 'America/Chicago',
};
const stations = loadStations(path.resolve('config/stations'));

let folder: string;
let files = 0;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'tarnkeep-forecast-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function file(content: unknown): string {
  const name = path.join(folder, `file-${++files}`);
  writeFileSync(name, typeof content === 'string' ? content : JSON.stringify(content));
  return name;
}

function run(changes: Partial<ForecastFileRequest> & { site?: object } = {}) {
  const { site, ...request } = changes;
  return runForecastFile({ siteFile: file(site ?? SITE), stations, ...request });
}

function refusal(changes: Parameters<typeof run>[0]): string {
  try {
    run(changes);
  } catch (error) {
    if (error instanceof ForecastFileError) return error.message.replaceAll(folder, '');
    throw error;
  }
  return 'not refused';
}

/** Rows of `days` days from 1 May 2026, one degree warmer every tenth day. */
const rows = (days: number, cells: (day: string, meanC: number) => string) =>
  Array.from({ length: days }, (_, i) => cells(isoDateOf(addDays(civilDay('2026-05-01'), i)), 12 + i / 10));
const air = (days = 60) => file(['date,tmean_c', ...rows(days, (day, meanC) => `${day},${meanC}`)].join('\n'));
const linesOf = (csv: string) => csv.trimEnd().split('\n');

describe('forecast command', () => {
  it('writes one line a day with ordered quantiles', () => {
    const lines = linesOf(run({ airFile: air() }).csv);
    expect(lines[0]).toBe('date,p10_c,p50_c,p90_c');
    expect(lines).toHaveLength(61);
    expect(lines[1]).toMatch(/^2026-05-01,\d+\.\d\d,\d+\.\d\d,\d+\.\d\d$/);
    for (const line of lines.slice(1)) {
      const [low, middle, high] = line.split(',').slice(1).map(Number);
      expect(low!).toBeLessThan(middle!);
      expect(middle!).toBeLessThan(high!);
    }
  });

  it('is a forecast from normals without an air file, and then needs the period', () => {
    const { csv, notices } = run({ from: '2026-05-01', to: '2027-10-31' });
    expect(linesOf(csv)).toHaveLength(550);
    expect(notices).toContain('No air file: forecast from normals alone.');
    expect(refusal({})).toContain('--from DATE --to DATE');
    expect(refusal({ from: '2026-05-01', to: '2026-04-01' })).toContain('are -29 days. Allowed: 1 to');
    expect(refusal({ from: '2026-13-01', to: '2026-04-01' })).toContain(
      '--from: "2026-13-01". Allowed: a calendar date',
    );
  });

  it('draws the weather to come from years of record, and refuses too few', () => {
    const first = civilDay('2015-01-01');
    const record = (days: number) =>
      file(
        ['date,tmean_c', ...Array.from({ length: days }, (_, i) => `${isoDateOf(addDays(first, i))},${i % 30}`)].join(
          '\n',
        ),
      );
    const period = { from: '2026-05-01', to: '2026-06-30' };
    const { csv, notices } = run({ ...period, historyFile: record(6 * 365) });
    expect(csv).not.toBe(run(period).csv);
    expect(notices.some((notice) => notice.startsWith('Weather to come drawn from 6 years'))).toBe(true);
    expect(() => run({ ...period, historyFile: record(900) })).toThrow('at least 5 years');
  });

  it('counts precipitation: cold rain on open water', () => {
    const wet = file(['date,tmean_c,precip_mm', ...rows(60, (day, meanC) => `${day},${meanC},25`)].join('\n'));
    const last = (csv: string) => Number(linesOf(csv).at(-1)!.split(',')[2]);
    expect(last(run({ airFile: wet }).csv)).toBeLessThan(last(run({ airFile: air() }).csv));
  });

  it('takes columns in any order, extremes for a mean, and says what it does not use', () => {
    const mean = run({ airFile: air() });
    const extremes = rows(60, (day, meanC) => `${meanC + 6},sunny,${day},${meanC - 6}`);
    const swapped = run({ airFile: file(['tmax_c,sky,date,tmin_c', ...extremes].join('\r\n')) });
    expect(swapped.csv).toBe(mean.csv);
    expect(swapped.notices.some((notice) => notice.endsWith('columns not used: sky.'))).toBe(true);
  });

  it('skips comment lines', () => {
    const commented = file(
      ['# measured here', 'date,tmean_c', ...rows(60, (day, meanC) => `${day},${meanC}`)].join('\n'),
    );
    expect(run({ airFile: commented }).csv).toBe(run({ airFile: air() }).csv);
  });

  it('uses for a day the air through that day and no later', () => {
    const long = linesOf(run({ airFile: air(60) }).csv);
    const short = linesOf(run({ airFile: air(30), to: '2026-06-29' }).csv);
    expect(short.slice(0, 31)).toEqual(long.slice(0, 31));
    expect(short[45]).not.toBe(long[45]);
  });

  it('uses readings strictly before a day', () => {
    const readingsFile = file('water_c,date\n21,2026-05-20\n');
    const read = linesOf(run({ airFile: air(), readingsFile }).csv);
    const unread = linesOf(run({ airFile: air() }).csv);
    expect(read.slice(0, 21)).toEqual(unread.slice(0, 21));
    expect(Number(read[21]!.split(',')[2])).toBeGreaterThan(Number(unread[21]!.split(',')[2]) + 1);
  });

  it('bridges missing days from normals and says which', () => {
    const gaps = rows(60, (day, meanC) =>
      day === '2026-05-10' ? `${day},` : day > '2026-06-20' && day < '2026-06-24' ? '' : `${day},${meanC}`,
    );
    const { csv, notices } = run({ airFile: file(['date,tmean_c', ...gaps].join('\n')) });
    expect(linesOf(csv)).toHaveLength(61);
    expect(notices).toContain(
      '4 of 60 days have no air temperature and are bridged from normals: 2026-05-10, 2026-06-21 to 2026-06-23.',
    );
  });

  it('rejects a wild reading and asks for another', () => {
    const readingsFile = file('date,water_c\n2026-05-20,38\n');
    const { notices, csv } = run({ site: { ...SITE, windMPerS: 1.5 }, airFile: air(), readingsFile });
    expect(notices.some((notice) => /^Reading of 2026-05-20, 38 °C, is .* measure again\.$/.test(notice))).toBe(true);
    expect(csv).toBe(run({ site: { ...SITE, windMPerS: 1.5 }, airFile: air() }).csv);
  });

  it('has a narrower band where the wind over the water is told', () => {
    const width = (csv: string) => {
      const [low, , high] = linesOf(csv)[40]!.split(',').slice(1).map(Number);
      return high! - low!;
    };
    const told = run({ site: { ...SITE, windMPerS: 1.5 }, airFile: air() });
    const guessed = run({ airFile: air() });
    expect(width(told.csv)).toBeLessThan(0.75 * width(guessed.csv));
    expect(guessed.notices).toContain('windMPerS not given: 1.5 m/s over the water assumed.');
  });

  it('heeds sun, wind and humidity of the days', () => {
    const july = (header: string, cells: string, site: object = SITE) => {
      const lines = rows(60, (day, meanC) => `${day},${meanC},${cells}`);
      return Number(
        linesOf(run({ site, airFile: file([`date,tmean_c,${header}`, ...lines].join('\n')) }).csv)[50]!.split(',')[2],
      );
    };
    expect(july('solar_mj_m2', '28')).toBeGreaterThan(july('solar_mj_m2', '6') + 1);
    expect(july('rh_pct', '90')).toBeGreaterThan(july('rh_pct', '30') + 1);
    expect(july('wind_m_s', '10')).toBeLessThan(july('wind_m_s', '2'));
    // Where the mean wind is told, a steady file changes nothing.
    const told = { ...SITE, windMPerS: 2 };
    expect(july('wind_m_s', '10', told)).toBe(july('wind_m_s', '3', told));
  });

  it('warns of a station far away', () => {
    const { notices } = run({ site: { ...SITE, latitude: 0, longitude: -140 }, from: '2026-05-01', to: '2026-05-05' });
    expect(notices.some((notice) => /nearest station is \d+ km away/.test(notice))).toBe(true);
  });

  it.each([
    [{ ...SITE, latitude: 95 }, ', latitude: 95. '],
    [{ ...SITE, meanDepthM: undefined }, ', meanDepthM: is missing. '],
    [{ ...SITE, timeZone: 'Middle Earth' }, ', timeZone: "Middle Earth". Allowed: an IANA time zone'],
    [{ ...SITE, depth: 3 }, ': "depth" is not known; the keys are latitude, longitude, elevationM'],
    [{ ...SITE, areaM2: '20' }, ', areaM2: "20". '],
  ])('refuses a site that is wrong (%#)', (site, message) => {
    expect(refusal({ site, from: '2026-05-01', to: '2026-05-02' })).toContain(message);
  });

  it.each([
    ['date,tmean_c\n2026-05-01,91', ' line 2, tmean_c: "91". Allowed: a number from -60 to 55, or empty.'],
    [
      'date,tmean_c\n2026-05-01,12\n01.05.2026,13',
      ' line 3, date: "01.05.2026". Allowed: a calendar date as YYYY-MM-DD.',
    ],
    [
      'date,tmean_c\n2026-05-01,12\n2026-05-01,13',
      ' line 3, date: 2026-05-01 stands in line 2 as well. One row a day.',
    ],
    ['date,tmin_c\n2026-05-01,12', ' line 1: give tmean_c, or tmin_c and tmax_c; found date, tmin_c.'],
    ['date,tmin_c,tmax_c\n2026-05-01,12,4', ' line 2, tmin_c: 12 is above tmax_c, 4.'],
    ['day,tmean_c\n2026-05-01,12', ' line 1: no column "date".'],
    ['date,tmean_c,tmean_c\n2026-05-01,12,13', ' line 1: the column tmean_c stands there twice.'],
    ['date,tmean_c,rh_pct\n2026-05-01,12,-4', ' line 2, rh_pct: "-4". Allowed: a number from 0 to 100, or empty.'],
    ['date,tmean_c\n2026-05-01', 'Give every line the cells of the header.'],
    ['date,tmean_c\n', ': no day with a temperature.'],
  ])('refuses an air file that is wrong (%#)', (content, message) => {
    expect(refusal({ airFile: file(content) })).toContain(message);
  });

  it('refuses readings that are wrong, and files that are not there', () => {
    const readings = (content: string) => refusal({ airFile: air(), readingsFile: file(content) });
    expect(readings('date,water_c\n2026-05-20,72')).toContain(
      ' line 2, water_c: "72". Allowed: a number from -1 to 45',
    );
    expect(readings('date,temp\n2026-05-20,12')).toContain('no column "water_c"; found date, temp');
    expect(refusal({ airFile: path.join(folder, 'none.csv') })).toBe('/none.csv: cannot be read (ENOENT).');
    expect(() => runForecastFile({ siteFile: file('{'), stations })).toThrow('not JSON');
  });
});
