import { createHash } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { HomeownerWordEntity, HomeownerWords } from '../../src/reminders/index.js';
import { linksIn, type ReminderStack, reminderStack } from './reminder-stack.js';

const BY_DAY = '2026-10-05T15:00:00.000Z';
const AT_NIGHT = '2026-10-06T03:30:00.000Z';

describe('notices of visits', () => {
  let stack: ReminderStack;
  let pondId: string;
  let origin: string;
  let technicianId: string;
  beforeEach(async () => {
    stack = await reminderStack({ at: BY_DAY });
    await stack.app.listen(0, '127.0.0.1');
    origin = `http://127.0.0.1:${(stack.app.getHttpServer().address() as AddressInfo).port}`;
    pondId = await stack.homeownersPond();
    const { companyId } = stack;
    const member = await stack.people.addMember({
      companyId,
      role: 'technician',
      name: 'Dana Ruiz',
      email: 'dana@example.com',
    });
    technicianId = member.personId;
  });
  afterEach(() => stack.close());

  const notices = async () => (await stack.mails()).filter(({ kind }) => kind === 'visit-notice');
  const words = () =>
    stack.database.company(stack.companyId).find(HomeownerWordEntity, { order: { saidAt: 'ASC', id: 'ASC' } });
  const times = { plannedOn: '2026-10-12', fromTime: '08:00', toTime: '10:00' };
  async function published() {
    const { visit } = await stack.visits.create(stack.companyId, { pondId, ...times, technicianId, taskIds: [] });
    await stack.visits.publish(stack.companyId, visit.id);
    return visit.id;
  }
  const get = (to: string, method = 'GET') =>
    fetch(origin + to, { method, headers: { accept: 'text/html' }, redirect: 'manual' });
  const post = (to: string, fields: Record<string, string>) =>
    fetch(origin + to, {
      method: 'POST',
      headers: { accept: 'text/html', 'content-type': 'application/x-www-form-urlencoded' },
      body: new URLSearchParams(fields).toString(),
      redirect: 'manual',
    });

  it('tells the day and the window of arrival when a visit is published, once', async () => {
    await published();
    const [mail, ...more] = await notices();
    expect(more).toEqual([]);
    expect(mail!.subject).toBe('Haugen pond: we come on Monday 12 October');
    expect(mail!.plainText).toContain('Dana Ruiz comes to Haugen pond on Monday 12 October, between 8 and 10.');
    expect(mail!.plainText).not.toMatch(/gate|code/i);
    expect(linksIn(mail!.html, 'visit-answer')).toEqual(linksIn(mail!.plainText, 'visit-answer'));
  });

  it('tells of another time, not of another technician at the same time', async () => {
    const visitId = await published();
    const { companyId } = stack;
    const other = await stack.people.addMember({
      companyId,
      role: 'technician',
      name: 'Ola Berg',
      email: 'ola@example.com',
    });
    await stack.visits.assign(companyId, visitId, other.personId);
    await stack.visits.move(companyId, visitId, times);
    expect(await notices()).toHaveLength(1);
    await stack.visits.move(companyId, visitId, { ...times, plannedOn: '2026-10-13' });
    expect((await notices()).map(({ subject }) => subject)).toContain(
      'Haugen pond: the visit is now on Tuesday 13 October',
    );
    expect(await notices()).toHaveLength(2);
  });

  it('tells that a visit falls out only to those who had been told of it', async () => {
    const { companyId } = stack;
    const { visit } = await stack.visits.create(companyId, { pondId, ...times, technicianId, taskIds: [] });
    await stack.visits.cancel(companyId, visit.id, 'double entry');
    expect(await notices()).toEqual([]);
    await stack.visits.cancel(companyId, await published(), 'storm');
    const out = (await notices()).find(({ subject }) => subject === 'Haugen pond: no visit on Monday 12 October');
    expect(await notices()).toHaveLength(2);
    expect(linksIn(out!.plainText, 'visit-answer')).toEqual([]);
  });

  it('waits for the morning with a notice of the evening, but not with one that somebody is on the way', async () => {
    stack.clock.set(AT_NIGHT);
    const visitId = await published();
    await stack.visits.markOnTheWay(stack.companyId, visitId);
    const all = await notices();
    const coming = all.find(({ subject }) => subject.includes('on the way'));
    const told = all.find(({ subject }) => subject.includes('we come on'));
    // 8 in the morning of 6 October in Chicago.
    expect(told!.notBefore).toBe('2026-10-06T13:00:00.000Z');
    expect(coming).toMatchObject({ notBefore: AT_NIGHT, notAfter: '2026-10-06T05:30:00.000Z' });
  });

  it('takes the answer from a page that changes nothing by being opened', async () => {
    await published();
    const path = linksIn((await notices())[0]!.plainText, 'visit-answer')[0]!;
    for (const method of ['GET', 'HEAD', 'GET']) expect((await get(path, method)).status).toBe(200);
    expect(await words()).toEqual([]);
    expect(await (await get(path)).text()).toContain('Does Monday 12 October, between 8 and 10 suit you?');

    await post(path, { answer: 'suits', said: '' });
    const second = await post(path, { answer: 'does-not-suit', said: 'We are away <b>until</b> Wednesday.' });
    expect(second.status).toBe(303);
    // The later answer takes the place of the first.
    expect((await words()).map(({ kind, said }) => [kind, said])).toEqual([
      ['visit-does-not-suit', 'We are away <b>until</b> Wednesday.'],
    ]);
    expect(await (await get(second.headers.get('location')!)).text()).toContain(
      'We are away &lt;b>until&lt;/b> Wednesday.',
    );
    expect((await post(path, { answer: 'perhaps' })).status).toBe(422);
  });

  it('brings a question and the wish for a visit from the homeowner’s own page to the office', async () => {
    await stack.sweep.run({ asOf: '2026-10-10T13:00:00.000Z' });
    const digest = (await stack.mails()).find(({ kind }) => kind === 'digest')!;
    const path = linksIn(digest.plainText, 'my-pond')[0]!;
    expect((await post(`${path}/words`, { pondId, kind: 'question', said: '  ' })).status).toBe(422);
    await post(`${path}/words`, { pondId, kind: 'question', said: 'Is foam normal?' });
    await post(`${path}/words`, { pondId, kind: 'visit-wish', said: '' });
    const open = await stack.app.get(HomeownerWords, { strict: false }).open(stack.companyId);
    expect(open.map(({ word, name, pond }) => [name, pond.name, word.kind, word.said])).toEqual([
      ['Solveig Haugen', 'Haugen pond', 'question', 'Is foam normal?'],
      ['Solveig Haugen', 'Haugen pond', 'visit-wish', ''],
    ]);
    const foreign = createHash('sha1').update('x').digest('hex').slice(0, 32);
    const id = `${foreign.slice(0, 8)}-${foreign.slice(8, 12)}-7${foreign.slice(13, 16)}-8${foreign.slice(17, 20)}-${foreign.slice(20)}`;
    expect((await post(`${path}/words`, { pondId: id, kind: 'question', said: 'Whose?' })).status).toBe(404);
  });
});
