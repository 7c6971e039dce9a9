import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { PondsService, pondInputOf, ReadingsService } from '../../../src/ponds/index.js';
import { readWhatIf } from '../../../src/web/office/ponds/what-if/typed-what-if.js';
import { databaseFingerprint } from '../../support/database-fingerprint.js';
import { aPond } from '../../support/typed-pond.js';
import type { Visitor } from '../../support/visitor.js';
import { type WebApp, webApp } from '../../support/web-app.js';

describe('a question to the calendar of a pond', () => {
  let app: WebApp;
  let companyId: string;
  let office: Visitor;
  let pondId: string;
  beforeAll(async () => {
    app = await webApp({ at: '2026-07-05T15:00:00Z' });
  });
  afterAll(() => app.close());
  beforeEach(async () => {
    companyId = (await app.company()).id;
    office = await app.signedIn(companyId);
    pondId = await app.get(PondsService).create(companyId, aPond());
  });
  const ask = (query: string) => office.get(`/ponds/${pondId}/what-if?${query}`);

  it('shows more fish beside the fish there are: food, filter, oxygen and the tasks that change', async () => {
    const { status, text } = await ask('count.0=20');
    expect(status).toBe(200);
    expect(text).toMatch(/The stock would be (overstocked|a full pond) instead of comfortable/);
    for (const row of ['Food in the year', 'Ammonia at its worst', 'Oxygen at dawn, on the warmest day'])
      expect(rowOf(text, row)).toMatch(/<b>[^<]+<\/b>/);
    expect(rowOf(text, 'Turnover')).toContain('the same');
    expect(rowOf(text, 'Water in July')).toContain('the same');
    expect(text).toMatch(/Rinse the filter media[\s\S]*?times in the year instead of/);
    expect(text).not.toMatch(/NaN|undefined|\[object/);
  });

  it('shows a bigger pump, a shade sail, a warmer year and another place', async () => {
    const pump = /name="(flow\.\d+)"/.exec((await ask('')).text)?.[1] ?? '';
    expect(rowOf((await ask(`${pump}=1000`)).text, 'Turnover')).toContain('too little');
    expect(rowOf((await ask('flow.new=2,000')).text, 'Turnover')).toMatch(/in order<\/b>/);
    const shade = (await ask('sun=1')).text;
    const july = (text: string) => (rowOf(text, 'Water in July').match(/[\d.]+(?= °F)/g) ?? []).map(Number);
    expect(july(shade)[1]).toBeLessThan(july(shade)[0] as number);
    const warmer = (await ask('warmer=5')).text;
    expect(july(warmer)[1]).toBeGreaterThan(july(warmer)[0] as number);
    expect(warmer).toContain('worked out without them');
    const miami = /value="([^"]*miami[^"]*)"/i.exec((await ask('')).text)?.[1] ?? '';
    expect(miami).not.toBe('');
    const there = (await ask(`station=${miami}`)).text;
    expect(rowOf(there, 'Days with ice')).toContain('none');
    expect(there).toContain('not any more');
    expect(there).toContain('Not in this climate');
  });

  it('stores nothing, whatever is asked', async () => {
    await app
      .get(ReadingsService)
      .add(companyId, pondId, [{ quantity: 'water-temperature', value: 21, takenAt: '2026-07-04T12:00:00Z' }]);
    const before = await databaseFingerprint(app.database);
    for (const query of ['', 'count.0=40', 'sun=2&warmer=-4', 'count.0=x', 'flow.new=900&species.new=goldfish'])
      await ask(query);
    await office.get(`/ponds/${pondId}`);
    expect(await databaseFingerprint(app.database)).toBe(before);
    await office.post(`/ponds/${pondId}/readings`, { quantity: 'ph', value: '7.4', takenAt: '2026-07-05T09:00' });
    expect(await databaseFingerprint(app.database)).not.toBe(before);
  });

  it('answers nothing while nothing is asked, and says so when nothing changes', async () => {
    expect((await ask('')).text).not.toContain('Loads and water');
    expect((await ask('count.0=8&sun=6')).text).not.toContain('Loads and water');
    expect((await ask('warmer=0')).text).toContain('Nothing would change.');
  });

  it('keeps what cannot be used, with a sentence at each field', async () => {
    const { text } = await ask('count.0=x&sun=33&warmer=90&count.new=3');
    expect(text).toContain('4 fields cannot be used.');
    expect(text).toContain('“x” is not a number');
    expect(text).toContain('value="33"');
    expect(text).toContain('Warmer: -18 to 18 °F.');
    expect(text).not.toContain('Loads and water');
  });

  it('is not for technicians, nor for another company', async () => {
    const technician = await app.signedIn(companyId, 'technician');
    expect((await technician.get(`/ponds/${pondId}/what-if`)).status).toBe(403);
    const stranger = await app.signedIn((await app.company('Brook & Bank')).id);
    expect((await stranger.get(`/ponds/${pondId}/what-if?count.0=9`)).status).toBe(404);
  });

  it('reads what was typed over the record, and keeps every machine it does not touch', async () => {
    const record = await app.get(PondsService).get(companyId, pondId);
    const given = { units: 'metric', stationOf: () => undefined } as const;
    const { whatIf } = readWhatIf(
      { 'count.0': '0', 'count.new': '3', 'species.new': 'goldfish', 'length.new': '12', 'flow.0': '' },
      record,
      given,
    );
    expect(whatIf?.input.stock).toEqual([{ species: 'goldfish', count: 3, lengthCm: 12 }]);
    expect(whatIf?.input.equipment).toEqual(pondInputOf(record).equipment);
    expect(readWhatIf({ station: 'nowhere' }, record, given).faults).toHaveProperty('station');
  });
});

describe('the page of a pond', () => {
  it('lists later times apart from tasks, the reasons of the rest, and the dawn in the heat', async () => {
    const app = await webApp({ at: '2026-07-05T15:00:00Z' });
    const companyId = (await app.company()).id;
    const office = await app.signedIn(companyId);
    const pondId = await app.get(PondsService).create(companyId, aPond());
    const { text } = await office.get(`/ponds/${pondId}`);
    expect(text).toMatch(/\d+ later times, as expected today/);
    expect(text).toContain('class="later-dot"');
    expect(text).toMatch(/more times, the last about \d+ [A-Z]/);
    expect(text).toMatch(/To expect tomorrow[\s\S]*?between [\d.]+ and [\d.]+ mg\/L[\s\S]*?[\d.]+ mg\/L/);
    expect(text).toMatch(/Without power[\s\S]*?about \d+ h to 4 mg\/L/);
    expect(text).toMatch(/Why is there no[\s\S]*The rule follows:/);
    app.clock.set('2026-12-05T15:00:00Z');
    const later = await app.signedIn(companyId);
    expect((await later.get(`/ponds/${pondId}`)).text).not.toContain('To expect tomorrow');
    await app.close();
  });
});

/** One row of a table, by the words of its first cell. */
function rowOf(text: string, name: string): string {
  return new RegExp(`<th scope="row">${name}[\\s\\S]*?</tr>`).exec(text)?.[0] ?? '';
}
