import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { CareCalendarService } from '../../../src/care-calendar/index.js';
import { PondsService } from '../../../src/ponds/index.js';
import { aPond } from '../../support/typed-pond.js';
import type { Visitor } from '../../support/visitor.js';
import { type WebApp, webApp } from '../../support/web-app.js';
import { aTypedForm } from './typed-form.js';

describe('the office over HTTP', () => {
  let app: WebApp;
  let companyId: string;
  let office: Visitor;
  beforeAll(async () => {
    app = await webApp();
  });
  afterAll(() => app.close());
  beforeEach(async () => {
    companyId = (await app.company()).id;
    office = await app.signedIn(companyId);
  });

  const newPond = () => app.get(PondsService).create(companyId, aPond());
  const record = (id: string) => app.get(PondsService).get(companyId, id);

  it('takes a pond from the empty list to its page with wheel, calendar and reasons', async () => {
    expect((await office.get('/ponds')).text).toContain('No pond yet.');
    const saved = await office.post('/ponds/new', aTypedForm());
    expect(saved.status).toBe(303);

    const page = await office.get(saved.location);
    expect(page.text).toContain('<h1>Castellanos pond</h1>');
    expect(page.text).toContain('Year wheel of Castellanos pond');
    expect(page.text).toContain('Care calendar');
    expect(page.text).toContain('Worked out by');
    expect(page.text).toContain('Why is there no');
    expect(page.text).not.toMatch(/NaN|undefined|\[object/);
    expect((await office.get('/ponds')).text).toContain('One pond in care.');
  });

  it('keeps everything typed when a field cannot be used, and saves nothing', async () => {
    const answer = await office.post('/ponds/new', aTypedForm({ maxDepth: '420' }));
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('Did you mean 42?');
    expect(answer.text).toContain('aria-invalid="true"');
    for (const kept of ['Castellanos pond', '207 Tamarack Rise', 'ana@example.com', '3,200'])
      expect(answer.text).toContain(kept);
    expect((await office.get('/ponds')).text).toContain('No pond yet.');
  });

  it('makes one pond of a form that is sent twice', async () => {
    const id = /name="id" value="([0-9a-f-]{36})"/.exec((await office.get('/ponds/new')).text)?.[1] as string;
    await office.post('/ponds/new', aTypedForm({ id }));
    await office.post('/ponds/new', aTypedForm({ id }));
    expect((await office.get('/ponds')).text).toContain('One pond in care.');
  });

  it('previews the year without script and without saving, and adds an empty row', async () => {
    const preview = await office.post('/ponds/new', aTypedForm({ preview: 'yes' }));
    expect(preview.status).toBe(200);
    expect(preview.text).toContain('Preview. Nothing is stored yet.');
    expect(preview.text).toContain('Year wheel of Castellanos pond');
    const more = await office.post(
      '/ponds/new',
      aTypedForm({ id: '0190a000-0000-7000-8000-000000000000', more: 'equipment' }),
    );
    expect(more.text).toContain('name="equipment.2.kind"');
    expect(more.text).not.toContain('name="equipment.3.kind"');
    expect((await office.get('/ponds')).text).toContain('No pond yet.');
  });

  it('answers a form that is still being typed with its conclusions', async () => {
    const answer = await office.post('/ponds/preview', aTypedForm({ name: '', 'equipment.0.flow': '1,200' }));
    const { said, year } = JSON.parse(answer.text) as { said: Record<string, string>; year: string };
    expect(said.shape).toMatch(/[\d,]+ gal/);
    expect(said.machinery).toContain('A second circuit of at least');
    expect(said.where).toMatch(/Madison/);
    expect(year).toContain('Not enough is known yet.');
  });

  it('shows both versions when somebody else saved first, and saves mine knowingly', async () => {
    const id = await newPond();
    const form = fieldsOf((await office.get(`/ponds/${id}/edit`)).text);
    await office.post(`/ponds/${id}/edit`, { ...form, gateCode: '4711' });

    const conflict = await office.post(`/ponds/${id}/edit`, { ...form, gateCode: '1000' });
    expect(conflict.status).toBe(409);
    expect(conflict.text).toContain('Somebody else saved this pond while you typed');
    expect(conflict.text).toMatch(/Gate code<\/th>\s*<td>1000<\/td>\s*<td>4711<\/td>/);
    expect((await record(id)).pond.gateCode).toBe('4711');

    const again = await office.post(`/ponds/${id}/edit`, fieldsOf(conflict.text));
    expect(again.status).toBe(303);
    expect((await record(id)).pond.gateCode).toBe('1000');
  });

  it('moves no stored figure when a form is saved untouched', async () => {
    const id = await newPond();
    const before = await record(id);
    await office.post(`/ponds/${id}/edit`, fieldsOf((await office.get(`/ponds/${id}/edit`)).text));
    const after = await record(id);
    const figures = ({ pond }: typeof before) => [
      pond.volumeL,
      pond.surfaceAreaM2,
      pond.maxDepthM,
      pond.elevationM,
      pond.latitude,
    ];
    expect(figures(after)).toEqual(figures(before));
    expect(after.equipment.map(({ rated }) => rated)).toEqual(before.equipment.map(({ rated }) => rated));
    expect(after.contacts).toHaveLength(before.contacts.length);
    expect(after.pond.version).toBe(before.pond.version + 1);
  });

  it('keeps a reading in stored units and judges it with its limit', async () => {
    const id = await newPond();
    await office.post(`/ponds/${id}/readings`, {
      quantity: 'water-temperature',
      value: '59',
      takenAt: '2026-10-05T08:30',
    });
    await office.post(`/ponds/${id}/readings`, { quantity: 'nitrite', value: '0.4', takenAt: '2026-10-05T08:35' });
    const { text } = await office.get(`/ponds/${id}`);
    expect(text).toContain('needs action: above 0.3 mg/L N');
    expect(text).toContain('59 °F');

    const refused = await office.post(`/ponds/${id}/readings`, {
      quantity: 'ph',
      value: '71',
      takenAt: '2026-10-05T08:30',
    });
    expect(refused.status).toBe(422);
    expect(refused.text).toContain('did you mean 7.1?');
    expect(refused.text).toContain('value="71"');
  });

  it('marks a task done, takes it back, holds a day and releases it', async () => {
    const id = await newPond();
    const calendar = app.get(CareCalendarService);
    const task = (await calendar.tasksOf(companyId, id)).find((view) => !view.task.routineLine);
    const address = `/ponds/${id}/tasks/${task?.task.id}`;

    const held = await office.post(`${address}/hold`, { on: '2026-10-20' });
    expect(held.location).toBe(`/ponds/${id}?did=held&task=${task?.task.id}#calendar`);
    expect((await office.get(`/ponds/${id}`)).text).toContain('Release the day');
    await office.post(`${address}/release`);
    expect((await office.get(`/ponds/${id}`)).text).not.toContain('Release the day');

    const done = await office.post(`${address}/completion`, { on: '2026-10-04', because: 'done' });
    const page = await office.get(done.location);
    expect(page.text).toContain(`action="${address}/reopening"`);
    expect((await calendar.task(companyId, task?.task.id as string)).task.state).toBe('COMPLETED');
    await office.post(`${address}/reopening`);
    expect((await calendar.task(companyId, task?.task.id as string)).task.state).toBe('NEEDS-ACTION');

    await office.post(`${address}/cancellation`, { because: 'not-applicable' });
    expect((await calendar.task(companyId, task?.task.id as string)).task).toMatchObject({
      state: 'CANCELLED',
      finishedBecause: 'not-applicable',
    });
  });

  it('archives and restores, and ends the contacts of a sold house', async () => {
    const id = await newPond();
    await office.post(`/ponds/${id}/archiving`);
    expect((await office.get(`/ponds/${id}`)).text).toContain('Archived: nothing is planned');
    expect((await office.get('/ponds')).text).toContain('No pond yet.');
    await office.post(`/ponds/${id}/restoring`);
    await office.post(`/ponds/${id}/sale`, { on: '2026-10-01' });
    const { text } = await office.get(`/ponds/${id}`);
    expect(text).toContain('The house was sold');
    expect((await record(id)).contacts.every(({ endedOn }) => endedOn !== null)).toBe(true);
  });

  it('imports its own sample, reports faults line by line, and exports what it has', async () => {
    const sample = await office.get('/ponds/import/sample.csv');
    const done = await office.upload('/ponds/import', { name: 'ponds.csv', text: sample.text });
    expect(done.status).toBe(303);
    expect((await office.get(done.location)).text).toContain('Imported: one pond added');

    const bad = await office.upload('/ponds/import', {
      name: 'bad.csv',
      text: sample.text.replace('A-101', 'A-102').replace('43.07', '143.07'),
    });
    const report = (await office.get(bad.location)).text;
    expect(report).toContain('Nothing was imported.');
    expect(report).toMatch(/<code>latitude<\/code>/);
    expect((await office.get('/ponds')).text).toContain('One pond in care.');
    expect((await office.get('/ponds/export.csv')).text).toContain('Sample pond');
  });

  it('refuses an upload without the form token and one that is no text', async () => {
    const body = new FormData();
    body.set('file', new Blob([new Uint8Array([0xff, 0xfe, 0x00, 0x61])]), 'x.csv');
    const headers = { cookie: `tarnkeep_session=${office.session}` };
    expect((await fetch(`${app.url}/ponds/import`, { method: 'POST', body, headers })).status).toBe(403);
    const binary = await office.upload('/ponds/import', { name: 'x.csv', text: '' });
    expect([303, 422]).toContain(binary.status);
  });

  it('knows nothing of another company’s ponds', async () => {
    const id = await newPond();
    const stranger = await app.signedIn((await app.company('Another')).id);
    for (const path of [`/ponds/${id}`, `/ponds/${id}/edit`]) expect((await stranger.get(path)).status).toBe(404);
    expect((await stranger.post(`/ponds/${id}/archiving`)).status).toBe(404);
    expect((await record(id)).pond.state).toBe('active');
  });

  it('sends a technician to the round and keeps them out of the office', async () => {
    const technician = await app.signedIn(companyId, 'technician');
    expect((await technician.get('/')).location).toBe('/my-round');
    for (const path of ['/ponds', '/settings', '/ponds/new']) expect((await technician.get(path)).status).toBe(403);
  });

  it('pages through many ponds, searches and sorts', async () => {
    for (let i = 1; i <= 53; i++)
      await app
        .get(PondsService)
        .create(companyId, aPond({ name: `Pond ${String(i).padStart(2, '0')}`, town: i === 7 ? 'Verona' : 'Madison' }));
    const first = (await office.get('/ponds')).text;
    expect(first).toContain('53 ponds in care. Shown: 1 to 50.');
    expect(first).toContain('Page 1 of 2');
    expect((await office.get('/ponds?page=2')).text).toContain('Pond 53');
    expect((await office.get('/ponds?search=verona')).text).toContain('One pond in care, matching “verona”.');
    const sorted = (await office.get('/ponds?sort=name&direction=DESC')).text;
    expect(sorted.indexOf('Pond 53')).toBeLessThan(sorted.indexOf('Pond 04'));
    expect(sorted).toContain('aria-sort="descending"');
    expect((await office.get('/ponds?page=nonsense&sort=drop')).status).toBe(200);
  }, 60_000);

  it('sends no page without a policy that forbids foreign and inline script', async () => {
    const { headers, text } = await office.get('/ponds/new');
    expect(headers.get('content-security-policy')).toMatch(/script-src 'self';style-src 'self'/);
    expect(text).not.toMatch(/ style="|<script>|onclick=/);
  });

  it('saves the company and says what cannot be used', async () => {
    const company = fieldsOf(
      /<form[^>]*action="\/settings\/company.*?<\/form>/s.exec((await office.get('/settings')).text)?.[0] ?? '',
    );
    expect((await office.post('/settings/company', { ...company, phone: '555-0199' })).location).toBe(
      '/settings?did=company#company',
    );
    expect((await office.get('/settings')).text).toContain('value="555-0199"');
    const refused = await office.post('/settings/company', { ...company, timeZone: 'Nowhere' });
    expect(refused.status).toBe(422);
    expect(refused.text).toContain('value="Nowhere"');
  });

  it('adds people, and lets the office neither make nor end an account owner', async () => {
    const person = {
      name: 'Dana Ruiz',
      email: `dana-${companyId}@example.com`,
      phone: '',
      role: 'technician',
      password: 'three-wet-herons',
    };
    expect((await office.post('/settings/people', person)).location).toBe('/settings?did=added#people');
    expect(
      (await office.post('/settings/people', { ...person, email: `x-${companyId}@example.com`, role: 'owner' })).status,
    ).toBe(403);
    const owner = await app.signedIn(companyId, 'owner', 'Olga Owner');
    const ownersRow = /people\/([0-9a-f-]{36})\/ending/;
    const page = (await owner.get('/settings')).text;
    expect(page).toMatch(ownersRow);
    expect((await office.get('/settings')).text).not.toContain('End membership of Olga Owner');
  });
});

/** The fields of a page's form as a browser would send them back. */
function fieldsOf(html: string): Record<string, string> {
  const fields: Record<string, string> = {};
  const unescaped = (text: string) =>
    text
      .replaceAll('&#34;', '"')
      .replaceAll('&#39;', "'")
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&amp;', '&');
  for (const [tag] of html.matchAll(/<input [^>]*>/g)) {
    const at = (name: string) => new RegExp(` ${name}="([^"]*)"`).exec(tag)?.[1];
    const name = at('name');
    const isBox = at('type') === 'radio' || at('type') === 'checkbox';
    if (!name || name === '_token' || (isBox && !/ checked/.test(tag))) continue;
    const value = unescaped(at('value') ?? '');
    fields[name] = isBox && fields[name] !== undefined ? `${fields[name]},${value}` : value;
  }
  for (const [, name = '', options = ''] of html.matchAll(/<select [^>]*name="([^"]+)"[^>]*>(.*?)<\/select>/gs)) {
    const chosen = /<option value="([^"]*)" selected/.exec(options) ?? /<option value="([^"]*)"/.exec(options);
    fields[name] = unescaped(chosen?.[1] ?? '');
  }
  for (const [, name = '', value = ''] of html.matchAll(/<textarea [^>]*name="([^"]+)"[^>]*>(.*?)<\/textarea>/gs))
    fields[name] = unescaped(value);
  return fields;
}
