import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { addDays, civilDay, isoDateOf } from '../../src/core/units/civil-day.js';
import { ownProcess } from '../support/own-process.js';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'tarnkeep-zone-'));
  const rows = Array.from({ length: 90 }, (_, i) => `${isoDateOf(addDays(civilDay('2026-02-15'), i))},${4 + i / 8}`);
  writeFileSync(path.join(folder, 'air.csv'), ['date,tmean_c', ...rows].join('\n'));
  writeFileSync(path.join(folder, 'readings.csv'), 'date,water_c\n2026-03-29,9.5\n2026-04-12,12\n');
  const site = { latitude: 52.1, longitude: 5.2, elevationM: 4, meanDepthM: 0.9, areaM2: 20, shadeFraction: 0.3 };
  writeFileSync(path.join(folder, 'site.json'), JSON.stringify({ ...site, timeZone: 'Europe/Amsterdam' }));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SCRIPT = `
import { createHash } from 'node:crypto';
import path from 'node:path';
import { runForecastFile } from '../../src/climate/forecast-file/index.js';
import { loadStations } from '../../src/config/stations.js';
const [zone, folder] = process.argv.slice(2);
process.env.TZ = zone;
const file = (name) => path.join(folder, name);
const { csv } = runForecastFile({
  siteFile: file('site.json'), airFile: file('air.csv'), readingsFile: file('readings.csv'),
  to: '2027-06-30', stations: loadStations(path.resolve('config/stations')),
});
console.log(new Date(2026, 6, 1).getTimezoneOffset() + ' ' + createHash('sha256').update(csv).digest('hex'));
`;

describe('forecast command on machines in other zones', () => {
  it('gives the same bytes from the far side of the date line to the other, over both changes of the clock', async () => {
    const script = await ownProcess(SCRIPT);
    const zones = ['Pacific/Kiritimati', 'America/Anchorage', 'Europe/Amsterdam'];
    const lines: string[] = [];
    for (const zone of zones) {
      const { ended, lines: output } = script.start(zone, folder);
      await ended;
      lines.push(output()[0]!);
    }
    const offsets = lines.map((line) => line.split(' ')[0]);
    expect(offsets).toEqual(['-840', '480', '-120']);
    expect(new Set(lines.map((line) => line.split(' ')[1])).size).toBe(1);
  }, 30_000);
});
