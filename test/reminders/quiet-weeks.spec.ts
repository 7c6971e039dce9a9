import { afterEach, describe, expect, it } from '@jest/globals';
import { CareTaskEntity } from '../../src/care-calendar/index.js';
import { MailHolds, MailOutboxEntity, MailWishesService, WHOLE_SERVICE } from '../../src/reminders/index.js';
import { startMailServer } from './mail-server.js';
import { type ReminderStack, reminderStack } from './reminder-stack.js';

const SATURDAY = '2026-09-26';

describe('Reminders and the time of people', () => {
  let stack: ReminderStack;
  const opened: { close(): Promise<void> }[] = [];
  afterEach(async () => {
    for (const one of opened.splice(0).reverse()) await one.close();
  });
  async function open(given: Parameters<typeof reminderStack>[0] = {}) {
    stack = await reminderStack(given);
    opened.push(stack);
  }
  const personId = async () => (await stack.homeowners.all(stack.companyId))[0]!.personId;
  const quiet = async (from: string, until: string) => {
    const wishes = stack.app.get(MailWishesService, { strict: false });
    await wishes.set(stack.companyId, await personId(), {
      weekday: 6,
      hour: 8,
      units: 'us',
      quiet: { from, until },
    });
  };
  /** Makes the open task urgent, with its window on these days. */
  const urgent = async (dueOn: string, latestOn: string) =>
    stack.database.unitOfWork('make it urgent', () =>
      stack.database
        .company(stack.companyId)
        .update(
          CareTaskEntity,
          { ruleId: 'leaf-net-on', cycle: 'cooling-2026' },
          { consequence: 'urgent', earliestOn: dueOn, dueOn, latestOn },
        ),
    );
  const kinds = async () => (await stack.mails()).map(({ kind }) => kind);

  it('brings no weekly mail in quiet weeks, both days included, and one again after them', async () => {
    await open();
    await stack.homeownersPond();
    await quiet(SATURDAY, SATURDAY);
    expect(await stack.sweep.run()).toMatchObject({ digests: 0 });
    stack.clock.advance({ days: 1 });
    expect(await stack.sweep.run()).toMatchObject({ digests: 1 });
  });

  it('brings what cannot wait all the same, and keeps what can for later', async () => {
    await open();
    await stack.homeownersPond();
    await quiet('2026-09-20', '2026-10-20');
    await urgent(SATURDAY, '2026-09-29');
    expect(await stack.sweep.run()).toMatchObject({ digests: 0, urgent: 0 });
    await urgent(SATURDAY, SATURDAY);
    expect(await stack.sweep.run()).toMatchObject({ digests: 0, urgent: 1 });
  });

  it.each([
    ['2026-09-26', '2026-09-20', 'Choose 2026-09-26 or a later day.'],
    ['2026-09-26', '2027-03-01', 'at most three months'],
  ])('refuses quiet weeks from %s to %s', async (from, until, words) => {
    await open();
    await stack.homeownersPond();
    await expect(quiet(from, until)).rejects.toThrow(words);
  });

  it('tells an urgent task once where weekly mail and urgent mail come due together, as after a standstill', async () => {
    await open({ at: '2026-09-18T12:00:00.000Z' });
    await stack.homeownersPond();
    await urgent('2026-09-25', '2026-09-30');
    stack.clock.set('2026-09-28T15:00:00.000Z');
    expect(await stack.sweep.run()).toMatchObject({ digests: 1, urgent: 0 });
    stack.clock.set('2026-09-28T16:00:00.000Z');
    expect(await stack.sweep.run()).toMatchObject({ digests: 0, urgent: 0 });
    expect(await kinds()).toEqual(['digest']);
    expect((await stack.mails())[0]?.plainText).toContain('PUT THE LEAF NET ON');
  });

  it('tells it on its own when the weekly mail did not arrive', async () => {
    await open();
    await stack.homeownersPond();
    await urgent(SATURDAY, '2026-09-30');
    await stack.sweep.run();
    expect(await kinds()).toEqual(['digest']);
    await stack.database.unitOfWork('in doubt', () =>
      stack.database.company(stack.companyId).update(MailOutboxEntity, { kind: 'digest' }, { state: 'in_doubt' }),
    );
    stack.clock.advance({ hours: 1 });
    expect(await stack.sweep.run()).toMatchObject({ urgent: 1 });
  });

  it('is written when mail goes again, not while it is held', async () => {
    await open();
    await stack.homeownersPond();
    const holds = stack.app.get(MailHolds, { strict: false });
    await holds.hold(stack.companyId, 'paused');
    expect(await stack.sweep.run()).toMatchObject({ digests: 0 });
    expect(await stack.sweep.run({ dryRun: true })).toMatchObject({ digests: 1 });
    stack.clock.advance({ hours: 30 });
    await holds.release(stack.companyId);
    expect(await stack.sweep.run()).toMatchObject({ digests: 1 });
    expect((await stack.mails())[0]?.plainText).toContain('27 September');
  });

  it('is not written again after a restore for a moment before it, and is for the next', async () => {
    await open();
    await stack.homeownersPond();
    const holds = stack.app.get(MailHolds, { strict: false });
    stack.clock.advance({ hours: 1 });
    await holds.holdRestored();
    await holds.release(WHOLE_SERVICE);
    expect(await stack.sweep.run()).toMatchObject({ digests: 0 });
    stack.clock.advance({ days: 7 });
    await stack.sweep.run();
    expect((await stack.reminders()).map(({ digestOn }) => digestOn)).toEqual(['2026-10-03']);
  });

  it('shows as one conversation in each half of the year', async () => {
    await open();
    await stack.homeownersPond();
    for (let week = 0; week < 20; week++) {
      await stack.sweep.run();
      stack.clock.advance({ days: 7 });
    }
    const mails = (await stack.mails()).filter(({ kind }) => kind === 'digest');
    const threads = mails.map(({ headers, createdAt }) => ({ of: headers.References, on: createdAt }));
    const before = new Set(threads.filter(({ on }) => on < '2026-12-21').map(({ of }) => of));
    const after = new Set(threads.filter(({ on }) => on >= '2026-12-21').map(({ of }) => of));
    expect([...before]).toEqual([expect.stringMatching(/^<season-2026-06-21-[0-9a-f]{24}@mail\.example\.com>$/)]);
    for (const thread of after) expect(before.has(thread)).toBe(false);
    expect(mails.every(({ messageId, headers }) => messageId !== headers.References)).toBe(true);
  });

  it('does not come at night because a server put it off, or stood still until then', async () => {
    const server = await startMailServer({ onMailFrom: (n) => (n < 5 ? '450 not now' : 'accept') });
    opened.push(server);
    await open({ smtp: { host: '127.0.0.1', port: server.port, secure: false, user: null, password: null } });
    await stack.homeownersPond();
    await stack.sweep.run();
    const localHours: number[] = [];
    for (let tries = 0; tries < 8; tries++) {
      const outcome = await stack.delivery.run();
      if (outcome.sent + outcome.deferred > 0) localHours.push(stack.clock.now().setZone('America/Chicago').hour);
      const [mail] = await stack.mails();
      if (mail!.state === 'deferred' || mail!.state === 'due') stack.clock.set(mail!.notBefore);
    }
    expect((await stack.mails())[0]?.state).toBe('sent');
    expect(localHours.every((hour) => hour >= 8 && hour < 20)).toBe(true);
    expect(localHours).toHaveLength(6);
    expect(server.received).toHaveLength(1);
  });
});
