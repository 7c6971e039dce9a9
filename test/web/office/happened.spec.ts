import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { CareCalendarService } from '../../../src/care-calendar/index.js';
import { PondEventsService, PondsService } from '../../../src/ponds/index.js';
import { aPond } from '../../support/typed-pond.js';
import type { Visitor } from '../../support/visitor.js';
import { type WebApp, webApp } from '../../support/web-app.js';

describe('something happened at a pond', () => {
  let app: WebApp;
  let companyId: string;
  let office: Visitor;
  let pondId: string;
  beforeAll(async () => {
    app = await webApp();
  });
  afterAll(() => app.close());
  beforeEach(async () => {
    companyId = (await app.company()).id;
    office = await app.signedIn(companyId);
    pondId = await app.get(PondsService).create(companyId, aPond());
  });

  const page = () => `/ponds/${pondId}/happened`;
  const events = () => app.get(PondEventsService).list(companyId, pondId);
  const ruleIds = async () =>
    (await app.get(CareCalendarService).tasksOf(companyId, pondId)).map(({ task }) => task.ruleId);
  const today = async () =>
    /name="on"[^>]*value="([^"]+)"/.exec((await office.get(`${page()}?kind=fish-added`)).text)![1]!;

  it('asks what it was, and puts the cautions of that before the form', async () => {
    expect((await office.get(page())).text).toContain('An algaecide was asked for');
    const { text } = await office.get(`${page()}?kind=power-failure`);
    const caution = text.indexOf('Switch off and unplug before hands go into the water.');
    expect(caution).toBeGreaterThan(0);
    expect(caution).toBeLessThan(text.indexOf('name="note"'));
    expect(text).toContain('Bring air to the fish while the pumps stand still');
  });

  it('replans at once, shows it in the history, and takes it back', async () => {
    expect(await ruleIds()).not.toContain('power-failure');
    const kept = await office.post(page(), { kind: 'power-failure', on: await today(), note: 'From 2 to 5 <am>' });
    expect(kept.status).toBe(303);
    expect(await ruleIds()).toContain('power-failure');

    const [event] = await events();
    const shown = (await office.get(kept.location)).text;
    expect(shown).toContain('From 2 to 5 &lt;am>');
    expect(shown).toContain(`${page()}/${event!.id}/taking-back`);

    await office.post(`${page()}/${event!.id}/taking-back`, {});
    expect(await events()).toEqual([]);
    expect(await ruleIds()).not.toContain('power-failure');
  });

  it('keeps one event of a form that is sent twice', async () => {
    const id = '0190a000-0000-7000-8000-0000000000aa';
    const form = { id, kind: 'algaecide-asked', on: await today(), note: '' };
    await office.post(page(), form);
    await office.post(page(), form);
    expect(await events()).toHaveLength(1);
  });

  it('refuses a day that has not come, is long past or is none, and keeps what was typed', async () => {
    for (const on of ['2199-01-01', '1999-01-01', 'soon']) {
      const answer = await office.post(page(), { kind: 'fish-added', on, note: 'Six koi' });
      expect(answer.status).toBe(422);
      expect(answer.text).toContain('Six koi');
      expect(answer.text).toContain('aria-invalid="true"');
    }
    expect(await events()).toEqual([]);
  });

  it('is closed to other companies', async () => {
    const stranger = await app.signedIn((await app.company()).id);
    expect((await stranger.get(`${page()}?kind=fish-added`)).status).toBe(404);
    expect((await stranger.post(page(), { kind: 'fish-added', on: '2026-01-01', note: '' })).status).toBe(404);
  });
});
