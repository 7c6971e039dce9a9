import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { MailOutboxEntity } from '../../src/reminders/mail-outbox.entity.js';
import { MailTransport, NoMailServer, type OutgoingMail } from '../../src/reminders/transport/mail-transport.js';
import { storeCompany } from '../support/company-rows.js';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database.js';
import { type MailServer, type Manners, startMailServer } from './mail-server.js';
import { mailsOf, newMail, outboxOver, smtpTo } from './outbox-bench.js';

describe('MailDelivery', () => {
  let temporary: TemporaryDatabase;
  let companyId: string;
  let server: MailServer | null = null;

  beforeEach(async () => {
    temporary = await temporaryDatabase();
    companyId = (await storeCompany(temporary.database)).company.id;
  });
  afterEach(async () => {
    await server?.close();
    server = null;
    await temporary.close();
  });

  async function bench(manners: Manners = {}) {
    server = await startMailServer(manners);
    return { server, ...outboxOver(temporary.database, smtpTo(server.port)) };
  }
  const theMail = async () => (await mailsOf(temporary.database, companyId))[0]!;

  it('hands a mail to the server once and notes the words of the answer', async () => {
    const { server, outbox, delivery } = await bench();
    await outbox.write(companyId, newMail());
    expect(await delivery.run()).toMatchObject({ sent: 1, inDoubt: 0 });
    expect(await delivery.run()).toMatchObject({ sent: 0 });

    expect(server.received.map((mail) => mail.to)).toEqual([['solveig@example.com']]);
    expect(await theMail()).toMatchObject({ state: 'sent', attempts: 1, sentAt: '2026-10-03T13:00:00.000Z' });
    expect((await theMail()).lastReply).toMatch(/^250 /);
  });

  it('writes one mail for one key, however often it is asked', async () => {
    const { server, outbox, delivery } = await bench();
    expect(await outbox.write(companyId, newMail())).not.toBeNull();
    expect(await outbox.write(companyId, newMail())).toBeNull();
    await delivery.run();
    expect(server.received).toHaveLength(1);
  });

  it('uses one connection for many mails', async () => {
    const { server, outbox, delivery } = await bench();
    for (let n = 0; n < 12; n++) await outbox.write(companyId, newMail({ dedupeKey: `digest:${n}` }));
    expect(await delivery.run({ senders: 2 })).toMatchObject({ sent: 12 });
    expect(server.connections).toBeLessThanOrEqual(2);
    expect(new Set(server.received.map((mail) => mail.parsed.messageId)).size).toBe(12);
  });

  // RFC 5321 section 4.5.4.1: at least 30 minutes between tries.
  it('puts a mail off after 450 and keeps Message-ID and Date over the tries', async () => {
    const answers = ['450 mailbox busy', '421 come back later', 'accept'] as const;
    const { server, outbox, delivery, clock } = await bench({ onText: (n) => answers[n] ?? 'accept' });
    await outbox.write(companyId, newMail());

    expect(await delivery.run()).toMatchObject({ deferred: 1 });
    expect(await theMail()).toMatchObject({ state: 'deferred', notBefore: '2026-10-03T13:31:00.000Z' });
    clock.advance({ minutes: 29 });
    expect(await delivery.run()).toMatchObject({ deferred: 0, sent: 0 });
    clock.advance({ minutes: 2 });
    expect(await delivery.run()).toMatchObject({ deferred: 1 });
    clock.advance({ minutes: 61 });
    expect(await delivery.run()).toMatchObject({ sent: 1 });

    expect(server.received).toHaveLength(3);
    expect(new Set(server.received.map((mail) => mail.parsed.messageId)).size).toBe(1);
    expect(new Set(server.received.map((mail) => mail.parsed.date?.toISOString())).size).toBe(1);
  });

  it.each([
    ['450 try later', 'RCPT TO'],
    ['421 closing down', 'connection'],
  ] as const)('puts a mail off when the recipient is answered with %s', async (said, stage) => {
    const { server, outbox, delivery } = await bench({ onRecipient: () => said });
    await outbox.write(companyId, newMail());
    expect(await delivery.run()).toMatchObject({ deferred: 1, bounced: 0 });
    expect(server.received).toHaveLength(0);
    expect((await theMail()).lastReply).toContain(stage);
    expect((await theMail()).lastReply).toContain(said);
  });

  it.each([
    ['the recipient', { onRecipient: () => '550 no such user here' }, 'RCPT TO: 550 no such user here'],
    ['the sender', { onMailFrom: () => '553 sender not allowed' }, 'MAIL FROM: 553 sender not allowed'],
    ['the text', { onText: () => '554 looks like spam' }, 'after the text: 554 looks like spam'],
  ] satisfies [string, Manners, string][])('never tries again when %s is refused', async (_what, manners, reply) => {
    const { server, outbox, delivery, clock } = await bench(manners);
    await outbox.write(companyId, newMail());
    expect(await delivery.run()).toMatchObject({ bounced: 1 });
    clock.advance({ days: 3 });
    expect(await delivery.run()).toMatchObject({ bounced: 0, sent: 0 });
    expect(server.connections).toBe(1);
    expect(await theMail()).toMatchObject({ state: 'bounced', lastReply: reply, attempts: 1 });
  });

  it('lists an address whose server refused it until a mail arrives there', async () => {
    const { outbox, delivery } = await bench({ onRecipient: (n) => (n === 0 ? '550 no such user' : 'accept') });
    await outbox.write(companyId, newMail());
    await delivery.run();
    expect([...(await outbox.refusedAddresses(companyId)).keys()]).toEqual(['solveig@example.com']);
    await outbox.resend(companyId, (await theMail()).id);
    await delivery.run();
    expect((await theMail()).state).toBe('sent');
    expect((await outbox.refusedAddresses(companyId)).size).toBe(0);
  });

  it('puts a mail off when nobody listens', async () => {
    const { server, outbox, delivery } = await bench();
    await outbox.write(companyId, newMail());
    await server.close();
    expect(await delivery.run()).toMatchObject({ deferred: 1 });
    expect((await theMail()).lastReply).toMatch(/connection: .*ECONNREFUSED/);
  });

  it.each(['drop', 'silence'] as const)(
    'holds a digest in doubt after a %s behind the text, and sends it no more',
    async (what) => {
      const { server, outbox, delivery, clock } = await bench({ onText: () => what });
      await outbox.write(companyId, newMail());
      expect(await delivery.run()).toMatchObject({ inDoubt: 1, sent: 0 });
      expect(await theMail()).toMatchObject({ state: 'in_doubt', sentAt: '2026-10-03T13:00:00.000Z' });
      clock.advance({ days: 2 });
      await delivery.run();
      expect(server.received).toHaveLength(1);
    },
  );

  it.each(['visit-report', 'account', 'urgent'] as const)(
    'sends a %s in doubt exactly once more, under the same Message-ID',
    async (kind) => {
      const { server, outbox, delivery, clock } = await bench({ onText: () => 'drop' });
      await outbox.write(companyId, newMail({ kind }));
      expect(await delivery.run()).toMatchObject({ inDoubt: 1 });
      expect((await theMail()).state).toBe('due');
      for (let hour = 0; hour < 5; hour++) {
        clock.advance({ hours: 1 });
        await delivery.run();
      }
      expect(server.received).toHaveLength(2);
      expect(new Set(server.received.map((mail) => mail.parsed.messageId)).size).toBe(1);
      expect((await theMail()).state).toBe('in_doubt');
    },
  );

  it('sends a mail in doubt again when a person says so', async () => {
    const { server, outbox, delivery } = await bench({ onText: (n) => (n === 0 ? 'drop' : 'accept') });
    await outbox.write(companyId, newMail());
    await delivery.run();
    await outbox.resend(companyId, (await theMail()).id);
    await delivery.run();
    expect((await theMail()).state).toBe('sent');
    expect(new Set(server.received.map((mail) => mail.parsed.messageId)).size).toBe(1);
  });

  it('gives up within two days', async () => {
    const { outbox, delivery, clock } = await bench({ onMailFrom: () => '451 not now' });
    await outbox.write(companyId, newMail());
    const start = clock.now();
    while ((await theMail()).state !== 'expired') {
      await delivery.run();
      if ((await theMail()).state === 'deferred') clock.set((await theMail()).notBefore);
    }
    expect(clock.now().diff(start, 'hours').hours).toBeLessThanOrEqual(48);
    expect((await theMail()).attempts).toBe(15);
  });

  it('never sends a mail past its use', async () => {
    const { server, outbox, delivery, clock } = await bench();
    await outbox.write(companyId, newMail({ notAfter: '2026-10-03T20:00:00.000Z' }));
    clock.advance({ hours: 8 });
    expect(await delivery.run()).toMatchObject({ expired: 1, sent: 0 });
    expect((await theMail()).state).toBe('expired');
    expect(server.connections).toBe(0);
  });

  it('does not let one unwritable mail stop the others', async () => {
    const { server, outbox, delivery } = await bench();
    await outbox.write(companyId, newMail({ dedupeKey: 'a', toAddress: 'not an address\u0000' }));
    await outbox.write(companyId, newMail({ dedupeKey: 'b' }));
    expect(await delivery.run()).toMatchObject({ sent: 1, dead: 1 });
    expect(server.received).toHaveLength(1);
  });

  it('opens no connection for a demo company, whatever is due', async () => {
    const demo = (await storeCompany(temporary.database, { isDemo: true })).company.id;
    const { server, outbox, delivery } = await bench();
    await outbox.write(demo, newMail());
    await temporary.database.unitOfWork('make it look due', () =>
      temporary.database.company(demo).update(MailOutboxEntity, {}, { state: 'due' }),
    );
    await delivery.run();
    expect(server.connections).toBe(0);
  });

  it('keeps mail to be read where there is no mail server', async () => {
    const { outbox, delivery } = outboxOver(temporary.database, new NoMailServer());
    await outbox.write(companyId, newMail());
    await delivery.run();
    expect((await theMail()).state).toBe('kept');
  });

  it('shows a mail in doubt whose sender died after the mark, and sends it no more', async () => {
    const { server, outbox, delivery, clock } = await bench();
    await outbox.write(companyId, newMail());
    const dying = outboxOver(temporary.database, new DiesAfterMark());
    void dying.delivery.run();
    for (let tries = 0; (await theMail()).state !== 'handing_over' && tries < 200; tries++) await soon();
    expect((await theMail()).state).toBe('handing_over');

    expect(await delivery.run()).toMatchObject({ inDoubt: 0, sent: 0 });
    clock.advance({ minutes: 3 });
    expect(await delivery.run()).toMatchObject({ inDoubt: 1 });
    clock.advance({ days: 1 });
    await delivery.run();
    expect(await theMail()).toMatchObject({ state: 'in_doubt', sentAt: '2026-10-03T13:00:00.000Z' });
    expect(server.received).toHaveLength(0);
  });

  it('takes over a mail whose sender died before the mark', async () => {
    const { server, outbox, delivery, clock } = await bench();
    await outbox.write(companyId, newMail());
    void outboxOver(temporary.database, new DiesBeforeMark()).delivery.run();
    for (let tries = 0; (await theMail()).state !== 'claimed' && tries < 200; tries++) await soon();

    expect(await delivery.run()).toMatchObject({ sent: 0 });
    clock.advance({ minutes: 3 });
    expect(await delivery.run()).toMatchObject({ sent: 1 });
    expect(server.received).toHaveLength(1);
  });

  it('lets a sender whose lease was taken over send nothing', async () => {
    const { server, outbox, delivery, clock } = await bench();
    await outbox.write(companyId, newMail());
    const slow = new WaitsBeforeMark();
    const running = outboxOver(temporary.database, slow).delivery.run();
    await slow.reached;
    clock.advance({ minutes: 3 });
    expect(await delivery.run()).toMatchObject({ sent: 1 });
    slow.goOn();
    await running;
    expect(slow.mayGo).toEqual([false]);
    expect(server.received).toHaveLength(1);
    expect((await theMail()).state).toBe('sent');
  });

  it('sends each mail once from two senders on one database', async () => {
    const { server, outbox, delivery } = await bench();
    for (let n = 0; n < 30; n++) await outbox.write(companyId, newMail({ dedupeKey: `digest:${n}` }));
    const other = outboxOver(temporary.database, smtpTo(server.port));
    const outcomes = await Promise.all([delivery.run(), other.delivery.run()]);
    expect(outcomes.reduce((sum, one) => sum + one.sent, 0)).toBe(30);
    expect(new Set(server.received.map((mail) => mail.parsed.messageId)).size).toBe(30);
    expect(server.received).toHaveLength(30);
  });
});

const soon = () => new Promise((done) => setTimeout(done, 5));
const never = () => new Promise<never>(() => undefined);

class DiesAfterMark extends MailTransport {
  readonly canSend = true;
  async send(_mail: OutgoingMail, beforeText: () => Promise<boolean>) {
    await beforeText();
    return never();
  }
  async close() {}
}

class DiesBeforeMark extends MailTransport {
  readonly canSend = true;
  send = never;
  async close() {}
}

class WaitsBeforeMark extends MailTransport {
  readonly canSend = true;
  readonly mayGo: boolean[] = [];
  goOn!: () => void;
  private isReached!: () => void;
  readonly reached = new Promise<void>((done) => {
    this.isReached = done;
  });

  async send(_mail: OutgoingMail, beforeText: () => Promise<boolean>) {
    const told = new Promise<void>((done) => {
      this.goOn = done;
    });
    this.isReached();
    await told;
    this.mayGo.push(await beforeText());
    return { kind: 'withdrawn' } as const;
  }
  async close() {}
}
