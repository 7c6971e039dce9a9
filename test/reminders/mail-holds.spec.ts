import { copyFile, rm } from 'node:fs/promises';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import type { Settings } from '../../src/config/index.js';
import { type Database, openDatabase } from '../../src/database/index.js';
import { ENTITIES } from '../../src/entities.js';
import { ClockWatch } from '../../src/reminders/clock-watch.js';
import { MailGuards } from '../../src/reminders/mail-guards.service.js';
import { WHOLE_SERVICE } from '../../src/reminders/mail-holds.service.js';
import { storeCompany } from '../support/company-rows.js';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database.js';
import { mailsOf, newMail, outboxOver, smtpTo } from './outbox-bench.js';
import { type ScriptedServer, scriptedServer } from './scripted-server.js';

describe('Mail that is held', () => {
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
  const bench = (database: Database = temporary.database) => outboxOver(database, smtpTo(server.port));
  const guardsOf = (database: Database, given: ReturnType<typeof bench>) =>
    new MailGuards(database, given.clock, given.holds, {
      dataDirectory: temporary.directory,
      database: temporary.target,
    } as Settings);

  it('stays while a company holds it, and leaves when it lets go', async () => {
    const { outbox, delivery, holds } = bench();
    await outbox.write(companyId, newMail());
    expect(await holds.hold(companyId, 'paused')).toBe(true);
    expect(await holds.hold(companyId, 'paused')).toBe(false);
    expect(await delivery.run()).toMatchObject({ sent: 0 });
    expect(server.connections).toBe(0);
    expect(await holds.release(companyId)).toBe(true);
    expect(await delivery.run()).toMatchObject({ sent: 1 });
  });

  it('is that of one company alone, or of the whole service', async () => {
    const other = (await storeCompany(temporary.database)).company.id;
    const { outbox, delivery, holds } = bench();
    await outbox.write(companyId, newMail());
    await outbox.write(other, newMail());
    await holds.hold(companyId, 'paused');
    expect(await delivery.run()).toMatchObject({ sent: 1 });
    await outbox.write(other, newMail({ dedupeKey: 'next' }));
    await holds.hold(WHOLE_SERVICE, 'paused');
    await holds.release(companyId);
    expect(await delivery.run()).toMatchObject({ sent: 0 });
  });

  it('stops in the middle of a round: at most one more for each sender', async () => {
    const { outbox, delivery, holds } = bench();
    const senders = 3;
    for (let n = 0; n < 40; n++) await outbox.write(companyId, newMail({ dedupeKey: `digest:${n}` }));
    let after = 0;
    let held: Promise<unknown> | null = null;
    server.script = (stage) => {
      if (stage === 'dot') {
        if (held !== null) after += 1;
        if (server.texts.length === 10) held = holds.hold(companyId, 'paused');
      }
      return null;
    };
    await delivery.run({ senders });
    await held;
    expect(server.texts.length).toBeGreaterThanOrEqual(10);
    // Those begun before the switch was on the disk, and no more.
    expect(after).toBeLessThanOrEqual(2 * senders);
    const states = (await mailsOf(temporary.database, companyId)).map(({ state }) => state);
    expect(states.filter((state) => state === 'due').length).toBe(40 - server.texts.length);
    expect((await mailsOf(temporary.database, companyId)).every(({ attempts }) => attempts <= 1)).toBe(true);
    server.script = () => null;
    await holds.release(companyId);
    await delivery.run();
    expect(server.texts).toHaveLength(40);
  });

  it('is what a restored copy of the database starts with: nobody already mailed is mailed again', async () => {
    const { outbox, delivery, holds, clock } = bench();
    const guards = guardsOf(temporary.database, { holds, clock } as ReturnType<typeof bench>);
    await guards.look();
    await guards.mark();
    await outbox.write(companyId, newMail());
    const yesterday = path.join(temporary.directory, 'copy.db');
    const { manager } = (
      temporary.database as unknown as { writer: { manager: { query(sql: string): Promise<unknown> } } }
    ).writer;
    await manager.query(`VACUUM INTO '${yesterday}'`);
    await guards.mark();
    expect(await delivery.run()).toMatchObject({ sent: 1 });

    const copy = await openDatabase({ kind: 'sqlite', file: yesterday }, ENTITIES);
    try {
      const restored = bench(copy);
      const restoredGuards = guardsOf(copy, restored);
      await restoredGuards.look();
      expect(await restored.holds.all()).toMatchObject([{ scope: WHOLE_SERVICE, because: 'restored' }]);
      await restoredGuards.mark();
      expect(await restored.delivery.run()).toMatchObject({ sent: 0 });
      expect(server.texts).toHaveLength(1);
      await restored.holds.release(WHOLE_SERVICE);
      await restoredGuards.look();
      expect(await restored.holds.all()).toEqual([]);
      expect(await restored.holds.restoredAt()).toBe(clock.instant());

      // Released, what the copy had as due is still nobody's business but a person's.
      expect(await restored.delivery.run()).toMatchObject({ sent: 0 });
      expect(await mailsOf(copy, companyId)).toMatchObject([{ state: 'in_doubt' }]);
      await restored.outbox.write(companyId, newMail({ dedupeKey: 'new' }));
      expect(await restored.delivery.run()).toMatchObject({ sent: 1 });
    } finally {
      await copy.close();
    }
  });

  it('is held too when a database that has sent mail comes into a folder that has not', async () => {
    const given = bench();
    const guards = guardsOf(temporary.database, given);
    await guards.mark();
    await guards.look();
    expect(await given.holds.all()).toEqual([]);
    await rm(path.join(temporary.directory, 'mail-mark.json'));
    await guards.look();
    expect(await given.holds.all()).toMatchObject([{ because: 'restored' }]);
  });

  it('does not hold a database that has never sent mail, nor one whose rounds go on', async () => {
    const given = bench();
    const guards = guardsOf(temporary.database, given);
    await guards.look();
    for (let round = 0; round < 3; round++) {
      await guards.mark();
      await guards.look();
    }
    await copyFile(path.join(temporary.directory, 'mail-mark.json'), path.join(temporary.directory, 'seen.json'));
    expect(await given.holds.all()).toEqual([]);
  });

  it('is held when the clock of the machine jumps by more than a day', () => {
    let wallMs = 0;
    let steadyMs = 0;
    const watch = new ClockWatch(
      () => wallMs,
      () => steadyMs,
    );
    const pass = (wallHours: number, steadyHours: number) => {
      wallMs += wallHours * 3_600_000;
      steadyMs += steadyHours * 3_600_000;
      return watch.jumpedHours();
    };
    expect(watch.jumpedHours()).toBe(0);
    // Clock changes, corrections, a day gone by, a step back: none is a jump.
    for (const [wall, steady] of [
      [1, 1],
      [2, 1],
      [0, 1],
      [24, 24],
      [-24, 0.1],
      [24, 0.1],
    ] as const) {
      expect(pass(wall, steady)).toBe(0);
    }
    expect(pass(24 * 365, 0.1)).toBeCloseTo(24 * 365 - 0.1, 6);
    expect(pass(1, 1)).toBe(0);
  });
});
