import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { SessionEntity, SessionsService, SignInRefusedError, TooManyAttemptsError } from '../../src/accounts/index.js';
import { AccountsBench, PASSWORD } from '../support/accounts-bench.js';

describe('SessionsService', () => {
  let bench: AccountsBench;
  let sessions: SessionsService;

  beforeEach(async () => {
    bench = await AccountsBench.open('2026-11-25T08:00:00.000Z');
    sessions = bench.sessions;
  });
  afterEach(() => bench.close());

  it('signs a member in, and knows who it is from the token alone', async () => {
    const { company, member } = await bench.member('office', 'kim@example.com');
    const signedIn = await sessions.signIn(' Kim@Example.com ', PASSWORD, { address: '192.0.2.1' });
    expect(signedIn).toMatchObject({ companyId: company.id, personId: member.personId, role: 'office' });
    const actor = await sessions.actorOf(signedIn.token);
    expect(actor).toMatchObject({
      personId: member.personId,
      name: member.name,
      email: 'kim@example.com',
      companyId: company.id,
      companyName: company.name,
      role: 'office',
      units: 'us',
      timeZone: 'America/Chicago',
      isDemo: false,
    });
    expect(actor!.formToken).toHaveLength(43);
    expect(actor!.formToken).not.toBe(signedIn.token);
  });

  it('stores nothing from which a token could be read', async () => {
    await bench.member('office', 'kim@example.com');
    const { token } = await sessions.signIn('kim@example.com', PASSWORD);
    const [row] = await bench.database.shared().find(SessionEntity);
    expect(JSON.stringify(row)).not.toContain(token);
    expect(row!.tokenHash).toMatch(/^[0-9a-f]{64}$/);
  });

  it('gives a new token at every sign-in, and both live', async () => {
    await bench.member('office', 'kim@example.com');
    const [a, b] = [
      await sessions.signIn('kim@example.com', PASSWORD),
      await sessions.signIn('kim@example.com', PASSWORD),
    ];
    expect(a.token).not.toBe(b.token);
    expect(await sessions.actorOf(a.token)).not.toBeNull();
    expect(await sessions.actorOf(b.token)).not.toBeNull();
  });

  it('gives the same answer for an unknown address, a wrong password and a member without one', async () => {
    await bench.member('office', 'kim@example.com');
    await bench.member('technician', 'no-password@example.com', null);
    const answers = await Promise.all(
      [
        ['nobody@example.com', PASSWORD],
        ['kim@example.com', `${PASSWORD}!`],
        ['no-password@example.com', PASSWORD],
        ['not an address', 'x'.repeat(300)],
      ].map(([email, password]) => sessions.signIn(email!, password!).catch((error: unknown) => error)),
    );
    for (const answer of answers) {
      expect(answer).toBeInstanceOf(SignInRefusedError);
      expect((answer as Error).message).toBe((answers[0] as Error).message);
    }
  });

  it('takes as long for an unknown address as for a wrong password', async () => {
    await bench.member('office', 'kim@example.com');
    const times = { known: [] as number[], unknown: [] as number[] };
    for (let i = 0; i < 9; i++) {
      for (const kind of ['known', 'unknown'] as const) {
        const email = kind === 'known' ? 'kim@example.com' : 'nobody@example.com';
        const started = performance.now();
        await sessions.signIn(email, 'wrong password', { address: `192.0.2.${i}` }).catch(() => undefined);
        times[kind].push(performance.now() - started);
      }
    }
    const median = (values: number[]) => values.sort((a, b) => a - b)[4]!;
    // Without the hash for nobody the unknown address would answer some fifty times faster.
    expect(median(times.unknown)).toBeGreaterThan(median(times.known) / 2);
  });

  it('ends an office session after twelve hours, or after two without a request', async () => {
    await bench.member('office', 'kim@example.com');
    const idle = await sessions.signIn('kim@example.com', PASSWORD);
    bench.clock.advance({ minutes: 119 });
    expect(await sessions.actorOf(idle.token)).not.toBeNull();
    await bench.database.unitOfWork('wait for the note of use', async () => undefined);
    bench.clock.advance({ minutes: 119 });
    expect(await sessions.actorOf(idle.token)).not.toBeNull();
    await bench.database.unitOfWork('wait for the note of use', async () => undefined);
    bench.clock.advance({ minutes: 120 });
    expect(await sessions.actorOf(idle.token)).toBeNull();

    const busy = await sessions.signIn('kim@example.com', PASSWORD);
    for (let hour = 1; hour < 12; hour++) {
      bench.clock.advance({ hours: 1 });
      expect(await sessions.actorOf(busy.token)).not.toBeNull();
      await bench.database.unitOfWork('wait for the note of use', async () => undefined);
    }
    bench.clock.advance({ hours: 1 });
    expect(await sessions.actorOf(busy.token)).toBeNull();
  });

  it('keeps a technician for thirty days, also when the phone lay in the van', async () => {
    await bench.member('technician', 'lee@example.com');
    const { token } = await sessions.signIn('lee@example.com', PASSWORD);
    bench.clock.advance({ days: 29, hours: 23 });
    expect((await sessions.actorOf(token))?.role).toBe('technician');
    bench.clock.advance({ hours: 1 });
    expect(await sessions.actorOf(token)).toBeNull();
  });

  it('signs out one session, or all of a person', async () => {
    const { member } = await bench.member('office', 'kim@example.com');
    const [a, b, c] = [
      await sessions.signIn('kim@example.com', PASSWORD),
      await sessions.signIn('kim@example.com', PASSWORD),
      await sessions.signIn('kim@example.com', PASSWORD),
    ];
    await sessions.signOut(a.token);
    expect(await sessions.actorOf(a.token)).toBeNull();
    expect(await sessions.actorOf(b.token)).not.toBeNull();
    expect(await sessions.signOutEverywhere(member.personId)).toBe(2);
    expect(await sessions.actorOf(b.token)).toBeNull();
    expect(await sessions.actorOf(c.token)).toBeNull();
  });

  it('ends with the membership, a new password, or a disabled person', async () => {
    const { company, member } = await bench.member('office', 'kim@example.com');
    const first = await sessions.signIn('kim@example.com', PASSWORD);
    await bench.people.setPassword(member.personId, 'another long enough one');
    expect(await sessions.actorOf(first.token)).toBeNull();

    const second = await sessions.signIn('kim@example.com', 'another long enough one');
    await bench.people.endMembership(company.id, member.personId);
    expect(await sessions.actorOf(second.token)).toBeNull();
    await expect(sessions.signIn('kim@example.com', 'another long enough one')).rejects.toThrow(SignInRefusedError);
  });

  it('does not know a token that was never given', async () => {
    expect(await sessions.actorOf('')).toBeNull();
    expect(await sessions.actorOf('A'.repeat(43))).toBeNull();
  });

  it('signs in at the widest place, or at the one asked for', async () => {
    const one = await bench.member('technician', 'sam@example.com');
    const two = await bench.member('owner', 'sam@example.com');
    expect(await sessions.signIn('sam@example.com', PASSWORD)).toMatchObject({
      companyId: two.company.id,
      role: 'owner',
    });
    const place = { companyId: one.company.id, role: 'technician' } as const;
    expect(await sessions.signIn('sam@example.com', PASSWORD, { place })).toMatchObject(place);
    const foreign = { companyId: one.company.id, role: 'owner' } as const;
    await expect(sessions.signIn('sam@example.com', PASSWORD, { place: foreign })).rejects.toThrow(SignInRefusedError);
  });

  it('asks those who know homeowners whether the place still stands', async () => {
    const { company, member } = await bench.member('office', 'kim@example.com');
    const { token } = await sessions.start(member.personId, company.id, 'homeowner');
    expect((await sessions.actorOf(token))?.role).toBe('homeowner');
    let owns = true;
    bench.places.addSource(async () => (owns ? [{ companyId: company.id, role: 'homeowner' }] : []));
    expect((await sessions.actorOf(token))?.role).toBe('homeowner');
    owns = false;
    expect(await sessions.actorOf(token)).toBeNull();
  });

  describe('limits failures', () => {
    const fail = (email: string, address?: string) =>
      sessions
        .signIn(email, 'wrong password', address === undefined ? {} : { address })
        .catch((error: unknown) => error);

    it('to five in a quarter of an hour for an account, right password or not', async () => {
      await bench.member('office', 'kim@example.com');
      for (let i = 0; i < 5; i++) expect(await fail('kim@example.com', '192.0.2.1')).toBeInstanceOf(SignInRefusedError);
      bench.clock.advance({ minutes: 5 });
      const refused = await sessions
        .signIn('kim@example.com', PASSWORD, { address: '192.0.2.1' })
        .catch((e: unknown) => e);
      expect(refused).toBeInstanceOf(TooManyAttemptsError);
      expect((refused as TooManyAttemptsError).retryAfterS).toBe(600);
      bench.clock.advance({ minutes: 10 });
      await expect(sessions.signIn('kim@example.com', PASSWORD, { address: '192.0.2.1' })).resolves.toBeDefined();
    });

    it('without locking the real person out, who comes from elsewhere', async () => {
      await bench.member('office', 'kim@example.com');
      for (let i = 0; i < 8; i++) await fail('kim@example.com', '192.0.2.1');
      await expect(sessions.signIn('kim@example.com', PASSWORD, { address: '198.51.100.9' })).resolves.toBeDefined();
    });

    it('to twenty a minute from one address, whatever the account', async () => {
      for (let i = 0; i < 20; i++)
        expect(await fail(`n${i}@example.com`, '192.0.2.1')).toBeInstanceOf(SignInRefusedError);
      expect(await fail('another@example.com', '192.0.2.1')).toBeInstanceOf(TooManyAttemptsError);
      expect(await fail('another@example.com', '192.0.2.2')).toBeInstanceOf(SignInRefusedError);
      bench.clock.advance({ seconds: 61 });
      expect(await fail('another@example.com', '192.0.2.1')).toBeInstanceOf(SignInRefusedError);
    }, 60_000);

    it('also when they all come at once', async () => {
      const answers = await Promise.all(Array.from({ length: 40 }, () => fail('kim@example.com', '192.0.2.1')));
      expect(answers.filter((answer) => answer instanceof SignInRefusedError)).toHaveLength(5);
      expect(answers.filter((answer) => answer instanceof TooManyAttemptsError)).toHaveLength(35);
    });

    it('and forgets them when the password was right', async () => {
      await bench.member('office', 'kim@example.com');
      for (let round = 0; round < 3; round++) {
        for (let i = 0; i < 4; i++) await fail('kim@example.com', '192.0.2.1');
        await sessions.signIn('kim@example.com', PASSWORD, { address: '192.0.2.1' });
      }
      expect(await fail('kim@example.com', '192.0.2.1')).toBeInstanceOf(SignInRefusedError);
    }, 60_000);
  });
});
