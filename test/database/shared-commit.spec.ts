import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { SharedCommit } from '../../src/database/index.js';
import { PondEntity } from '../../src/ponds/pond.entity.js';
import { pondRow, storeCompany } from '../support/company-rows.js';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database.js';

describe('SharedCommit', () => {
  let temporary: TemporaryDatabase;
  let companyId: string;
  beforeEach(async () => {
    temporary = await temporaryDatabase();
    companyId = (await storeCompany(temporary.database)).company.id;
  });
  afterEach(() => temporary.close());

  const store = () => temporary.database.company(companyId);
  const insert = (ref: string) => () => store().insert(PondEntity, pondRow({ id: crypto.randomUUID(), ref }) as never);

  it('tells each its own outcome, after the commit that holds it', async () => {
    const commits = new SharedCommit(temporary.database, 'test');
    const answers = await Promise.all(
      Array.from({ length: 40 }, (_, i) =>
        commits.run(async () => {
          await insert(`P-${i}`)();
          return i;
        }),
      ),
    );
    expect(answers).toEqual(Array.from({ length: 40 }, (_, i) => i));
    expect(await store().count(PondEntity, {})).toBe(40);
  });

  it('puts what waits together into one unit of work', async () => {
    let units = 0;
    const counted = {
      unitOfWork: (name: string, work: () => Promise<unknown>) => {
        units += 1;
        return temporary.database.unitOfWork(name, work);
      },
    } as typeof temporary.database;
    const commits = new SharedCommit(counted, 'test');
    await Promise.all(Array.from({ length: 30 }, (_, i) => commits.run(insert(`P-${i}`))));
    expect(units).toBe(1);
  });

  it('lets a fault of one be nobody else’s', async () => {
    const commits = new SharedCommit(temporary.database, 'test');
    const results = await Promise.allSettled([
      commits.run(insert('P-1')),
      commits.run(insert('P-1')),
      commits.run(insert('P-2')),
    ]);
    expect(results.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
    expect(await store().count(PondEntity, {})).toBe(2);
  });

  it('keeps the order in which they were asked for', async () => {
    const commits = new SharedCommit(temporary.database, 'test');
    const order: number[] = [];
    await Promise.all([3, 1, 2].map((n) => commits.run(async () => order.push(n))));
    expect(order).toEqual([3, 1, 2]);
  });
});
