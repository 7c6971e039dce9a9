import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { BouncesService } from '../../src/reminders/bounces.service.js';
import { mailIdOf, returnAddress } from '../../src/reminders/transport/return-address.js';
import { storeCompany } from '../support/company-rows.js';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database.js';
import { type MailServer, startMailServer } from './mail-server.js';
import { mailsOf, newMail, outboxOver, SETTINGS_FOR_MAIL, smtpTo } from './outbox-bench.js';

const BOUNCES = { address: 'bounces@mail.example.com', secret: 'sixteen letters or more' };

/** A delivery report in the form of RFC 3464 appendix E, "a failure notice". */
function report(sentTo: string, own: { action?: string; status?: string; type?: string; human?: string } = {}): Buffer {
  const {
    action = 'failed',
    status = '5.1.1',
    type = 'multipart/report; report-type=delivery-status',
    human = '',
  } = own;
  return Buffer.from(
    [
      'From: <MAILER-DAEMON@mx.example.net>',
      `To: <${sentTo}>`,
      'Subject: Undelivered Mail Returned to Sender',
      'Auto-Submitted: auto-replied',
      'MIME-Version: 1.0',
      `Content-Type: ${type}; boundary="xxxx"`,
      '',
      '--xxxx',
      'Content-Type: text/plain; charset=us-ascii',
      '',
      `Your message could not be delivered. ${human}`,
      '--xxxx',
      'Content-Type: message/delivery-status',
      '',
      'Reporting-MTA: dns; mx.example.net',
      '',
      'Final-Recipient: rfc822; solveig@example.com',
      `Action: ${action}`,
      `Status: ${status}`,
      'Diagnostic-Code: smtp; 550 5.1.1 no such',
      ' user here',
      '',
      '--xxxx',
      'Content-Type: message/rfc822',
      '',
      'Message-ID: <x@mail.example.com>',
      '',
      'body',
      '--xxxx--',
      '',
    ].join('\r\n'),
  );
}

describe('mail that comes back', () => {
  let temporary: TemporaryDatabase;
  let server: MailServer;
  let companyId: string;
  let bounces: BouncesService;
  let bench: ReturnType<typeof outboxOver>;
  beforeEach(async () => {
    temporary = await temporaryDatabase();
    companyId = (await storeCompany(temporary.database)).company.id;
    server = await startMailServer();
    bench = outboxOver(temporary.database, smtpTo(server.port, undefined, { bounces: BOUNCES }));
    bounces = new BouncesService(temporary.database, bench.companies, { ...SETTINGS_FOR_MAIL, bounces: BOUNCES });
  });
  afterEach(async () => {
    await server.close();
    await temporary.close();
  });

  const theMails = () => mailsOf(temporary.database, companyId);
  async function sent(dedupeKey = 'digest:one') {
    await bench.outbox.write(companyId, newMail({ dedupeKey }));
    await bench.delivery.run();
    return server.received.at(-1)!.from;
  }
  const refused = async () => [...(await bench.outbox.refusedAddresses(companyId)).keys()];

  it('leaves under a return address of its own that names it and is signed', async () => {
    const from = await sent();
    const [mail] = await theMails();
    expect(from).toMatch(/^bounces\+[0-9a-f]{32}-[0-9a-f]{16}@mail\.example\.com$/);
    expect(from.split('@')[0]!.length).toBeLessThanOrEqual(64);
    expect(mailIdOf(from, BOUNCES)).toBe(mail!.id);
    expect(mailIdOf(from, { ...BOUNCES, secret: 'another secret of a size' })).toBeNull();
    expect(returnAddress(mail!.id, BOUNCES)).toBe(from);
  });

  it('suspends an address that is reported not to exist, with the server’s words, until a mail arrives there', async () => {
    const from = await sent();
    expect(await bounces.receive(report(from))).toBe('returned');
    expect((await theMails())[0]).toMatchObject({
      state: 'bounced',
      lastReply: 'report: 5.1.1 550 5.1.1 no such user here',
    });
    expect(await refused()).toEqual(['solveig@example.com']);

    await bench.outbox.resend(companyId, (await theMails())[0]!.id);
    await bench.delivery.run();
    expect(await refused()).toEqual([]);
  });

  it('believes no report that is not signed by us, whatever it says', async () => {
    const from = await sent();
    const forged = from.replace(/-[0-9a-f]{16}@/, '-0000000000000000@');
    for (const to of [forged, 'bounces@mail.example.com', 'office@mail.example.com']) {
      expect(await bounces.receive(report(to, { human: from }))).toBe('not-ours');
    }
    expect((await theMails())[0]!.state).toBe('sent');
    expect(await refused()).toEqual([]);
  });

  it('does not take an answer of a person, or of a machine that is away, for a report', async () => {
    const from = await sent();
    const away = report(from, { type: 'multipart/mixed' });
    expect(await bounces.receive(away)).toBe('not-a-report');
    expect(
      await bounces.receive(
        Buffer.from(`To: ${from}\r\nSubject: I am away\r\n\r\nStatus: 5.1.1\r\nAction: failed\r\n`),
      ),
    ).toBe('not-a-report');
    expect(await bounces.receive(Buffer.from('\u0000\u0001 nonsense'))).toBe('not-a-report');
    expect((await theMails())[0]!.state).toBe('sent');
  });

  it('changes nothing while a server still tries', async () => {
    const from = await sent();
    expect(await bounces.receive(report(from, { action: 'delayed', status: '4.4.1' }))).toBe('delayed');
    expect((await theMails())[0]!.state).toBe('sent');
  });

  it('suspends an address only after three mails within a week came back for the moment', async () => {
    for (const [index, expected] of [[], [], ['solveig@example.com']].entries()) {
      const from = await sent(`digest:${index}`);
      await bounces.receive(report(from, { status: '4.2.2' }));
      expect(await refused()).toEqual(expected);
      bench.clock.advance({ days: 3 });
    }
    bench.clock.advance({ days: 8 });
    expect(await refused()).toEqual([]);
  });

  it('is told of nobody: no mail leaves in answer to a report', async () => {
    const from = await sent();
    const before = server.received.length;
    await bounces.receive(report(from));
    await bounces.receive(report(from, { type: 'multipart/mixed' }));
    await bench.delivery.run();
    expect(server.received.length).toBe(before);
  });
});
