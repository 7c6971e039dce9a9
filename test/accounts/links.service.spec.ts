import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { LinkTokenEntity, type NewLink } from '../../src/accounts/index.js';
import { newId } from '../../src/platform/ids.js';
import { AccountsBench } from '../support/accounts-bench.js';

describe('LinksService', () => {
  let bench: AccountsBench;
  let link: NewLink;

  beforeEach(async () => {
    bench = await AccountsBench.open('2026-11-25T08:00:00.000Z');
    const { company, member } = await bench.member('office', 'kim@example.com');
    const person = { companyId: company.id, personId: member.personId };
    link = { purpose: 'task-done', ...person, objectId: newId(), expiresAt: '2026-12-25T08:00:00.000Z' };
  });
  afterEach(() => bench.close());

  it('finds what it issued, by the token alone', async () => {
    const token = await bench.links.issue(link);
    expect(token).toMatch(/^[A-Za-z0-9_-]{43}$/);
    expect(await bench.links.resolve('task-done', token)).toMatchObject({
      purpose: 'task-done',
      issuedByCompanyId: link.companyId,
      personId: link.personId,
      objectId: link.objectId,
      usedAt: null,
    });
    const stored = JSON.stringify(await bench.database.shared().find(LinkTokenEntity));
    expect(stored).not.toContain(token);
  });

  it('does not know it under another purpose', async () => {
    const token = await bench.links.issue(link);
    for (const purpose of ['task-not-now', 'my-pond', 'stop-mail', 'visit-report', 'demo-sign-in'] as const) {
      expect(await bench.links.resolve(purpose, token)).toBeNull();
    }
  });

  it('knows no token that was changed in any place, cut or lengthened', async () => {
    const token = await bench.links.issue(link);
    const bent = [...token].map((sign, i) => token.slice(0, i) + (sign === 'A' ? 'B' : 'A') + token.slice(i + 1));
    const others = [
      '',
      'A'.repeat(43),
      token.slice(0, -1),
      `${token}A`,
      `${token}=`,
      token.toUpperCase(),
      ` ${token}`,
      '%00',
      'x'.repeat(100_000),
    ];
    for (const wrong of [...bent, ...others]) expect(await bench.links.resolve('task-done', wrong)).toBeNull();
  });

  it('ends at its instant, and never where it has none', async () => {
    const token = await bench.links.issue(link);
    const endless = await bench.links.issue({ ...link, purpose: 'stop-mail', expiresAt: null });
    bench.clock.set('2026-12-25T07:59:59.999Z');
    expect(await bench.links.resolve('task-done', token)).not.toBeNull();
    bench.clock.set('2026-12-25T08:00:00.000Z');
    expect(await bench.links.resolve('task-done', token)).toBeNull();
    bench.clock.advance({ days: 3650 });
    expect(await bench.links.resolve('stop-mail', endless)).not.toBeNull();
  });

  it('says of one use only that it was the first', async () => {
    const token = await bench.links.issue(link);
    const { id } = (await bench.links.resolve('task-done', token))!;
    const uses = await Promise.all([bench.links.markUsed(id), bench.links.markUsed(id), bench.links.markUsed(id)]);
    expect(uses.filter(Boolean)).toHaveLength(1);
    expect((await bench.links.resolve('task-done', token))?.usedAt).toBe('2026-11-25T08:00:00.000Z');
  });

  it('revokes all of an object, or all of a person in one company', async () => {
    const other = await bench.member('office', 'lee@example.com');
    const ofObject = await bench.links.issue(link);
    const samePerson = await bench.links.issue({ ...link, objectId: newId() });
    const otherCompany = await bench.links.issue({ ...link, companyId: other.company.id, objectId: newId() });
    const resolve = (token: string) => bench.links.resolve('task-done', token);

    expect(await bench.links.revokeFor(link.objectId)).toBe(1);
    expect(await resolve(ofObject)).toBeNull();
    expect(await resolve(samePerson)).not.toBeNull();
    expect(await bench.links.revokeForPerson(link.companyId, link.personId!)).toBe(1);
    expect(await resolve(samePerson)).toBeNull();
    expect(await resolve(otherCompany)).not.toBeNull();
  });
});
