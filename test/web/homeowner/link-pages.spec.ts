import { createHash } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { CareTaskEntity } from '../../../src/care-calendar/index.js';
import { PondContactEntity, PondEntity, ReadingEntity } from '../../../src/ponds/index.js';
import { linksIn, POND_ID, type ReminderStack, reminderStack } from '../../reminders/reminder-stack.js';

const BROWSER = { accept: 'text/html' };
const FORM = { ...BROWSER, 'content-type': 'application/x-www-form-urlencoded' };

describe('pages behind links', () => {
  let stack: ReminderStack;
  let origin: string;
  let text: string;
  beforeEach(async () => {
    stack = await reminderStack();
    await stack.app.listen(0, '127.0.0.1');
    origin = `http://127.0.0.1:${(stack.app.getHttpServer().address() as AddressInfo).port}`;
    await stack.homeownersPond();
    await stack.sweep.run();
    text = (await stack.mails())[0]!.plainText;
  });
  afterEach(() => stack.close());

  const path = (purpose: string) => linksIn(text, purpose)[0]!;
  const get = (to: string, method = 'GET') => fetch(origin + to, { method, headers: BROWSER, redirect: 'manual' });
  const post = (to: string, fields: Record<string, string> = {}, headers: Record<string, string> = FORM) =>
    fetch(origin + to, { method: 'POST', headers, body: new URLSearchParams(fields).toString(), redirect: 'manual' });
  const follow = async (response: Response) => (await get(response.headers.get('location')!)).text();
  const net = async () => (await stack.tasks()).find(({ ruleId }) => ruleId === 'leaf-net-on')!;
  /** Everything a homeowner could change, as one figure. */
  async function fingerprint() {
    const store = stack.database.company(stack.companyId);
    const rows = [
      await store.find(CareTaskEntity, { order: { id: 'ASC' } }),
      await store.find(PondContactEntity, { order: { id: 'ASC' } }),
      await store.find(ReadingEntity, { order: { id: 'ASC' } }),
      await stack.mails(),
    ];
    return createHash('sha256').update(JSON.stringify(rows)).digest('hex');
  }

  it('change nothing when they are opened, looked up, or fetched ahead by a scanner', async () => {
    const before = await fingerprint();
    for (const purpose of ['task-done', 'task-not-now', 'my-pond', 'stop-mail']) {
      for (const method of ['GET', 'HEAD', 'OPTIONS', 'GET', 'HEAD']) {
        const response = await get(path(purpose), method);
        if (method !== 'OPTIONS') expect(response.status).toBe(200);
      }
    }
    expect(await fingerprint()).toBe(before);
  });

  it('are told to nobody: no referrer, no store, no index, no cookie', async () => {
    for (const purpose of ['task-done', 'my-pond', 'stop-mail']) {
      const { headers } = await get(path(purpose));
      expect(headers.get('referrer-policy')).toBe('no-referrer');
      expect(headers.get('cache-control')).toBe('no-store');
      expect(headers.get('x-robots-tag')).toBe('noindex');
      expect(headers.get('set-cookie')).toBeNull();
    }
  });

  it('answer a bent, cut, unknown or foreign token with one and the same 404 that offers a fresh link by mail', async () => {
    const done = path('task-done');
    const token = done.split('/').at(-1)!;
    const flipped = (at: number) => token.slice(0, at) + (token[at] === 'A' ? 'B' : 'A') + token.slice(at + 1);
    const bent = [
      ...[0, 10, 21, 42].map((at) => `/l/task-done/${flipped(at)}`),
      `/l/task-done/${token.slice(0, -1)}`,
      `/l/task-done/${'A'.repeat(43)}`,
      `/l/task-done/${token}A`,
      `/l/task-not-now/${token}`,
      `/l/stop-mail/${token}`,
      `/l/my-pond/${token}`,
      `/l/visit-report/${token}`,
      `/l/task-done/${encodeURIComponent("' OR 1=1 --")}`,
    ];
    const bodies = new Set<string>();
    for (const to of bent) {
      const response = await get(to);
      expect(response.status).toBe(404);
      expect(response.headers.get('cache-control')).toBe('no-store');
      bodies.add(await response.text());
    }
    expect(bodies.size).toBe(1);
    expect([...bodies][0]).toContain('Send me a fresh link');
  });

  it('refuse a wrong purpose by post as well', async () => {
    const before = await fingerprint();
    const token = path('my-pond').split('/').at(-1)!;
    for (const purpose of ['task-done', 'stop-mail']) expect((await post(`/l/${purpose}/${token}`)).status).toBe(404);
    expect(await fingerprint()).toBe(before);
  });

  it('end with the link, and with the house', async () => {
    stack.clock.set('2026-12-24T13:00:00.000Z');
    expect((await get(path('task-done'))).status).toBe(404);
    expect((await get(path('stop-mail'))).status).toBe(200);
    await stack.ponds.sell(stack.companyId, POND_ID, '2026-12-24');
    for (const purpose of ['my-pond', 'stop-mail']) expect((await get(path(purpose))).status).toBe(404);
  });

  describe('done', () => {
    it('asks first, notes by post, and says so however often it is pressed', async () => {
      expect(await (await get(path('task-done'))).text()).toContain('Yes, it is done');
      const first = await post(path('task-done'));
      expect(first.status).toBe(303);
      expect(await net()).toMatchObject({ state: 'COMPLETED', finishedOn: '2026-09-26', finishedBecause: 'done' });
      const page = await follow(first);
      expect(page).toContain('You marked this done on Saturday 26 September.');

      stack.clock.advance({ hours: 3 });
      const before = await fingerprint();
      expect(await follow(await post(path('task-done')))).toContain('You marked this done on Saturday 26 September.');
      expect(await fingerprint()).toBe(before);
    });

    it('can be taken back on the same day, not on a later one', async () => {
      await post(path('task-done'));
      const page = await follow(await post(`${path('task-done')}/undo`));
      expect(page).toContain('Yes, it is done');
      expect((await net()).state).toBe('NEEDS-ACTION');

      await post(path('task-done'));
      stack.clock.advance({ days: 1 });
      expect(await (await get(path('task-done'))).text()).not.toContain('Take it back');
      expect((await post(`${path('task-done')}/undo`)).status).toBe(422);
      expect((await net()).state).toBe('COMPLETED');
    });

    it('works for somebody who is signed in as well', async () => {
      const response = await post(path('task-done'), {}, { ...FORM, origin: 'null', 'sec-fetch-site': 'cross-site' });
      expect(response.status).toBe(303);
    });
  });

  describe('not now', () => {
    it('offers days inside the window only', async () => {
      const page = await (await get(path('task-not-now'))).text();
      const days = [...page.matchAll(/name="until" value="([\d-]+)"/g)].map((match) => match[1]);
      expect(days).toEqual(['2026-09-29']);
      const response = await post(path('task-not-now'), { until: '2026-09-29' });
      expect(await follow(response)).toContain('We ask again on Tuesday 29 September.');
      expect(await net()).toMatchObject({ putOffUntil: '2026-09-29', state: 'NEEDS-ACTION' });
    });

    it.each(['2026-09-30', '2026-09-26', '2026-09-01'])('refuses %s with a sentence', async (until) => {
      const response = await post(path('task-not-now'), { until });
      expect(response.status).toBe(422);
      expect(await response.text()).toContain('Choose a day after today and not after 2026-09-29');
      expect((await net()).putOffUntil).toBeNull();
    });
  });

  describe('stop mail', () => {
    const stopped = async () =>
      (await stack.database.company(stack.companyId).find(PondContactEntity)).every(
        (one) => one.mailStoppedAt !== null,
      );

    // RFC 8058 section 3.1: no cookies, no redirect.
    it('takes the one-click post of a mail program, urlencoded', async () => {
      const response = await post(
        path('stop-mail'),
        { 'List-Unsubscribe': 'One-Click' },
        { 'content-type': FORM['content-type'] },
      );
      expect(response.status).toBe(200);
      expect(response.headers.get('location')).toBeNull();
      expect(response.headers.get('set-cookie')).toBeNull();
      expect(await stopped()).toBe(true);
      expect((await post(path('stop-mail'), { 'List-Unsubscribe': 'One-Click' })).status).toBe(200);
    });

    it('takes it as multipart too, and ends digests at once', async () => {
      const body = new FormData();
      body.set('List-Unsubscribe', 'One-Click');
      const response = await fetch(origin + path('stop-mail'), { method: 'POST', body, redirect: 'manual' });
      expect(response.status).toBe(200);
      expect(await stopped()).toBe(true);
      stack.clock.set('2026-10-03T13:00:00.000Z');
      expect(await stack.sweep.run()).toMatchObject({ digests: 0, toCall: 1 });
    });

    it('has a page with a button, and a way back', async () => {
      expect(await (await get(path('stop-mail'))).text()).toContain('Stop all mail?');
      expect(await stopped()).toBe(false);
      expect(await (await post(path('stop-mail'))).text()).toContain('Mail is stopped');
      expect(await (await get(path('stop-mail'))).text()).toContain('Send me mail again');
      expect((await post(`${path('stop-mail')}/undo`)).status).toBe(303);
      expect(await stopped()).toBe(false);
      stack.clock.set('2026-10-03T13:00:00.000Z');
      expect(await stack.sweep.run()).toMatchObject({ digests: 1 });
    });
  });

  describe('my pond', () => {
    it('shows tasks, the year and readings, and never gate code, street or other people', async () => {
      await stack.database.unitOfWork('secrets', () =>
        stack.database
          .company(stack.companyId)
          .update(PondEntity, { id: POND_ID }, { gateCode: '4711#', accessNotes: 'key under the pot' }),
      );
      const page = await (await get(path('my-pond'))).text();
      expect(page).toContain('Put the leaf net on');
      expect(page).toContain('The year in words');
      expect(page).toContain('Log a temperature');
      for (const secret of ['4711#', 'key under the pot', '4 Elm Street', 'solveig@example.com']) {
        expect(page).not.toContain(secret);
      }
      expect(page).toContain('Sedge &amp; Kettle &lt;b>');
    });

    it('marks done, takes it back, and puts off', async () => {
      const { id } = await net();
      const done = await post(`${path('my-pond')}/tasks/${id}/done`);
      const page = await follow(done);
      expect(page).toContain('Noted as done.');
      expect(page).toContain(`/tasks/${id}/undo`);
      expect(await follow(await post(`${path('my-pond')}/tasks/${id}/undo`))).toContain('Taken back');
      await post(`${path('my-pond')}/tasks/${id}/not-now`, { until: '2026-09-29' });
      expect(await net()).toMatchObject({ state: 'NEEDS-ACTION', putOffUntil: '2026-09-29' });
    });

    it('keeps a temperature typed in Fahrenheit, and refuses one that cannot be, with what was typed', async () => {
      const readings = () => stack.database.company(stack.companyId).find(ReadingEntity);
      const to = `${path('my-pond')}/ponds/${POND_ID}/temperature`;
      expect((await post(to, { temperature: '59,0' })).status).toBe(303);
      expect(await readings()).toMatchObject([{ quantity: 'water-temperature', value: 15 }]);
      const refused = await post(to, { temperature: '15' });
      expect(refused.status).toBe(422);
      const page = await refused.text();
      expect(page).toContain('value="15"');
      expect(page).toContain('Was it °C?');
      expect((await post(to, { temperature: '<b>warm' })).status).toBe(422);
      expect(await readings()).toHaveLength(1);
    });

    it('changes day, hour and units of the mail', async () => {
      const response = await post(`${path('my-pond')}/wishes`, { weekday: '2', hour: '19', units: 'metric' });
      expect(response.status).toBe(303);
      const [contact] = await stack.database.company(stack.companyId).find(PondContactEntity);
      expect(contact).toMatchObject({ digestWeekday: 2, digestHour: 19, units: 'metric' });
      expect(await follow(response)).toContain('Tuesdays at 19:00');
      expect((await post(`${path('my-pond')}/wishes`, { weekday: '9', hour: '19', units: 'metric' })).status).toBe(422);
    });

    it('keeps quiet weeks, says them, and refuses half of them with what was typed', async () => {
      const wishes = { weekday: '6', hour: '8', units: 'us' };
      const kept = { ...wishes, quietFrom: '2026-10-05', quietUntil: '2026-10-19' };
      const said = await follow(await post(`${path('my-pond')}/wishes`, kept));
      expect(said).toContain('None from Monday 5 October to Monday 19 October.');
      expect(said).toContain('value="2026-10-05"');
      const half = await post(`${path('my-pond')}/wishes`, { ...wishes, quietFrom: '2026-10-05', quietUntil: '' });
      expect(half.status).toBe(422);
      expect(await half.text()).toContain('Choose the first and the last day, or leave both empty.');
      await post(`${path('my-pond')}/wishes`, wishes);
      const [contact] = await stack.database.company(stack.companyId).find(PondContactEntity);
      expect(contact).toMatchObject({ quietFrom: null, quietUntil: null });
    });

    it('reaches no task, pond or visit that is not theirs', async () => {
      const other = await stack.homeownersPond(
        { name: 'Per Dahl', email: 'per@example.com' },
        { id: '0199b3c4-0000-7000-8000-000000000002' },
      );
      const theirs = (await stack.tasks()).find(({ pondId }) => pondId === other)!;
      const before = await fingerprint();
      for (const to of [`tasks/${theirs.id}/done`, `tasks/${theirs.id}/undo`, `ponds/${other}/temperature`]) {
        expect((await post(`${path('my-pond')}/${to}`, { temperature: '59' })).status).toBe(404);
      }
      expect((await get(`${path('my-pond')}/tasks/${theirs.id}/not-now`)).status).toBe(404);
      expect((await get(`${path('my-pond')}/visits/${theirs.id}`)).status).toBe(404);
      expect(await fingerprint()).toBe(before);
    });
  });

  describe('a fresh link', () => {
    it('goes by mail to the address on file, at most once an hour, and the page tells nothing apart', async () => {
      const known = await post('/l/fresh-link', { email: 'Solveig@Example.com ' });
      const stranger = await post('/l/fresh-link', { email: 'nobody@example.com' });
      expect([known.status, stranger.status]).toEqual([200, 200]);
      expect(await known.text()).toBe(await stranger.text());
      await post('/l/fresh-link', { email: 'solveig@example.com' });
      const mails = (await stack.mails()).filter(({ kind }) => kind === 'account');
      expect(mails.map(({ toAddress }) => toAddress)).toEqual(['solveig@example.com']);
      expect((await get(linksIn(mails[0]!.plainText, 'my-pond')[0]!)).status).toBe(200);
    });
  });
});
