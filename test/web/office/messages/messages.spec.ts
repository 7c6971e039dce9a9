import type { IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import type { Actor } from '../../../../src/accounts/index.js';
import { MailOutboxEntity, type MailState } from '../../../../src/reminders/index.js';
import { startMailServer } from '../../../reminders/mail-server.js';
import { newMail } from '../../../reminders/outbox-bench.js';
import { linksIn, type ReminderStack, reminderStack } from '../../../reminders/reminder-stack.js';
import { actorOf } from '../../../visits/visit-stack.js';

describe('Messages', () => {
  let stack: ReminderStack;
  let origin: string;
  let actor: Actor;
  beforeEach(() => start());
  afterEach(() => stack.close());

  async function start(given: Parameters<typeof reminderStack>[0] = {}) {
    stack = await reminderStack(given);
    actor = actorOf(stack.companyId, { personId: stack.owner.id, role: 'office' });
    await stack.app.listen(0, '127.0.0.1');
    const server = stack.app.getHttpServer();
    server.prependListener('request', (request: IncomingMessage & { actor?: Actor }) => {
      request.actor = actor;
    });
    origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  }
  const open = (path: string) => fetch(origin + path, { headers: { accept: 'text/html' }, redirect: 'manual' });
  const read = async (path: string) => (await open(path)).text();
  const post = (path: string, fields: Record<string, string>) =>
    fetch(origin + path, {
      method: 'POST',
      body: new URLSearchParams(fields),
      headers: { accept: 'text/html' },
      redirect: 'manual',
    });
  async function mailIn(
    state: MailState,
    own: Parameters<typeof newMail>[0] = {},
    change: Partial<MailOutboxEntity> = {},
  ) {
    stack.clock.advance({ seconds: 1 });
    const id = (await stack.outbox.write(
      stack.companyId,
      newMail({ dedupeKey: `${state}:${Math.random()}`, ...own }),
    ))!;
    await stack.database.unitOfWork('set a state', () =>
      stack.database.company(stack.companyId).update(MailOutboxEntity, { id }, { state, ...change }),
    );
    return id;
  }

  it('says what an empty outbox means', async () => {
    const page = await read('/messages');
    expect(page).toContain('No mail has been written yet.');
    expect(page).toContain('No mail leaves from here');
  });

  it('counts by state, filters, searches and pages', async () => {
    await mailIn('sent', { toName: 'Anna 100%_real', subject: 'Anna pond: stop feeding' });
    await mailIn('bounced', {}, { lastReply: 'RCPT TO: 550 no <b>such</b> user' });
    await mailIn('in_doubt');
    for (let n = 0; n < 50; n++) await mailIn('kept', { toName: `Kept ${n}` });

    const all = await read('/messages');
    for (const words of ['all (53)', 'to look at (2)', 'sent (1)', 'kept here (50)', 'Page 1 of 2'])
      expect(all).toContain(words);
    expect(all).not.toContain('Anna pond');
    expect(await read('/messages?page=2')).toContain('Anna pond');

    const look = await read('/messages?view=look');
    expect(look).toContain('came back');
    expect(look).toContain('in doubt');
    expect(look).toContain('550 no &lt;b>such&lt;/b> user');
    expect(look).not.toContain('Kept 7');

    expect(await read('/messages?search=100%25_REAL')).toContain('Anna pond');
    expect(await read('/messages?search=1000_real')).toContain('No mail matches.');
    expect(await read('/messages?kind=urgent')).toContain('No mail matches.');
    expect((await open('/messages?view=nonsense&page=-4&kind=x')).status).toBe(200);
  });

  it('shows how many have left, and holds and lets go all mail of the company', async () => {
    await stack.close();
    const server = await startMailServer();
    await start({ smtp: { host: '127.0.0.1', port: server.port, secure: false, user: null, password: null } });
    try {
      await mailIn('sent');
      await mailIn('due');
      expect(await read('/messages')).toContain('1 of the 2 mails of the last 24 hours have left.');
      expect(await read('/messages')).toContain('Hold all mail');
      const { formToken } = actor;
      expect((await post('/messages/hold', { _token: formToken })).status).toBe(303);
      const held = await read('/messages');
      expect(held).toContain('No mail leaves: it was held by hand, since');
      expect(held).toContain('Let mail go again');
      expect(await stack.delivery.run()).toMatchObject({ sent: 0 });
      await post('/messages/release', { _token: formToken });
      expect(await stack.delivery.run()).toMatchObject({ sent: 1 });
      expect(await read('/messages')).not.toContain('No mail leaves');
      expect((await post('/messages/hold', { _token: 'made up' })).status).toBe(403);
    } finally {
      await server.close();
    }
  });

  it('previews the weekly mail of any homeowner, and writes nothing', async () => {
    await stack.homeownersPond();
    await stack.homeownersPond(
      { name: 'Per Dahl', email: 'per@example.com' },
      { id: '0199b3c4-0000-7000-8000-000000000002', name: 'Dahl pond' },
    );
    const list = await read('/messages/preview?search=haugen');
    expect(list).toContain('Solveig Haugen');
    expect(list).not.toContain('Per Dahl');
    const address = /\/messages\/preview\/[0-9a-f-]{36}/.exec(list)![0];
    const page = await read(address);
    expect(page).toContain('Haugen pond: put the leaf net on');
    expect(page).toContain('PUT THE LEAF NET ON');
    const frame = await open(`${address}/html`);
    expect(frame.headers.get('content-security-policy')).toMatch(/^default-src 'none'; .*img-src data:/);
    expect(await frame.text()).toContain('/l/task-done/not-issued');
    expect(await stack.mails()).toEqual([]);
    expect(await stack.reminders()).toEqual([]);
    expect((await open('/messages/preview/0199b3c4-0000-7000-8000-00000000ffff')).status).toBe(404);
  });

  it('shows the picture of a mail inside its frame', async () => {
    const html = '<!doctype html><html><head></head><body><img src="cid:year@pond" alt="The year"></body></html>';
    const picture = { cid: 'year@pond', fileName: 'year.png', contentType: 'image/png' as const, base64: 'aGVsbG8=' };
    const id = await mailIn('kept', { html, pictures: [picture] });
    expect(await read(`/messages/${id}/html`)).toContain('src="data:image/png;base64,aGVsbG8="');
  });

  it('shows a kept mail as its homeowner would see it, in a frame that can run, load and send nothing', async () => {
    await stack.homeownersPond();
    await stack.sweep.run();
    const { id, plainText } = (await stack.mails())[0]!;
    const page = await read(`/messages/${id}`);
    expect(page).toContain(`src="/messages/${id}/html" sandbox="allow-popups allow-popups-to-escape-sandbox"`);
    expect(page).toContain('PUT THE LEAF NET ON');
    expect(page).toContain(linksIn(plainText, 'task-done')[0]);

    const frame = await open(`/messages/${id}/html`);
    const policy = frame.headers.get('content-security-policy') ?? '';
    for (const words of [
      "default-src 'none'",
      "form-action 'none'",
      "frame-ancestors 'self'",
      'sandbox allow-popups',
    ]) {
      expect(policy).toContain(words);
    }
    expect(policy).not.toMatch(/allow-scripts|allow-same-origin|script-src/);
    expect(await frame.text()).toContain('Sedge &amp; Kettle &lt;b>');
  });

  it('does not show the links of a mail that has left', async () => {
    await stack.homeownersPond();
    await stack.sweep.run();
    const { id, plainText } = (await stack.mails())[0]!;
    await stack.database.unitOfWork('it left', () =>
      stack.database.company(stack.companyId).update(MailOutboxEntity, { id }, { state: 'sent' }),
    );
    const token = linksIn(plainText, 'task-done')[0]!.split('/').at(-1)!;
    const page = await read(`/messages/${id}`);
    expect(page).toContain('/l/task-done/not-shown');
    expect(page).toContain('sandbox=""');
    expect(page + (await read(`/messages/${id}/html`))).not.toContain(token);
  });

  it('offers nothing to send again where no mail leaves', async () => {
    const id = await mailIn('bounced');
    expect(await read(`/messages/${id}`)).not.toContain('Send this mail again');
    expect((await open(`/messages/${id}/resend`)).status).toBe(422);
    expect((await post(`/messages/${id}/resend`, { _token: actor.formToken })).status).toBe(422);
  });

  it('sends again what came back, after asking, with the form token, and once', async () => {
    await stack.close();
    const server = await startMailServer();
    try {
      await start({ smtp: { host: '127.0.0.1', port: server.port, secure: false, user: null, password: null } });
      const id = await mailIn('bounced', {}, { attempts: 1 });
      expect(await read(`/messages/${id}`)).toContain('Send this mail again');
      expect(await read(`/messages/${id}/resend`)).toContain('may get it twice');
      expect((await post(`/messages/${id}/resend`, { _token: 'wrong' })).status).toBe(403);
      expect((await stack.outbox.get(stack.companyId, id)).state).toBe('bounced');

      const answer = await post(`/messages/${id}/resend`, { _token: actor.formToken });
      expect(answer.status).toBe(303);
      expect(await read(answer.headers.get('location')!)).toContain('The mail is on its way again.');
      expect((await post(`/messages/${id}/resend`, { _token: actor.formToken })).status).toBe(422);
      await stack.delivery.run();
      expect(server.received).toHaveLength(1);
    } finally {
      await server.close();
    }
  });

  it('lists who is to be called, why, and what they are to be told', async () => {
    expect(await read('/messages/calls')).toContain('Nobody has to be called.');
    await stack.homeownersPond({ email: null });
    const page = await read('/messages/calls');
    for (const words of ['Solveig Haugen', '+1 608 555 0142', 'no email address', 'Put the leaf net on']) {
      expect(page).toContain(words);
    }
    expect(await read('/messages')).toContain('1 homeowner to call');
  });

  it('keeps out technicians, homeowners and other companies', async () => {
    const id = await mailIn('kept');
    for (const role of ['technician', 'homeowner'] as const) {
      actor = { ...actor, role };
      for (const path of ['/messages', `/messages/${id}`, `/messages/${id}/html`, '/messages/calls']) {
        expect((await open(path)).status).toBe(403);
      }
    }
    const other = await reminderStack({ database: stack.temporary });
    try {
      actor = actorOf(other.companyId, { role: 'owner' });
      for (const path of [`/messages/${id}`, `/messages/${id}/html`, `/messages/${id}/resend`]) {
        expect((await open(path)).status).toBe(404);
      }
      expect(await read('/messages')).toContain('No mail has been written yet.');
    } finally {
      await other.close();
    }
  });
});
