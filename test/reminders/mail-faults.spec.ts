import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { openDatabase } from '../../src/database/index.js';
import { ENTITIES } from '../../src/entities.js';
import { MailOutboxEntity } from '../../src/reminders/mail-outbox.entity.js';
import { SmtpTransport } from '../../src/reminders/transport/smtp-transport.js';
import { storeCompany } from '../support/company-rows.js';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database.js';
import { startMailServer } from './mail-server.js';
import { FROM_ADDRESS, mailsOf, newMail, outboxOver, smtpTo } from './outbox-bench.js';
import { type Line, type ScriptedServer, STAGES, type Stage, scriptedServer } from './scripted-server.js';

const PATIENCE = { beforeTextMs: 1_000, afterTextMs: 800, idleMs: 50 };
/** For servers that answer: a busy machine is not a silent server. */
const PATIENT = { beforeTextMs: 20_000, afterTextMs: 60_000, idleMs: 50 };
const BEFORE_TEXT: readonly Stage[] = ['banner', 'EHLO', 'MAIL', 'RCPT', 'DATA'];

describe('MailDelivery against faults', () => {
  let temporary: TemporaryDatabase;
  let companyId: string;
  let server: ScriptedServer;
  beforeEach(async () => {
    temporary = await temporaryDatabase();
    companyId = (await storeCompany(temporary.database)).company.id;
    server = await scriptedServer();
  });
  afterEach(async () => {
    await server.close();
    await temporary.close();
  });
  const bench = () => outboxOver(temporary.database, smtpTo(server.port, PATIENCE));
  const theMail = async () => (await mailsOf(temporary.database, companyId))[0]!;
  const says = (at: Stage, line: Line) => {
    server.script = (stage) => (stage === at ? line : null);
  };

  const temporaryCodes = ['421', '450', '451', '452'] as const;
  const permanentCodes = ['550', '552', '553', '554'] as const;
  const at = <T>(codes: readonly T[]) => codes.flatMap((code) => STAGES.map((stage) => [code, stage] as const));

  it.each(at(temporaryCodes))(
    'tries again after %s at %s, not before half an hour, and is taken then',
    async (code, stage) => {
      const { outbox, delivery, clock } = bench();
      await outbox.write(companyId, newMail());
      const before = await theMail();
      says(stage, `${code} 4.3.0 not now`);
      expect(await delivery.run()).toMatchObject({ deferred: 1, sent: 0, bounced: 0, inDoubt: 0 });
      clock.advance({ minutes: 29 });
      expect(await delivery.run()).toMatchObject({ deferred: 0, sent: 0 });
      server.script = () => null;
      clock.advance({ minutes: 3 });
      expect(await delivery.run()).toMatchObject({ sent: 1 });
      expect(await theMail()).toMatchObject({ messageId: before.messageId, datedAt: before.datedAt, attempts: 2 });
      expect(server.texts.every((text) => text.includes(`Message-ID: ${before.messageId}`))).toBe(true);
    },
  );

  it.each(at(permanentCodes))('is tried no more after %s at %s, and shows the words', async (code, stage) => {
    const { outbox, delivery, clock } = bench();
    await outbox.write(companyId, newMail());
    says(stage, `${code} 5.7.1 we do not want this`);
    expect(await delivery.run()).toMatchObject({ bounced: 1, deferred: 0, sent: 0 });
    const { connections } = server;
    clock.advance({ days: 2 });
    await delivery.run();
    expect(server.connections).toBe(connections);
    expect((await theMail()).lastReply).toContain('we do not want this');
  });

  it.each(BEFORE_TEXT)('puts a mail off when the server falls silent at %s', async (stage) => {
    const { outbox, delivery } = bench();
    await outbox.write(companyId, newMail());
    says(stage, 'hang');
    expect(await delivery.run()).toMatchObject({ deferred: 1, inDoubt: 0 });
    expect(server.texts).toHaveLength(0);
  });

  it.each(BEFORE_TEXT)('puts a mail off when the server hangs up at %s', async (stage) => {
    const { outbox, delivery } = bench();
    await outbox.write(companyId, newMail());
    says(stage, 'close');
    expect(await delivery.run()).toMatchObject({ deferred: 1, inDoubt: 0 });
  });

  it.each(['hang', 'close'] as const)('is in doubt after a %s behind the text, once, whatever comes', async (what) => {
    const { outbox, delivery, clock } = bench();
    await outbox.write(companyId, newMail());
    says('dot', what);
    expect(await delivery.run()).toMatchObject({ inDoubt: 1 });
    clock.advance({ days: 2 });
    await delivery.run();
    expect(server.texts).toHaveLength(1);
  });

  it('counts a mail as sent when the server takes it and then hangs up', async () => {
    const { outbox, delivery } = bench();
    for (let n = 0; n < 3; n++) await outbox.write(companyId, newMail({ dedupeKey: `digest:${n}` }));
    const kept = await startMailServer({
      options: {
        onData: (stream, session, done) => {
          stream.resume();
          stream.on('end', () => {
            done();
            setTimeout(() => (session as unknown as { connection?: { close(): void } }).connection?.close(), 5);
          });
        },
      },
    });
    try {
      const closing = outboxOver(temporary.database, smtpTo(kept.port, PATIENT));
      expect(await closing.delivery.run({ senders: 1 })).toMatchObject({ sent: 3, inDoubt: 0 });
      expect(await delivery.run()).toMatchObject({ sent: 0 });
    } finally {
      await kept.close();
    }
  });

  it('puts a mail off when the name of the server is not known', async () => {
    const nowhere = new SmtpTransport(
      { host: 'mail.invalid', port: 2525, secure: false, user: null, password: null },
      FROM_ADDRESS,
      { patience: { ...PATIENCE, beforeTextMs: 5_000 } },
    );
    const { outbox, delivery } = outboxOver(temporary.database, nowhere);
    await outbox.write(companyId, newMail());
    expect(await delivery.run()).toMatchObject({ deferred: 1, dead: 0, bounced: 0 });
    expect((await theMail()).lastReply).toMatch(/^connection: /);
  });

  it('lets the others go on while a server is silent for some', async () => {
    const { outbox, delivery } = outboxOver(temporary.database, smtpTo(server.port, PATIENT));
    for (let n = 0; n < 20; n++) {
      const toAddress = n % 4 === 0 ? `silent${n}@example.com` : `other${n}@example.com`;
      await outbox.write(companyId, newMail({ dedupeKey: `digest:${n}`, toAddress }));
    }
    server.script = (stage, recipient) => (stage === 'dot' && recipient.startsWith('silent') ? 'hang' : null);
    expect(await delivery.run({ senders: 2, silentAfterMs: 700 })).toMatchObject({ sent: 15 });
    const states = (await mailsOf(temporary.database, companyId)).map(
      ({ toAddress, state }) => `${toAddress[0]} ${state}`,
    );
    expect(states.filter((state) => state === 's handing_over')).toHaveLength(5);
    expect(await delivery.run({ silentAfterMs: 700 })).toMatchObject({ sent: 0 });
  });

  it('leaves a mail alone whose sender died eight times over it, and sends it once when a person says so', async () => {
    const { outbox, delivery, clock } = bench();
    await outbox.write(companyId, newMail());
    const { id } = await theMail();
    await temporary.database.unitOfWork('eight deaths', () =>
      temporary.database
        .company(companyId)
        .update(MailOutboxEntity, { id }, { state: 'claimed', attempts: 8, leasedUntil: clock.instant() }),
    );
    clock.advance({ minutes: 1 });
    expect(await delivery.run()).toMatchObject({ dead: 1, sent: 0 });
    expect((await theMail()).lastReply).toContain('8 times');
    await outbox.resend(companyId, id);
    expect(await delivery.run()).toMatchObject({ sent: 1 });
    expect(await delivery.run()).toMatchObject({ sent: 0 });
  });

  it('sends nothing twice when the disk fills up between the mark and the outcome', async () => {
    const { outbox, delivery, clock } = bench();
    await outbox.write(companyId, newMail());
    const full = new Error('SQLITE_FULL: database or disk is full');
    const { database } = temporary;
    const unitOfWork = database.unitOfWork.bind(database);
    server.script = (stage) => {
      if (stage === 'dot') database.unitOfWork = () => Promise.reject(full);
      return null;
    };
    await expect(delivery.run()).rejects.toThrow('disk is full');
    database.unitOfWork = unitOfWork;
    server.script = () => null;

    expect(await theMail()).toMatchObject({ state: 'handing_over' });
    clock.advance({ minutes: 3 });
    expect(await delivery.run()).toMatchObject({ inDoubt: 1, sent: 0 });
    expect(server.texts).toHaveLength(1);
    expect((await theMail()).state).toBe('in_doubt');
  });

  it('leaves nothing half written on a disk that is full', async () => {
    const { outbox } = bench();
    const { database } = temporary;
    await database.unitOfWork('no page more', async () => {
      const { manager } = (database as unknown as { writer: { manager: { query(sql: string): Promise<unknown> } } })
        .writer;
      await manager.query('PRAGMA max_page_count = 1');
    });
    const large = newMail({ html: `<p>${'x'.repeat(200_000)}</p>` });
    await expect(outbox.write(companyId, large)).rejects.toThrow(/was not saved: SQLITE_FULL/);
    expect(await mailsOf(database, companyId)).toEqual([]);
    const { manager } = (database as unknown as { writer: { manager: { query(sql: string): Promise<unknown> } } })
      .writer;
    await manager.query('PRAGMA max_page_count = 1000000');
    expect(await outbox.write(companyId, large)).not.toBeNull();
  });

  it('shares the work of two programs on one database, each mail once', async () => {
    const { outbox } = bench();
    for (let n = 0; n < 60; n++) await outbox.write(companyId, newMail({ dedupeKey: `digest:${n}` }));
    const second = await openDatabase(temporary.target, ENTITIES);
    try {
      const programs = [temporary.database, second].map((database) =>
        outboxOver(database, smtpTo(server.port, PATIENT)),
      );
      const sent = (await Promise.all(programs.map(({ delivery }) => delivery.run()))).map((outcome) => outcome.sent);
      expect(sent[0]! + sent[1]!).toBe(60);
      expect(Math.min(...sent)).toBeGreaterThan(0);
      const ids = server.texts.map((text) => /^Message-ID: (.*)$/im.exec(text)?.[1]);
      expect(new Set(ids).size).toBe(60);
      expect(server.texts).toHaveLength(60);
    } finally {
      await second.close();
    }
  });
});
