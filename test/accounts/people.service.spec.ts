import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { DEFAULT_DECHLORINATOR } from '../../src/accounts/companies.service.js';
import {
  AlreadyMemberError,
  CompanyNotFoundError,
  FirstAccountExistsError,
  LastOwnerError,
  PasswordsService,
  PersonNotFoundError,
  UnusablePasswordError,
} from '../../src/accounts/index.js';
import { loadDechlorinators } from '../../src/config/index.js';
import { InvalidValueError } from '../../src/core/errors.js';
import { newId } from '../../src/platform/ids.js';
import { AccountsBench, PASSWORD } from '../support/accounts-bench.js';

describe('the people of companies', () => {
  let bench: AccountsBench;

  beforeEach(async () => {
    bench = await AccountsBench.open('2026-11-25T08:00:00.000Z');
  });
  afterEach(() => bench.close());

  it('are one person per address, however it is written and however many ask at once', async () => {
    const all = await Promise.all(
      ['Ada@Example.com', ' ada@example.com', 'ADA@EXAMPLE.COM '].map((email) =>
        bench.people.ensurePerson({ email, name: 'Ada Berg' }),
      ),
    );
    expect(new Set(all.map((person) => person.id)).size).toBe(1);
    expect((await bench.people.findByEmail('aDa@example.com'))?.email).toBe('ada@example.com');
  });

  it('keep the name they have when somebody else adds them', async () => {
    await bench.people.ensurePerson({ email: 'ada@example.com', name: 'Ada Berg' });
    expect((await bench.people.ensurePerson({ email: 'ada@example.com', name: 'A. B.' })).name).toBe('Ada Berg');
  });

  it.each([
    ['', /email/],
    ['ada', /email/],
    ['ada@example', /email/],
    ['ada@example.com, eve@example.com', /email/],
    ['ada@example.com\r\nBcc: eve@example.com', /email/],
    [`${'a'.repeat(65)}@example.com`, /email/],
    ['ada <ada@example.com>', /email/],
  ])('are not added under the address %j', async (email, words) => {
    await expect(bench.people.ensurePerson({ email, name: 'Ada' })).rejects.toThrow(words);
  });

  it.each(['', '   ', 'Ada\nBcc: x', 'Ada\u202Egreb', 'x'.repeat(201)])(
    'are not added under the name %j',
    async (name) => {
      await expect(bench.people.ensurePerson({ email: 'ada@example.com', name })).rejects.toThrow(InvalidValueError);
    },
  );

  it('have one place in a company, which can end and begin anew', async () => {
    const { company, member } = await bench.member('owner', 'kim@example.com');
    const lee = {
      companyId: company.id,
      email: 'lee@example.com',
      name: 'Lee Ott',
      role: 'technician',
      skills: ['electrics'],
    } as const;
    await bench.people.addMember(lee);
    await expect(bench.people.addMember(lee)).rejects.toThrow(AlreadyMemberError);
    const [technician] = await bench.people.technicians(company.id);
    expect(technician).toMatchObject({
      name: 'Lee Ott',
      role: 'technician',
      skills: ['electrics'],
      hasPassword: false,
    });
    expect((await bench.people.membersOf(company.id)).map((one) => one.name)).toEqual([member.name, 'Lee Ott']);

    await bench.people.endMembership(company.id, technician!.personId);
    expect(await bench.people.technicians(company.id)).toEqual([]);
    await expect(bench.people.endMembership(company.id, technician!.personId)).rejects.toThrow(PersonNotFoundError);
    const again = await bench.people.addMember({ ...lee, role: 'office', skills: [] });
    expect(again).toMatchObject({ personId: technician!.personId, role: 'office', skills: [] });
  });

  it('keep their own password when a second company adds them with another', async () => {
    await bench.member('technician', 'sam@example.com', PASSWORD);
    await bench.member('office', 'sam@example.com', 'the second company wants this');
    await expect(bench.sessions.signIn('sam@example.com', 'the second company wants this')).rejects.toThrow();
    await expect(bench.sessions.signIn('sam@example.com', PASSWORD)).resolves.toBeDefined();
  });

  it('never lose their last account owner', async () => {
    const { company, member } = await bench.member('owner', 'kim@example.com');
    await expect(bench.people.endMembership(company.id, member.personId)).rejects.toThrow(LastOwnerError);
    await bench.people.addMember({ companyId: company.id, email: 'lee@example.com', name: 'Lee', role: 'owner' });
    await bench.people.endMembership(company.id, member.personId);
    expect((await bench.people.membersOf(company.id)).map((one) => one.name)).toEqual(['Lee']);
  });

  it.each([
    ['short', /8 to 256/],
    ['x'.repeat(257), /8 to 256/],
    ['aaaaaaaa', /repeats/],
    ['abababab', /repeats/],
    ['12345678', /keyboard/],
    ['87654321', /keyboard/],
    ['qwertyuiop', /keyboard/],
    ['Password1', /tried first/],
    ['p@ssw0rd!!', /tried first/],
    ['summer2026', /tried first/],
    ['Tarnkeep1!', /tried first/],
    ['koikoi2026', /tried first/],
    ['kim.vale99', /mail address/],
  ])('may not choose the password %s', async (password, words) => {
    const { member } = await bench.member('office', 'kim.vale@example.com');
    const refused = await bench.people.setPassword(member.personId, password).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(UnusablePasswordError);
    expect((refused as Error).message).toMatch(words);
    expect((refused as Error).message).not.toContain(password);
  });

  it.each(['four koi under a lily', 'Zw7#kq!m', 'ünïcödé wörds', '    eight and spaces   '])(
    'may choose the password %j',
    async (password) => {
      const { member } = await bench.member('office', 'kim@example.com');
      await bench.people.setPassword(member.personId, password);
      await expect(bench.sessions.signIn('kim@example.com', password)).resolves.toBeDefined();
      await expect(bench.sessions.signIn('kim@example.com', password.trim().concat('.'))).rejects.toThrow();
    },
  );

  it('have their passwords hashed four at a time, each with 19 MiB', async () => {
    const passwords = new PasswordsService();
    const line = passwords as unknown as { running: number; waiting: unknown[] };
    const all = Array.from({ length: 10 }, (_, i) => passwords.hash(`lily pad number ${i}`, 'a@b.c'));
    expect({ running: line.running, waiting: line.waiting.length }).toEqual({ running: 4, waiting: 6 });
    const hashes = await Promise.all(all);
    expect({ running: line.running, waiting: line.waiting.length }).toEqual({ running: 0, waiting: 0 });
    expect(new Set(hashes).size).toBe(10);
    expect(hashes.every((hash) => hash.startsWith('$argon2id$v=19$m=19456,t=2,p=1$'))).toBe(true);
    expect(passwords.isOutdated(hashes[0]!)).toBe(false);
    expect(passwords.isOutdated('$argon2id$v=19$m=4096,t=1,p=1$x$y')).toBe(true);
    expect(await passwords.verify(hashes[3]!, 'lily pad number 3')).toBe(true);
    expect(await passwords.verify(hashes[3]!, 'lily pad number 4')).toBe(false);
    expect(await passwords.verify(null, 'anything at all')).toBe(false);
  });
});

describe('companies', () => {
  let bench: AccountsBench;
  beforeEach(async () => {
    bench = await AccountsBench.open('2026-11-25T08:00:00.000Z');
  });
  afterEach(() => bench.close());

  it('begin with a dechlorinator that is on the list', () => {
    const { products } = loadDechlorinators(path.resolve('config'));
    expect(products.map((product) => product.id)).toContain(DEFAULT_DECHLORINATOR);
  });

  it('change only in what is named', async () => {
    const { company } = await bench.member('owner', 'kim@example.com');
    const changed = await bench.companies.update(company.id, { phone: '+1 608 555 0101', defaultDoneBy: 'homeowner' });
    expect(changed).toEqual({ ...company, phone: '+1 608 555 0101', defaultDoneBy: 'homeowner' });
    expect(await bench.companies.get(company.id)).toEqual(changed);
  });

  it('refuse what cannot be used, and change nothing', async () => {
    const { company } = await bench.member('owner', 'kim@example.com');
    const change = (one: object) => bench.companies.update(company.id, one);
    await expect(change({ timeZone: 'Chicago' })).rejects.toThrow(/timeZone: "Chicago".*America\/Chicago/);
    await expect(change({ replyToEmail: 'nobody' })).rejects.toThrow(/email/);
    await expect(change({ name: '' })).rejects.toThrow(/name/);
    await expect(bench.companies.update(newId(), { name: 'X' })).rejects.toThrow(CompanyNotFoundError);
    expect(await bench.companies.all()).toEqual([company]);
  });

  it('begin with a first account, once', async () => {
    expect(await bench.firstAccount.isNeeded()).toBe(true);
    const account = {
      companyName: 'Mill Pond Services',
      postalAddress: '1 Weir Road\nLeeds',
      timeZone: 'Europe/London',
      units: 'metric',
      name: 'Robin Hale',
      email: 'robin@example.com',
      password: PASSWORD,
    } as const;
    await expect(bench.firstAccount.create({ ...account, password: 'password' })).rejects.toThrow(
      UnusablePasswordError,
    );
    await expect(bench.firstAccount.create({ ...account, timeZone: 'Leeds' })).rejects.toThrow(InvalidValueError);
    expect(await bench.firstAccount.isNeeded()).toBe(true);

    const both = await Promise.allSettled([
      bench.firstAccount.create(account),
      bench.firstAccount.create({ ...account, email: 'eve@example.com' }),
    ]);
    expect(both.map((one) => one.status).sort()).toEqual(['fulfilled', 'rejected']);
    expect(await bench.firstAccount.isNeeded()).toBe(false);
    await expect(bench.firstAccount.create(account)).rejects.toThrow(FirstAccountExistsError);
    const [company] = await bench.companies.all();
    expect(company).toMatchObject({
      name: 'Mill Pond Services',
      units: 'metric',
      timeZone: 'Europe/London',
      isDemo: false,
    });
    expect((await bench.people.membersOf(company!.id)).map((one) => one.role)).toEqual(['owner']);
  });
});
