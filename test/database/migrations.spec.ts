import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { DataSource, getMetadataArgsStorage } from 'typeorm';
import {
  CompanyEntity,
  LinkTokenEntity,
  MembershipEntity,
  PersonEntity,
  SessionEntity,
} from '../../src/accounts/index.js';
import { Database, MIGRATIONS, openDatabase } from '../../src/database/index.js';
import { ENTITIES } from '../../src/entities.js';
import { JobRunEntity } from '../../src/jobs/index.js';
import { newId } from '../../src/platform/ids.js';
import { PondEntity } from '../../src/ponds/pond.entity.js';
import { StockGroupEntity } from '../../src/ponds/stock-group.entity.js';
import { AT, companyRow, personRow, storeCompany, storePond } from '../support/company-rows.js';
import { crossingFigures, crossingJob } from '../support/crossing-jobs.js';
import { oneOfEach } from '../support/one-of-each.js';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database.js';
import { type TemporaryPostgres, temporaryPostgres } from '../support/temporary-postgres.js';

interface ColumnOfTable {
  readonly table: string;
  readonly column: string;
  readonly isNullable: boolean;
}

describe('the migrations', () => {
  let sqlite: TemporaryDatabase;
  let server: TemporaryPostgres;
  let postgresUrl: string;
  let postgres: Database;

  beforeAll(async () => {
    [sqlite, server] = await Promise.all([temporaryDatabase(), temporaryPostgres()]);
    postgresUrl = await server.newDatabase('smoke');
    postgres = await openDatabase({ kind: 'postgres', url: postgresUrl }, ENTITIES);
  }, 120_000);

  afterAll(async () => {
    await postgres?.close();
    await server?.stop();
    await sqlite?.close();
  });

  const engine = (name: string): Database => (name === 'SQLite' ? sqlite.database : postgres);

  it('make the same tables and columns on both engines', async () => {
    const onSqlite = await columnsOfSqlite(sqlite.target.file);
    expect(await columnsOfPostgres(postgresUrl)).toEqual(onSqlite);
    expect(new Set(onSqlite.map((one) => one.table)).size).toBe(ENTITIES.length + 1); // and write_turn
  });

  it('make exactly the columns the entities speak of, and let null in where they do', async () => {
    const spoken = getMetadataArgsStorage()
      .columns.filter((column) => ENTITIES.includes(column.target as never))
      .map((column) => ({
        table: getMetadataArgsStorage().tables.find((table) => table.target === column.target)!.name as string,
        column: column.options.name!,
        isNullable: column.options.nullable === true,
      }));
    const made = (await columnsOfSqlite(sqlite.target.file)).filter((one) => one.table !== 'write_turn');
    expect(made).toEqual(sorted(spoken));
  });

  it('give every table of a company the column company_id', async () => {
    const owned = getMetadataArgsStorage().columns.filter((column) => column.propertyName === 'companyId');
    expect(owned.every((column) => column.options.name === 'company_id' && column.options.nullable !== true)).toBe(
      true,
    );
    expect(owned.length).toBeGreaterThanOrEqual(16);
  });

  it.each(['SQLite', 'PostgreSQL'])('hold a row of every table on %s and give it back as it was', async (name) => {
    const database = engine(name);
    const { company, owner } = await storeCompany(database);
    const samples = oneOfEach(owner.id);
    await database.unitOfWork('fill', async () => {
      for (const { entity, row } of samples) await database.company(company.id).insert(entity, row as never);
    });
    for (const { entity, row, key } of samples) {
      const found = await database.company(company.id).findOne(entity, { [key]: row[key] } as never);
      expect(found).toMatchObject({ ...row, companyId: company.id });
    }
  });

  it.each(['SQLite', 'PostgreSQL'])('hold a row of every shared table on %s', async (name) => {
    const database = engine(name);
    const { company, owner } = await storeCompany(database, { isDemo: true });
    const link = { id: newId(), tokenHash: newId(), purpose: 'my-pond', issuedByCompanyId: company.id } as const;
    const ends = {
      personId: owner.id,
      objectId: owner.id,
      expiresAt: null,
      usedAt: null,
      revokedAt: null,
      createdAt: AT,
    };
    const session = { id: newId(), tokenHash: newId(), formToken: 'f', personId: owner.id, role: 'owner' } as const;
    const times = { actingForCompanyId: company.id, createdAt: AT, usedAt: AT, expiresAt: AT };
    const run = { runKey: `a-job:${newId()}`, state: 'claimed', claimedAt: AT, finishedAt: null, outcome: '' } as const;
    await database.unitOfWork('fill', async () => {
      await database.shared().insert(LinkTokenEntity, { ...link, ...ends });
      await database.shared().insert(SessionEntity, { ...session, ...times });
      await database.shared().insert(JobRunEntity, run);
    });
    const shared = database.shared();
    expect(await shared.findOne(CompanyEntity, { id: company.id })).toMatchObject(company);
    expect(await shared.findOne(PersonEntity, { id: owner.id })).toMatchObject(owner);
    expect(await shared.findOne(MembershipEntity, { personId: owner.id })).toMatchObject({ role: 'owner', skills: [] });
    expect(await shared.findOne(LinkTokenEntity, { id: link.id })).toMatchObject({ ...link, ...ends });
    expect(await shared.findOne(SessionEntity, { id: session.id })).toMatchObject({ ...session, ...times });
    expect(await shared.findOne(JobRunEntity, { runKey: run.runKey })).toMatchObject(run);
  });

  it.each(['SQLite', 'PostgreSQL'])(
    'refuse on %s a word outside a closed set and a row on a foreign pond',
    async (name) => {
      const database = engine(name);
      const { company } = await storeCompany(database);
      const other = await storeCompany(database);
      const pondId = await storePond(database, other.company.id);
      const miles = companyRow({ units: 'miles' as 'us' });
      await expect(database.unitOfWork('x', () => database.shared().insert(CompanyEntity, miles))).rejects.toThrow(
        /check/i,
      );
      const stock = { id: newId(), pondId, species: 'koi', headCount: 1, lengthCm: 30 } as const;
      const foreign = () => database.company(company.id).insert(StockGroupEntity, stock);
      await expect(database.unitOfWork('x', foreign)).rejects.toThrow(/foreign key/i);
    },
  );

  it.each(['SQLite', 'PostgreSQL'])('name a clash with a unique key on %s', async (name) => {
    const database = engine(name);
    const person = personRow();
    const add = () => database.unitOfWork('add', () => database.shared().insert(PersonEntity, person));
    await add();
    expect(Database.isUniqueViolation(await add().catch((error: unknown) => error))).toBe(true);
  });

  it('try a unit again on PostgreSQL when it ran into another', async () => {
    const { company } = await storeCompany(postgres);
    const pondId = await storePond(postgres, company.id);
    let attempts = 0;
    let meet: () => void = () => undefined;
    const bothHaveRead = new Promise<void>((done) => {
      meet = done;
    });
    const raise = () =>
      postgres.unitOfWork('raise', async () => {
        const pond = (await postgres.company(company.id).findOne(PondEntity, { id: pondId }))!;
        attempts++;
        if (attempts === 2) meet();
        await bothHaveRead;
        await postgres.company(company.id).update(PondEntity, { id: pondId }, { version: pond.version + 1 });
      });
    await Promise.all([raise(), raise()]);
    expect(attempts).toBe(3);
    expect((await postgres.company(company.id).findOne(PondEntity, { id: pondId }))?.version).toBe(3);
  });

  it('let units at once on PostgreSQL lose nothing', async () => {
    const { company } = await storeCompany(postgres);
    const pondId = await storePond(postgres, company.id);
    const stock = { id: newId(), pondId, species: 'koi', headCount: 1, lengthCm: 30 } as const;
    await postgres.unitOfWork('stock', () => postgres.company(company.id).insert(StockGroupEntity, stock));
    const at = { companyId: company.id, pondId, stockId: stock.id };
    const kept = await Promise.all(Array.from({ length: 30 }, (_, i) => crossingJob(postgres, at, i % 3 !== 0)));
    expect(kept.filter((id) => id !== null)).toHaveLength(20);
    const figures = await crossingFigures(postgres, at);
    expect([figures.version, figures.heads, Number(figures.events)]).toEqual([21, 21, 20]);
  });

  it('run once on PostgreSQL when a new database is opened twice at the same moment', async () => {
    const target = { kind: 'postgres', url: await server.newDatabase('twice') } as const;
    const both = await Promise.all([openDatabase(target, ENTITIES), openDatabase(target, ENTITIES)]);
    expect(await both[0].shared().count(CompanyEntity)).toBe(0);
    await Promise.all(both.map((one) => one.close()));
  });

  it('can be taken back on an empty database', async () => {
    const raw = new DataSource({ type: 'postgres', url: await server.newDatabase('back'), migrations: MIGRATIONS });
    await raw.initialize();
    await raw.runMigrations({ transaction: 'each' });
    for (const _ of MIGRATIONS) await raw.undoLastMigration();
    const left = await raw.query(`SELECT table_name FROM information_schema.tables WHERE table_schema = 'public'`);
    expect(left).toEqual([{ table_name: 'migrations' }]);
    await raw.destroy();
  });
});

async function columnsOfSqlite(file: string): Promise<ColumnOfTable[]> {
  const raw = await new DataSource({ type: 'sqlite', database: file }).initialize();
  const rows: { table: string; column: string; barred: number; key: number }[] = await raw.query(
    `SELECT m.name AS "table", c.name AS "column", c."notnull" AS barred, c.pk AS key
       FROM sqlite_master m JOIN pragma_table_info(m.name) c
      WHERE m.type = 'table' AND m.name NOT IN ('migrations', 'sqlite_sequence')`,
  );
  await raw.destroy();
  return sorted(
    rows.map(({ table, column, barred, key }) => ({ table, column, isNullable: barred === 0 && key === 0 })),
  );
}

async function columnsOfPostgres(url: string): Promise<ColumnOfTable[]> {
  const raw = await new DataSource({ type: 'postgres', url }).initialize();
  const rows: { table: string; column: string; nullable: string }[] = await raw.query(
    `SELECT table_name AS "table", column_name AS "column", is_nullable AS nullable
       FROM information_schema.columns WHERE table_schema = 'public' AND table_name <> 'migrations'`,
  );
  await raw.destroy();
  return sorted(rows.map(({ table, column, nullable }) => ({ table, column, isNullable: nullable === 'YES' })));
}

function sorted(columns: ColumnOfTable[]): ColumnOfTable[] {
  const key = (one: ColumnOfTable) => `${one.table}.${one.column}`;
  return columns.sort((a, b) => (key(a) < key(b) ? -1 : 1));
}
