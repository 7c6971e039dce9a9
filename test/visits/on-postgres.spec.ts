import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { openDatabase } from '../../src/database/index.js';
import { ENTITIES } from '../../src/entities.js';
import { newId } from '../../src/platform/ids.js';
import { type TemporaryPostgres, temporaryPostgres } from '../support/temporary-postgres.js';
import { aClosing, type VisitStack, visitStack } from './visit-stack.js';

let postgres: TemporaryPostgres;
let stack: VisitStack;
beforeAll(async () => {
  postgres = await temporaryPostgres();
  const url = await postgres.newDatabase('visits');
  stack = await visitStack({ database: await openDatabase({ kind: 'postgres', url }, ENTITIES) });
}, 120_000);
afterAll(async () => {
  await stack?.close();
  await postgres?.stop();
});

describe('visits on PostgreSQL', () => {
  // Units of work run side by side here: what keeps them apart is the row that each holds, not a queue.
  it('make exactly one change to closed when several phones close at once', async () => {
    const { pondId } = await stack.pondWithTasks();
    let told = 0;
    stack.news.on('visit-closed', async () => void told++);
    for (let round = 0; round < 10; round++) {
      const { visit } = await stack.visits.create(stack.companyId, { pondId, taskIds: [], plannedOn: '2026-05-15' });
      told = 0;
      const closings = Array.from({ length: 5 }, (_, i) => aClosing([], { note: `Phone ${i}` }));
      const answers = await Promise.all(
        [...closings, ...closings].map((one) => stack.visits.close(stack.technician, visit.id, one)),
      );
      expect(answers.slice(0, 5)).toEqual(answers.slice(5));
      expect(answers.filter(({ outcome }) => outcome === 'closed')).toHaveLength(2);
      const kept = await stack.visits.history(stack.companyId, visit.id);
      expect(kept.closings.map(({ closingVersion }) => closingVersion)).toEqual([1, 2, 3, 4, 5]);
      // A unit that had to run again tells its news again; what it had told before was never saved.
      expect(told).toBeGreaterThanOrEqual(1);
    }
  }, 120_000);

  it('plan, list, close and reopen as on SQLite', async () => {
    const { pondId, tasks } = await stack.pondWithTasks({ name: 'Heron Hollow' });
    const { visit } = await stack.visits.create(stack.companyId, {
      pondId,
      taskIds: [tasks[0]!.task.id],
      plannedOn: '2026-05-15',
      technicianId: stack.technician.personId,
    });
    await stack.visits.publish(stack.companyId, visit.id);
    const round = await stack.visits.roundFor(stack.companyId, stack.technician.personId, '2026-05-15');
    expect(round.map((stop) => stop.visit.id)).toEqual([visit.id]);
    expect((await stack.visits.list(stack.companyId, { text: 'heron' })).total).toBe(1);

    const reading = { id: newId(), quantity: 'ph', value: 7.4, takenAt: '2026-05-15T14:50:00Z' } as const;
    await stack.visits.close(stack.technician, visit.id, aClosing([tasks[0]!], { readings: [reading] }));
    await stack.visits.reopen(stack.office, visit.id, 'Look again');
    const history = await stack.visits.history(stack.companyId, visit.id);
    expect(history.visit.state).toBe('IN-PROCESS');
    expect(history.closings).toHaveLength(1);
    expect(history.readings).toHaveLength(1);
  }, 60_000);
});
