import { type Database, openDatabase } from '../../src/database/index.js';
import { ENTITIES } from '../../src/entities.js';
import { newId } from '../../src/platform/ids.js';
import { PondEntity } from '../../src/ponds/pond.entity.js';
import { PondEventEntity } from '../../src/ponds/pond-event.entity.js';
import { StockGroupEntity } from '../../src/ponds/stock-group.entity.js';
import { AT, ON } from './company-rows.js';

export interface Crossing {
  readonly companyId: string;
  readonly pondId: string;
  readonly stockId: string;
}

/**
 * One job over three tables: reads a pond and its stock, raises both by one and writes an event. Three figures must
 * therefore always agree: the pond's version, the head count, and one more than the number of events.
 * @returns the id of the event when the job was kept, null when it was rolled back on purpose.
 */
export async function crossingJob(database: Database, at: Crossing, keeps: boolean): Promise<string | null> {
  const eventId = newId();
  const refusal = new Error('rolled back on purpose');
  try {
    await database.unitOfWork('crossing', async () => {
      const store = database.company(at.companyId);
      const pond = (await store.findOne(PondEntity, { id: at.pondId }))!;
      const stock = (await store.findOne(StockGroupEntity, { id: at.stockId }))!;
      await store.insert(PondEventEntity, {
        id: eventId,
        pondId: at.pondId,
        kind: 'fish-added',
        happenedOn: ON,
        note: '',
        createdAt: AT,
      });
      await store.update(PondEntity, { id: pond.id }, { version: pond.version + 1 });
      await store.update(StockGroupEntity, { id: stock.id }, { headCount: stock.headCount + 1 });
      if (!keeps) throw refusal;
    });
    return eventId;
  } catch (error) {
    if (error === refusal) return null;
    throw error;
  }
}

/** The three figures, read in one statement. */
export async function crossingFigures(
  database: Database,
  at: Crossing,
): Promise<{ version: number; heads: number; events: number }> {
  const [figures] = await database
    .company(at.companyId)
    .select(PondEntity, 'pond')
    .and('pond.id = :pondId', { pondId: at.pondId })
    .figures<{ version: number; heads: number; events: number }>({
      version: 'pond.version',
      heads: '(SELECT s.head_count FROM stock_group s WHERE s.pond_id = pond.id)',
      events: '(SELECT COUNT(*) FROM pond_event e WHERE e.pond_id = pond.id)',
    });
  return figures!;
}

/** In a process of its own: so many jobs at once, one in three rolled back; a line for each kept one as soon as it is kept. */
export async function crossAsProcess(file: string, at: Crossing, jobs: number): Promise<void> {
  const database = await openDatabase({ kind: 'sqlite', file }, ENTITIES);
  const one = async (i: number) => {
    const kept = await crossingJob(database, at, i % 3 !== 0);
    if (kept) process.stdout.write(`${kept}\n`);
  };
  await Promise.all(Array.from({ length: jobs }, (_, i) => one(i)));
  await database.close();
}
