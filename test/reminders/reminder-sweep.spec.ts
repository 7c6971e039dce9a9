import { afterEach, describe, expect, it } from '@jest/globals';
import { DateTime } from 'luxon';
import { CareTaskEntity } from '../../src/care-calendar/index.js';
import { civilDay } from '../../src/core/units/civil-day.js';
import { newId } from '../../src/platform/ids.js';
import { AskedTasks, ReminderEntity } from '../../src/reminders/index.js';

import { startMailServer } from './mail-server.js';
import { linksIn, PUBLIC_URL, type ReminderStack, reminderStack, SATURDAY_MORNING, SOLVEIG } from './reminder-stack.js';

const SATURDAY = '2026-09-26';

describe('ReminderSweep', () => {
  let stack: ReminderStack;
  const opened: { close(): Promise<void> }[] = [];
  afterEach(async () => {
    for (const one of opened.splice(0).reverse()) await one.close();
  });
  async function open(given: Parameters<typeof reminderStack>[0] = {}) {
    stack = await reminderStack(given);
    opened.push(stack);
    return stack;
  }
  async function openWithServer(given: Parameters<typeof reminderStack>[0] = {}) {
    const server = await startMailServer();
    opened.push(server);
    const smtp = { host: '127.0.0.1', port: server.port, secure: false, user: null, password: null };
    return { server, ...(await open({ ...given, smtp })) };
  }

  it('puts one digest into the inbox: what to do, caution first, amounts, why, links', async () => {
    const { server } = await openWithServer();
    await stack.homeownersPond();
    expect(await stack.sweep.run()).toMatchObject({ digests: 1, urgent: 0, failed: 0, toCall: 0 });
    expect(await stack.delivery.run()).toMatchObject({ sent: 1 });

    const [{ parsed: mail, from, to }] = server.received as [(typeof server.received)[number]];
    expect(to).toEqual(['solveig@example.com']);
    expect(from).toBe('reminders@mail.example.com');
    expect(mail.subject).toBe('Haugen pond: put the leaf net on');
    expect(mail.from?.value[0]?.name).toBe('Sedge & Kettle <b>');
    expect(mail.replyTo?.value[0]?.address).toBe('office@lakeside.example.com');
    expect(mail.headers.get('auto-submitted')).toBe('auto-generated');
    const list = mail.headers.get('list') as unknown as Record<string, { url?: string; mail?: string; name?: string }>;
    expect(list.unsubscribe?.url).toMatch(new RegExp(`^${PUBLIC_URL}/l/stop-mail/[\\w-]{43}$`));
    expect(list['unsubscribe-post']?.name).toBe('List-Unsubscribe=One-Click');

    const text = mail.text ?? '';
    const order = [
      'One thing this week',
      'The water is about',
      'PUT THE LEAF NET ON',
      '180 sq ft for 127 sq ft',
      'CAUTION.',
      '1. Stretch',
      'Why now:',
      'Done:',
      'EVERY WEEK',
      'oz (',
      'COMING UP',
      '12 Mill Lane',
      'You get this because',
      'Stop all mail:',
    ];
    const places = order.map((words) => text.indexOf(words));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
  });

  it('says the same in both parts, with the same links, and escapes what people typed', async () => {
    await open();
    await stack.homeownersPond({}, { name: 'Pond <img src=x onerror=alert(1)> & "Co"' });
    await stack.sweep.run();
    const mail = (await stack.mails())[0]!;
    for (const purpose of ['task-done', 'task-not-now', 'my-pond', 'stop-mail']) {
      expect(linksIn(mail.html, purpose)).toHaveLength(1);
      expect(linksIn(mail.html, purpose)).toEqual(linksIn(mail.plainText, purpose));
    }
    expect(mail.html).not.toContain('<img');
    expect(mail.html).toContain('Pond &lt;img src=x');
    expect(mail.html).toContain('Sedge &amp; Kettle &lt;b>');
    expect(mail.plainText).toContain('Pond <img src=x');
    expect(mail.html).not.toMatch(/<script|<link|url\(|<img/);
  });

  it('writes reminder, mail and promised dates together, and each only once', async () => {
    await open();
    await stack.homeownersPond();
    await stack.sweep.run();
    const again = await stack.sweep.run();
    expect(again).toMatchObject({ digests: 0, nothingDue: 0 });

    const [reminder] = await stack.reminders();
    const [mail] = await stack.mails();
    expect(await stack.reminders()).toHaveLength(1);
    expect(reminder).toMatchObject({ digestOn: SATURDAY, outboxId: mail?.id });
    const tasks = (await stack.tasks()).filter(({ id }) => reminder?.taskIds.includes(id));
    // Due on the 22nd: told on the 26th as a thing of today.
    expect(tasks.map(({ ruleId, promisedOn, mailedTimes }) => ({ ruleId, promisedOn, mailedTimes }))).toEqual([
      { ruleId: 'leaf-net-on', promisedOn: SATURDAY, mailedTimes: 1 },
    ]);
  });

  it('asks twice for what nobody answers, then leaves it to the office to call', async () => {
    await open();
    await stack.homeownersPond();
    const unanswered = async () =>
      (await stack.app.get(AskedTasks, { strict: false }).unanswered(stack.companyId)).map(({ task }) => task.id);
    const seenUnanswered = new Set<string>();
    const start = DateTime.fromISO(SATURDAY_MORNING);
    for (let week = 0; week < 26; week++) {
      stack.clock.set(start.plus({ weeks: week }).toUTC().toISO()!);
      await stack.sweep.run();
      for (const id of await unanswered()) seenUnanswered.add(id);
    }
    const reminders = await stack.reminders();
    const asked = (id: string) =>
      reminders
        .filter(({ taskIds }) => taskIds.includes(id))
        .map(({ digestOn }) => digestOn)
        .sort();
    const counted = (await stack.tasks()).filter((task) => task.consequence !== 'urgent' && !task.routineLine);
    expect(counted.map(({ id }) => asked(id).length).filter((times) => times > 2)).toEqual([]);
    const twice = counted.filter(({ id }) => asked(id).length === 2);
    expect(twice.length).toBeGreaterThan(0);
    for (const { id, latestOn } of twice) {
      const second = DateTime.fromISO(asked(id)[1]!);
      expect(second.toISODate()! <= latestOn && second.plus({ weeks: 1 }).toISODate()! > latestOn).toBe(true);
    }
    expect([...seenUnanswered].sort()).toEqual(twice.map(({ id }) => id).sort());
  });

  it('takes "not now" for an answer: what was put off is asked for anew', async () => {
    await open();
    await stack.homeownersPond();
    const counts = async (id: string, today: string) =>
      (await stack.app.get(AskedTasks, { strict: false }).timesByTask(stack.companyId, personId, civilDay(today)))({
        taskId: id,
        putOffUntil: await putOffUntil(id),
      });
    const putOffUntil = async (id: string) => {
      const found = (await stack.tasks()).find((task) => task.id === id)!.putOffUntil;
      return found === null ? null : civilDay(found);
    };
    await stack.sweep.run();
    const { taskIds, personId } = (await stack.reminders())[0]!;
    const id = taskIds[0]!;
    expect(await counts(id, '2026-09-28')).toBe(1);
    const { latestOn } = (await stack.tasks()).find((task) => task.id === id)!;
    await stack.calendar.putOff(stack.companyId, id, latestOn);
    expect(await counts(id, '2026-09-28')).toBe(0);
  });

  it('writes one digest when two sweeps run at once', async () => {
    await open();
    await stack.homeownersPond();
    const other = await reminderStack({ database: stack.temporary });
    opened.push(other);
    const outcomes = await Promise.all([stack.sweep.run(), other.sweep.run(), stack.sweep.run()]);
    expect(outcomes.reduce((sum, one) => sum + one.digests, 0)).toBe(1);
    expect(outcomes.every((one) => one.failed === 0)).toBe(true);
    expect(await stack.mails()).toHaveLength(1);
  });

  it('leaves nothing behind when the mail cannot be written, shows the fault, and goes on with the others', async () => {
    await open();
    await stack.homeownersPond();
    await stack.homeownersPond(
      { name: 'Per Dahl', email: 'per@example.com' },
      { id: '0199b3c4-0000-7000-8000-000000000002', name: 'Dahl pond' },
    );
    const broken = (await stack.tasks()).filter(
      ({ ruleId, pondId }) => ruleId === 'leaf-net-on' && pondId.endsWith('1'),
    );
    await stack.database.unitOfWork('break a task', () =>
      stack.database
        .company(stack.companyId)
        .update(CareTaskEntity, { id: broken[0]!.id }, { planned: { ...broken[0]!.planned, reason: null } as never }),
    );
    expect(await stack.sweep.run()).toMatchObject({ digests: 1, failed: 1 });
    const mails = await stack.mails();
    expect(mails.map(({ toName, state }) => `${toName} ${state}`).sort()).toEqual([
      'Per Dahl kept',
      'Solveig Haugen dead',
    ]);
    expect(await stack.reminders()).toHaveLength(1);
    expect(await stack.sweep.run()).toMatchObject({ digests: 0, failed: 1 });
    expect(await stack.mails()).toHaveLength(2);

    await stack.database.unitOfWork('mend it', () =>
      stack.database
        .company(stack.companyId)
        .update(CareTaskEntity, { id: broken[0]!.id }, { planned: broken[0]!.planned as never }),
    );
    expect(await stack.sweep.run()).toMatchObject({ digests: 1, failed: 0 });
    expect((await stack.mails()).map(({ state }) => state)).toEqual(['kept', 'kept']);
  });

  it('tells a person of several ponds in one mail', async () => {
    await open();
    await stack.homeownersPond();
    await stack.homeownersPond({}, { id: '0199b3c4-0000-7000-8000-000000000002', name: 'Cabin pond' });
    expect(await stack.sweep.run()).toMatchObject({ digests: 1 });
    const [mail] = await stack.mails();
    expect(mail?.subject).toMatch(/^(Haugen|Cabin) pond: .*, and \d more$/);
    expect(mail?.plainText).toContain('(Haugen pond)');
    expect(mail?.plainText).toContain('(Cabin pond)');
    expect(mail?.plainText).toContain('2 ponds, week of');
  });

  it('waits for the hour in the zone of the pond', async () => {
    await open({ at: '2026-09-26T12:59:00.000Z' });
    await stack.homeownersPond();
    expect(await stack.sweep.run()).toMatchObject({ digests: 0 });
    stack.clock.advance({ minutes: 1 });
    expect(await stack.sweep.run()).toMatchObject({ digests: 1 });
  });

  it('writes one digest after days of standing still, with the tasks of today', async () => {
    await open({ at: '2026-09-18T12:00:00.000Z' });
    await stack.homeownersPond();
    stack.clock.set('2026-09-28T15:00:00.000Z');
    expect(await stack.sweep.run()).toMatchObject({ digests: 1 });
    expect(await stack.reminders()).toMatchObject([{ digestOn: SATURDAY }]);
    stack.clock.set('2026-09-28T16:00:00.000Z');
    expect(await stack.sweep.run()).toMatchObject({ digests: 0 });
  });

  it('never asks for what is past its last date', async () => {
    await open({ at: '2026-09-18T12:00:00.000Z' });
    await stack.homeownersPond();
    stack.clock.set('2026-10-03T13:00:00.000Z');
    await stack.sweep.run();
    const [mail] = await stack.mails();
    expect(mail?.subject).not.toContain('leaf net');
    expect(mail?.plainText).not.toContain('PUT THE LEAF NET ON');
  });

  it('writes nothing where nothing is due', async () => {
    await open({ at: '2026-12-19T14:00:00.000Z' });
    await stack.homeownersPond(
      {},
      {
        stock: [],
        plants: [],
        equipment: [],
        treesNear: false,
        careSince: '2026-12-01',
        water: {
          method: 'shape',
          shape: {
            kind: 'ellipse',
            lengthM: 5,
            widthM: 3,
            depth: { kind: 'average', meanDepthM: 0.9, maxDepthM: 1.2 },
          },
        },
      },
    );
    expect(await stack.sweep.run()).toMatchObject({ digests: 0, nothingDue: 1 });
    expect(await stack.mails()).toEqual([]);
  });

  it('writes nothing on a dry run, and says what would go', async () => {
    await open();
    await stack.homeownersPond();
    const outcome = await stack.sweep.run({ dryRun: true });
    expect(outcome).toMatchObject({ digests: 1 });
    expect(outcome.mails[0]).toMatchObject({
      toAddress: 'solveig@example.com',
      subject: 'Haugen pond: put the leaf net on',
    });
    expect(outcome.mails[0]?.plainText).toContain('/l/task-done/not-issued');
    expect(await stack.mails()).toEqual([]);
    expect(await stack.reminders()).toEqual([]);
    expect((await stack.tasks()).every(({ promisedOn }) => promisedOn === null)).toBe(true);
  });

  it('lists homeowners without email, and those who stopped mail, and mails neither', async () => {
    await open();
    await stack.homeownersPond({ email: null });
    const pondId = await stack.homeownersPond(
      { name: 'Per Dahl', email: 'per@example.com' },
      { id: '0199b3c4-0000-7000-8000-000000000002' },
    );
    const contact = (await stack.contacts.of(stack.companyId, [pondId]))[0]!;
    await stack.contacts.stopMail(stack.companyId, contact.id);
    expect(await stack.sweep.run()).toMatchObject({ digests: 0, toCall: 2 });
    const list = await stack.homeowners.callList(stack.companyId);
    expect(list.map(({ name, because, phone }) => ({ name, because, phone }))).toEqual([
      { name: 'Per Dahl', because: 'mail-stopped', phone: SOLVEIG.phone },
      { name: 'Solveig Haugen', because: 'no-email', phone: SOLVEIG.phone },
    ]);
    expect(await stack.mails()).toEqual([]);
  });

  it('mails nobody whose house was sold', async () => {
    await open();
    const pondId = await stack.homeownersPond();
    await stack.ponds.sell(stack.companyId, pondId, SATURDAY);
    expect(await stack.sweep.run()).toMatchObject({ digests: 0 });
  });

  it('sends an urgent task at once in a mail of its own, with the caution first', async () => {
    const { server } = await openWithServer({ at: '2026-09-23T18:00:00.000Z' });
    const pondId = await stack.homeownersPond();
    await stack.readings.add(stack.companyId, pondId, [
      { quantity: 'water-temperature', value: 20, takenAt: '2026-09-23T17:55:00.000Z' },
      { quantity: 'ph', value: 8.4, takenAt: '2026-09-23T17:55:00.000Z' },
      { quantity: 'total-ammonia', value: 4, takenAt: '2026-09-23T17:55:00.000Z' },
    ]);
    const first = await stack.sweep.run();
    expect(first).toMatchObject({ digests: 0 });
    expect(first.urgent).toBeGreaterThanOrEqual(1);
    expect(await stack.sweep.run()).toMatchObject({ urgent: 0 });
    await stack.delivery.run();
    expect(server.received).toHaveLength(first.urgent);
    const text = server.received[0]!.parsed.text ?? '';
    expect(text.indexOf('CAUTION.')).toBeGreaterThan(0);
    expect(text.indexOf('CAUTION.')).toBeLessThan(text.indexOf('Why now'));
  });

  it('does not mail an address that its server refused', async () => {
    await open();
    await stack.homeownersPond();
    await stack.outbox.write(stack.companyId, {
      kind: 'account',
      dedupeKey: 'x',
      toName: 'Solveig',
      toAddress: 'solveig@example.com',
      subject: 's',
      html: 'h',
      plainText: 't',
    });
    const { MailOutboxEntity } = await import('../../src/reminders/index.js');
    await stack.database.unitOfWork('it came back', () =>
      stack.database
        .company(stack.companyId)
        .update(MailOutboxEntity, {}, { state: 'bounced', lastReply: 'RCPT TO: 550 no such user' }),
    );
    expect(await stack.sweep.run()).toMatchObject({ digests: 0, toCall: 1 });
    expect((await stack.homeowners.callList(stack.companyId))[0]).toMatchObject({
      because: 'address-refused',
      detail: 'RCPT TO: 550 no such user',
    });
  });

  it('keeps the mail of a demo and never opens a connection, even with a mail server set up', async () => {
    const { server } = await openWithServer({ isDemo: true });
    await stack.homeownersPond();
    expect(await stack.sweep.run()).toMatchObject({ digests: 1 });
    await stack.delivery.run();
    expect((await stack.mails()).map(({ state }) => state)).toEqual(['kept']);
    expect(server.connections).toBe(0);
  });

  it('keeps one company out of the other', async () => {
    await open();
    await stack.homeownersPond();
    const other = await reminderStack({ database: stack.temporary });
    opened.push(other);
    await other.homeownersPond({}, { id: newId() });
    expect(await stack.sweep.run({ companyId: stack.companyId })).toMatchObject({ digests: 1 });
    expect(await other.mails()).toEqual([]);
    expect(await stack.database.company(other.companyId).count(ReminderEntity)).toBe(0);
  });
});
