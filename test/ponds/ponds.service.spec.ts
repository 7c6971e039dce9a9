import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { newId } from '../../src/platform/ids.js';
import { EquipmentEntity, pondInputOf, readPondInput } from '../../src/ponds/index.js';
import { type CareStack, careStack } from '../support/care-stack.js';
import { storeCompany } from '../support/company-rows.js';
import { aPond } from '../support/typed-pond.js';

let stack: CareStack;
beforeAll(async () => {
  stack = await careStack({ isPlanned: false });
});
afterAll(() => stack.close());

const save = (own: Parameters<typeof aPond>[0] = {}) => stack.ponds.create(stack.companyId, aPond(own));
const get = (pondId: string) => stack.ponds.get(stack.companyId, pondId);

describe('PondsService', () => {
  it('keeps a pond with its computed volume, method, uncertainty and time zone', async () => {
    const { pond, equipment, stock } = await get(await save());
    expect(pond).toMatchObject({
      volumeMethod: 'average-depth',
      volumeSigmaPct: 20,
      timeZone: 'America/Chicago',
      version: 1,
    });
    expect(pond.volumeL).toBeCloseTo((Math.PI / 4) * 5 * 3 * 0.9 * 0.95 * 1000, 6);
    expect(equipment.map(({ kind }) => kind).sort()).toEqual([
      'biological-filter',
      'mechanical-filter',
      'pump',
      'uv-lamp',
    ]);
    expect(stock).toMatchObject([{ species: 'koi', headCount: 8, lengthCm: 35 }]);
  });

  it('takes a metered volume over that of the shape', async () => {
    const { water } = aPond();
    const shape = water.method === 'shape' ? water.shape : undefined;
    const { pond } = await get(await save({ water: { method: 'metered', volumeL: 9000, shape } }));
    expect(pond).toMatchObject({ volumeL: 9000, volumeMethod: 'metered-fill', volumeSigmaPct: 2, maxDepthM: 1.2 });
  });

  it('stores a metered pond of which no shape is known', async () => {
    const { pond } = await get(
      await save({ water: { method: 'metered', volumeL: 6000, surfaceAreaM2: 8, maxDepthM: 1 } }),
    );
    expect(pond.shape).toBeNull();
    expect(pond.meanDepthM).toBeCloseTo(0.75, 9);
  });

  it('saves an edit: machines keep their identity, missing ones leave the register but stay as rows', async () => {
    const pondId = await save();
    const record = await get(pondId);
    const typed = pondInputOf(record);
    const lamp = record.equipment.find(({ kind }) => kind === 'uv-lamp')!;
    const equipment = [
      ...typed.equipment.filter(({ kind }) => kind !== 'mechanical-filter'),
      { kind: 'aerator' as const, name: 'Air' },
    ];
    const version = await stack.ponds.update(
      stack.companyId,
      pondId,
      readPondInput({ ...typed, name: 'Koi pond', equipment }),
      1,
    );

    const after = await get(pondId);
    expect(version).toBe(2);
    expect(after.pond).toMatchObject({
      name: 'Koi pond',
      version: 2,
      careSince: '2026-03-01',
      stockedOn: '2020-06-15',
    });
    expect(after.equipment.map(({ kind }) => kind).sort()).toEqual(['aerator', 'biological-filter', 'pump', 'uv-lamp']);
    expect(after.equipment.find(({ kind }) => kind === 'uv-lamp')!.id).toBe(lamp.id);
    const gone = await stack.database
      .company(stack.companyId)
      .findOne(EquipmentEntity, { pondId, kind: 'mechanical-filter' });
    expect(gone?.removedOn).toBe('2026-05-15');
  });

  it('refuses an edit of an older version, keeps what was typed and changes nothing', async () => {
    const pondId = await save();
    await stack.ponds.update(stack.companyId, pondId, aPond({ name: 'First' }), 1);
    const late = aPond({ name: 'Second' });
    await expect(stack.ponds.update(stack.companyId, pondId, late, 1)).rejects.toMatchObject({
      code: 'stale-version',
      currentVersion: 2,
      typed: late,
    });
    expect((await get(pondId)).pond.name).toBe('First');
  });

  it('makes one pond of a form that is sent twice', async () => {
    const id = newId();
    await stack.ponds.create(stack.companyId, aPond({ name: 'Twice' }), { id });
    await stack.ponds.create(stack.companyId, aPond({ name: 'Twice' }), { id });
    expect((await stack.ponds.list(stack.companyId, { search: 'twice' })).total).toBe(1);
  });

  it('refuses a reference that another pond of the company has', async () => {
    await save({ ref: 'A-1', name: 'Holder' });
    await expect(save({ ref: 'A-1' })).rejects.toThrow(/A-1 belongs to Holder already/);
  });

  it('lists by search over names, places and contacts, by state, sorted and in pages', async () => {
    const zebra = await save({ name: 'Zebra 100% pond', town: 'Verona', contacts: [{ name: 'Ottilie Marsh' }] });
    const archived = await save({ name: 'Old Verona pond', town: 'Verona' });
    await stack.ponds.archive(stack.companyId, archived);
    await stack.ponds.noteWinter(stack.companyId, zebra, { winterClass: 'W3', winterKey: 'k' });

    const list = (query: object) => stack.ponds.list(stack.companyId, query);
    expect((await list({ search: 'ottilie VERONA' })).rows).toMatchObject([
      { pond: { name: 'Zebra 100% pond' }, contactName: 'Ottilie Marsh' },
    ]);
    expect((await list({ search: '100%' })).total).toBe(1);
    expect((await list({ search: '100_' })).total).toBe(0);
    expect((await list({ search: 'verona', state: 'archived' })).rows.map(({ pond }) => pond.id)).toEqual([archived]);
    expect(
      await list({ search: 'verona', state: 'all', sort: 'name', direction: 'DESC', page: 2, pageSize: 1 }),
    ).toMatchObject({
      total: 2,
      rows: [{ pond: { id: archived } }],
    });
    expect((await list({ search: 'verona', winterClass: 'W0' })).total).toBe(0);
    expect((await list({ search: 'verona', winterClass: 'W3' })).total).toBe(1);
    await expect(list({ pageSize: 201 })).rejects.toThrow(/1 to 200/);
  });

  it('restores what was archived', async () => {
    const pondId = await save();
    await stack.ponds.archive(stack.companyId, pondId);
    expect((await get(pondId)).pond).toMatchObject({ state: 'archived', archivedAt: '2026-05-15T15:00:00.000Z' });
    await stack.ponds.restore(stack.companyId, pondId);
    expect((await get(pondId)).pond).toMatchObject({ state: 'active', archivedAt: null, version: 3 });
  });

  it('ends contacts and their links when the house is sold, and keeps the history', async () => {
    const pondId = await save({ contacts: [{ name: 'Ana Field', email: 'ana@example.com', startedOn: '2024-01-01' }] });
    const [contact] = (await get(pondId)).contacts;
    const token = await stack.links.issue({
      purpose: 'my-pond',
      companyId: stack.companyId,
      personId: contact!.personId,
      objectId: pondId,
      expiresAt: null,
    });
    await stack.ponds.sell(stack.companyId, pondId, '2026-05-10');

    const after = await get(pondId);
    expect(after.contacts).toMatchObject([{ name: 'Ana Field', email: 'ana@example.com', endedOn: '2026-05-10' }]);
    expect(await stack.links.resolve('my-pond', token)).toBeNull();
    expect(await stack.events.list(stack.companyId, pondId)).toMatchObject([
      { kind: 'house-sold', happenedOn: '2026-05-10' },
    ]);
    await expect(stack.ponds.sell(stack.companyId, pondId, '2026-06-10')).rejects.toThrow(/in the future/);
  });

  it('knows nothing of a pond to another company', async () => {
    const pondId = await save({ name: 'Private' });
    const { company } = await storeCompany(stack.database);
    await expect(stack.ponds.get(company.id, pondId)).rejects.toMatchObject({ code: 'not-found' });
    await expect(stack.ponds.update(company.id, pondId, aPond(), 1)).rejects.toMatchObject({ code: 'not-found' });
    await expect(stack.ponds.sell(company.id, pondId, '2026-05-01')).rejects.toMatchObject({ code: 'not-found' });
    expect((await stack.ponds.list(company.id, { state: 'all' })).total).toBe(0);
    expect((await get(pondId)).pond.name).toBe('Private');
  });
});

describe('PondContactsService', () => {
  it('gives a contact with an email a person, and one without none', async () => {
    const pondId = await save({
      name: 'Call pond',
      contacts: [
        { name: 'No Mail', phone: '+1 608 555 0101' },
        { name: 'With Mail', email: 'With@Example.com' },
      ],
    });
    const { contacts } = await get(pondId);
    expect(contacts.find(({ name }) => name === 'With Mail')).toMatchObject({ email: 'with@example.com' });
    expect(contacts.find(({ name }) => name === 'No Mail')).toMatchObject({ personId: null, email: null });
  });

  it('stops and resumes the mail of a person for all their ponds at once', async () => {
    const contacts = [{ name: 'Two Ponds', email: 'two@example.com' }];
    const ponds = [await save({ name: 'First', contacts }), await save({ name: 'Second', contacts })];
    const personId = (await get(ponds[0]!)).contacts[0]!.personId!;
    const mailed = async () => {
      const found: boolean[] = [];
      for (const pondId of ponds) found.push((await get(pondId)).contacts[0]!.mailStoppedAt === null);
      return found;
    };

    expect(await stack.contacts.stopMailTo(stack.companyId, personId)).toBe(true);
    expect(await mailed()).toEqual([false, false]);
    expect(await stack.contacts.stopMailTo(stack.companyId, personId)).toBe(false);
    await stack.contacts.resumeMailTo(stack.companyId, personId);
    expect(await mailed()).toEqual([true, true]);
  });

  it('kills the links of the old address when the address changes', async () => {
    const pondId = await save({ contacts: [{ name: 'Mover', email: 'old@example.com' }] });
    const [contact] = (await get(pondId)).contacts;
    const token = await stack.links.issue({
      purpose: 'my-pond',
      companyId: stack.companyId,
      personId: contact!.personId,
      objectId: pondId,
      expiresAt: null,
    });
    const { contacts } = aPond({ contacts: [{ name: 'Mover', email: 'new@example.com' }] });
    await stack.contacts.edit(stack.companyId, contact!.id, contacts[0]!);
    expect((await get(pondId)).contacts).toMatchObject([{ id: contact!.id, email: 'new@example.com' }]);
    expect(await stack.links.resolve('my-pond', token)).toBeNull();
  });
});
