import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { PersonEntity } from '../../src/accounts/index.js';
import type { Database } from '../../src/database/index.js';
import { COMPANY_ENTITIES, ENTITIES, SHARED_ENTITIES } from '../../src/entities.js';
import { PondEntity } from '../../src/ponds/pond.entity.js';
import { StockGroupEntity } from '../../src/ponds/stock-group.entity.js';
import { personRow, pondRow, storeCompany } from '../support/company-rows.js';
import { oneOfEach, type Sample } from '../support/one-of-each.js';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database.js';

const NAMES = COMPANY_ENTITIES.map((entity) => ({ name: entity.name, entity }));

describe('CompanyStore', () => {
  let temporary: TemporaryDatabase;
  let database: Database;
  let mine: string;
  let theirs: string;
  let theirSamples: Sample[];

  beforeEach(async () => {
    temporary = await temporaryDatabase();
    database = temporary.database;
    mine = (await storeCompany(database)).company.id;
    const other = await storeCompany(database);
    theirs = other.company.id;
    theirSamples = oneOfEach(other.owner.id);
    await database.unitOfWork('fill', async () => {
      for (const { entity, row } of theirSamples) await database.company(theirs).insert(entity, row as never);
    });
  });
  afterEach(() => temporary.close());

  const theirSample = (entity: unknown) => theirSamples.find((sample) => sample.entity === entity)!;

  it('has a sample row of every table of companies', () => {
    expect(theirSamples.map((sample) => sample.entity)).toEqual([...COMPANY_ENTITIES]);
    expect(ENTITIES).toHaveLength(COMPANY_ENTITIES.length + SHARED_ENTITIES.length);
  });

  it.each(NAMES)('never shows another company a row of $name', async ({ entity }) => {
    const { key, row } = theirSample(entity);
    const id = { [key]: row[key] } as never;
    const store = database.company(mine);

    expect(await database.company(theirs).count(entity as never)).toBe(1);
    expect(await store.find(entity as never)).toEqual([]);
    expect(await store.find(entity as never, { where: [id, { companyId: theirs } as never] })).toEqual([]);
    expect(await store.findOne(entity as never, id)).toBeNull();
    expect(await store.findOne(entity as never, { ...(id as object), companyId: theirs } as never)).toBeNull();
    expect(await store.count(entity as never, { companyId: theirs } as never)).toBe(0);
    const select = () => store.select(entity as never, 'row');
    expect(await select().and('1 = 1 OR row.companyId = :other', { other: theirs }).rows()).toEqual([]);
    expect(await select().and('1 = 1').count()).toBe(0);
    expect(await select().figures({ n: 'COUNT(*)' })).toEqual([{ n: 0 }]);
  });

  it.each(NAMES)('never lets another company change or delete a row of $name', async ({ entity }) => {
    const { key, row, change } = theirSample(entity);
    const id = { [key]: row[key] } as never;
    const before = await database.company(theirs).find(entity as never);

    await database.unitOfWork('try', async () => {
      const store = database.company(mine);
      expect(await store.update(entity as never, id, change as never)).toBe(0);
      expect(await store.update(entity as never, { companyId: theirs } as never, change as never)).toBe(0);
      expect(await store.remove(entity as never, id)).toBe(0);
      expect(await store.remove(entity as never, { companyId: theirs } as never)).toBe(0);
    });

    expect(await database.company(theirs).find(entity as never)).toEqual(before);
    const changed = database.unitOfWork('own', () =>
      database.company(theirs).update(entity as never, id, change as never),
    );
    expect(await changed).toBe(1);
  });

  it('writes its own company into a row that names another', async () => {
    const row = { ...pondRow(), companyId: theirs };
    await database.unitOfWork('add', () => database.company(mine).insert(PondEntity, row));
    expect((await database.company(mine).findOne(PondEntity, { id: row.id }))?.companyId).toBe(mine);
  });

  it('refuses to hang a row on the pond of another company', async () => {
    const pondId = theirSample(PondEntity).row.id as string;
    const adding = database.unitOfWork('add', () =>
      database
        .company(mine)
        .insert(StockGroupEntity, { id: personRow().id, pondId, species: 'koi', headCount: 1, lengthCm: 20 }),
    );
    await expect(adding).rejects.toThrow(/FOREIGN KEY/);
  });

  it('refuses to move a row to another company', async () => {
    const moving = database.unitOfWork('move', () =>
      database.company(theirs).update(PondEntity, {}, { companyId: mine } as never),
    );
    await expect(moving).rejects.toThrow(/never moves to another company/);
  });

  it('finds nothing for an empty list of alternatives', async () => {
    expect(await database.company(theirs).find(PondEntity, { where: [] })).toEqual([]);
    expect(await database.company(theirs).count(PondEntity, [])).toBe(0);
    expect(await database.shared().find(PersonEntity, [])).toEqual([]);
  });

  it('refuses an undefined value instead of matching every row', async () => {
    const id = undefined as unknown as string;
    await expect(database.company(theirs).findOne(PondEntity, { id })).rejects.toThrow(/Undefined value/);
    const removing = database.unitOfWork('remove', () => database.company(theirs).remove(PondEntity, { id }));
    await expect(removing).rejects.toThrow(/Undefined value/);
    expect(await database.company(theirs).count(PondEntity)).toBe(1);
  });

  it('matches null with rows that have none', async () => {
    const archived = { archivedAt: null as unknown as string };
    expect(await database.company(theirs).count(PondEntity, archived)).toBe(1);
    expect(await database.company(theirs).count(PondEntity, { stationId: 'somewhere' })).toBe(0);
  });

  it.each([
    ['1 = 1) OR (1 = 1', {}, /brackets/],
    ['1 = 1 -- ', {}, /brackets/],
    ['pond.companyId = :scopedCompanyId', { scopedCompanyId: 'x' }, /belongs to the company scope/],
  ])('refuses the condition %s, which would step out of the company', (condition, parameters, words) => {
    const select = database.company(mine).select(PondEntity, 'pond');
    expect(() => select.and(condition, parameters)).toThrow(words);
  });

  it('refuses to sort by what is not the name of a column', () => {
    const select = database.company(mine).select(PondEntity, 'pond');
    expect(() => select.orderBy('name; DROP TABLE pond')).toThrow(/not the name of a column/);
  });

  it('joins only rows of the same company', async () => {
    const select = database
      .company(theirs)
      .select(PondEntity, 'pond')
      .join(StockGroupEntity, 'stock', 'stock.pondId = pond.id');
    expect(await select.and('stock.headCount >= :least', { least: 4 }).orderBy('name').page(0, 10).rows()).toHaveLength(
      1,
    );
    const foreign = database.company(mine).select(PondEntity, 'pond').join(StockGroupEntity, 'stock', '1 = 1');
    expect(await foreign.count()).toBe(0);
  });

  it('is refused by type for rows of no company, and the shared store for rows of companies', async () => {
    // @ts-expect-error a person belongs to no one company
    const person = () => database.company(mine).find(PersonEntity);
    await expect(person()).rejects.toThrow(/companyId/);
    // @ts-expect-error a pond belongs to a company
    const ponds = () => database.shared().find(PondEntity);
    await expect(ponds()).rejects.toThrow(/PondEntity belongs to companies/);
  });
});
