import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { hostOf, MailPace, NO_PACE } from '../../src/reminders/mail-pace.js';
import { storeCompany } from '../support/company-rows.js';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database.js';
import { newMail, outboxOver, SATURDAY_8_CHICAGO, smtpTo } from './outbox-bench.js';
import { type ScriptedServer, scriptedServer } from './scripted-server.js';

describe('MailPace', () => {
  it('lets no more leave than rate and burst allow, whenever they are asked for', () => {
    const rate = { min: 0.5, max: 20, noNaN: true };
    fc.assert(
      fc.property(
        fc.double(rate),
        fc.array(fc.integer({ min: 0, max: 3000 }), { maxLength: 80 }),
        (perSecond, steps) => {
          let nowMs = 0;
          const pace = new MailPace({ perCompanyPerSecond: perSecond, perHostPerMinute: null }, () => nowMs);
          let left = 0;
          for (const step of steps) {
            nowMs += step;
            const allowed = pace.allowedFor('company');
            for (let n = 0; n < allowed; n++) pace.spend('company', 'example.com');
            left += allowed;
            expect(left).toBeLessThanOrEqual(Math.max(1, perSecond * 5) + (perSecond * nowMs) / 1000 + 1e-6);
          }
        },
      ),
    );
  });

  it('counts each company and each receiving host by itself', () => {
    const pace = new MailPace({ perCompanyPerSecond: 1, perHostPerMinute: 12 }, () => 0);
    expect(pace.allowsHost('example.com')).toBe(true);
    pace.spend('a', 'example.com');
    expect(pace.allowsHost('example.com')).toBe(false);
    expect(pace.fullHosts()).toEqual(['example.com']);
    expect(pace.allowsHost('example.org')).toBe(true);
    expect(pace.allowedFor('a')).toBe(4);
    expect(pace.allowedFor('b')).toBe(5);
    expect(pace.waitMs()).toBe(5_000);
  });

  it('sets no limit where none is given', () => {
    const pace = new MailPace(NO_PACE, () => 0);
    for (let n = 0; n < 1000; n++) pace.spend('a', 'example.com');
    expect(pace.allowedFor('a')).toBe(Number.POSITIVE_INFINITY);
    expect(pace.fullHosts()).toEqual([]);
  });

  it('reads the host of an address', () => {
    expect(hostOf('"a@b"@Mail.Example.COM')).toBe('mail.example.com');
  });
});

describe('MailDelivery at a pace', () => {
  let temporary: TemporaryDatabase;
  let companyId: string;
  let server: ScriptedServer;
  let at: { readonly ms: number; readonly to: string }[];
  beforeEach(async () => {
    temporary = await temporaryDatabase();
    companyId = (await storeCompany(temporary.database)).company.id;
    at = [];
    server = await scriptedServer((stage, recipient) => {
      if (stage === 'dot') at.push({ ms: performance.now(), to: recipient });
      return null;
    });
  });
  afterEach(async () => {
    await server.close();
    await temporary.close();
  });
  const bench = (pace: { perCompanyPerSecond: number | null; perHostPerMinute: number | null }) =>
    outboxOver(temporary.database, smtpTo(server.port), SATURDAY_8_CHICAGO, pace);
  const fill = async (outbox: ReturnType<typeof bench>['outbox'], toAddress: string, count: number, from = 0) => {
    for (let n = from; n < from + count; n++) {
      await outbox.write(companyId, newMail({ dedupeKey: `${toAddress}:${n}`, toAddress }));
    }
  };

  it('is no flood: after the first few, no more than the rate', async () => {
    const { outbox, delivery } = bench({ perCompanyPerSecond: 10, perHostPerMinute: null });
    await fill(outbox, 'a@example.com', 65);
    expect(await delivery.run()).toMatchObject({ sent: 65 });
    const spanMs = at.at(-1)!.ms - at[0]!.ms;
    expect(spanMs).toBeGreaterThan(1_300);
    expect(spanMs).toBeLessThan(6_000);
  });

  it('keeps one receiving host to its rate and lets others go by', async () => {
    const { outbox, delivery } = bench({ perCompanyPerSecond: null, perHostPerMinute: 120 });
    await fill(outbox, 'a@slow.example', 12);
    await fill(outbox, 'b@fast.example', 3);
    expect(await delivery.run()).toMatchObject({ sent: 15 });
    expect(at.findLastIndex(({ to }) => to === 'b@fast.example')).toBeLessThan(14);
    expect(at.at(-1)!.ms - at[0]!.ms).toBeGreaterThan(700);
  });

  it('lets what cannot wait go before a backlog of weekly mails', async () => {
    const { outbox, delivery } = bench({ perCompanyPerSecond: null, perHostPerMinute: null });
    await fill(outbox, 'weekly@example.com', 30);
    await outbox.write(companyId, newMail({ kind: 'urgent', dedupeKey: 'urgent', toAddress: 'now@example.com' }));
    await delivery.run({ senders: 1 });
    expect(at[0]!.to).toBe('now@example.com');
  });

  it('stops waiting when the program stops', async () => {
    const { outbox, delivery } = bench({ perCompanyPerSecond: 0.1, perHostPerMinute: null });
    await fill(outbox, 'a@example.com', 3);
    const stop = new AbortController();
    setTimeout(() => stop.abort(), 300);
    const began = performance.now();
    expect(await delivery.run({ signal: stop.signal })).toMatchObject({ sent: 1 });
    expect(performance.now() - began).toBeLessThan(2_000);
  });
});
