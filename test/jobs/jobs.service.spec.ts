import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import type { JobSchedule } from '../../src/config/index.js';
import { type Firing, JobRunEntity, JobsService } from '../../src/jobs/index.js';
import { FixedClock } from '../../src/platform/clock.js';
import { AppLogger } from '../../src/platform/logger.js';
import { ownProcess } from '../support/own-process.js';
import { type TemporaryDatabase, temporaryDatabase } from '../support/temporary-database.js';

const SWEEP: JobSchedule = { name: 'sweep', schedule: '7 * * * *', timeZone: 'UTC', why: 'for this test only' };
const DUE = new Date('2026-11-25T08:07:00.000Z');

describe('JobsService', () => {
  let temporary: TemporaryDatabase;
  let clock: FixedClock;
  let open: JobsService[];

  beforeEach(async () => {
    temporary = await temporaryDatabase();
    clock = FixedClock.at('2026-11-25T08:07:00.500Z');
    open = [];
  });
  afterEach(async () => {
    for (const jobs of open) await jobs.onApplicationShutdown();
    await temporary.close();
  });

  const service = (schedules: readonly JobSchedule[] = [SWEEP], isOn = true): JobsService => {
    const jobs = new JobsService(temporary.database, clock, new AppLogger('silent'), schedules, { jobs: isOn });
    open.push(jobs);
    return jobs;
  };
  const runs = () => temporary.database.shared().find(JobRunEntity, {}, { runKey: 'ASC' });

  it('runs a firing once, however often it is asked', async () => {
    const jobs = service();
    const firings: Firing[] = [];
    jobs.register('sweep', async (firing) => {
      firings.push(firing);
      return '3 mails laid out';
    });
    await Promise.all([jobs.run('sweep', DUE), jobs.run('sweep', DUE)]);
    await jobs.run('sweep', DUE);
    expect(firings.map((firing) => firing.dueAt)).toEqual(['2026-11-25T08:07:00.000Z']);
    expect(await runs()).toEqual([
      {
        runKey: 'sweep:2026-11-25T08:07:00.000Z',
        state: 'finished',
        claimedAt: '2026-11-25T08:07:00.500Z',
        finishedAt: '2026-11-25T08:07:00.500Z',
        outcome: '3 mails laid out',
      },
    ]);
  });

  it('runs each instant once over two coordinators on one database', async () => {
    let count = 0;
    const two = [service(), service()];
    for (const jobs of two) {
      jobs.register('sweep', async () => {
        count++;
        return 'done';
      });
    }
    const instants = Array.from({ length: 25 }, (_, hour) => new Date(DUE.getTime() + hour * 3_600_000));
    await Promise.all(instants.flatMap((due) => two.map((jobs) => jobs.run('sweep', due))));
    expect(count).toBe(25);
  });

  it('runs each instant once over two processes', async () => {
    const program = await ownProcess(
      `
      import { openDatabase } from '../../src/database/index.js';
      import { ENTITIES } from '../../src/entities.js';
      import { JobsService } from '../../src/jobs/index.js';
      import { SystemClock } from '../../src/platform/clock.js';
      import { AppLogger } from '../../src/platform/logger.js';
      const database = await openDatabase({ kind: 'sqlite', file: process.argv[2] }, ENTITIES);
      const jobs = new JobsService(database, new SystemClock(), new AppLogger('error'), [], { jobs: false });
      jobs.register('sweep', async ({ dueAt }) => { process.stdout.write(dueAt + '\\n'); return 'done'; });
      for (let i = 0; i < 60; i++) await jobs.run('sweep', new Date(Date.UTC(2026, 10, 25, 0, i)));
      await database.close();
      `,
    );
    const two = [program.start(temporary.target.file), program.start(temporary.target.file)];
    await Promise.all(two.map((one) => one.ended));
    const all = two.flatMap((one) => one.lines());
    expect(all).toHaveLength(60);
    expect(new Set(all).size).toBe(60);
  });

  it('notes a failure and runs the next instant', async () => {
    const jobs = service();
    let count = 0;
    jobs.register('sweep', async () => {
      if (count++ === 0) throw new Error('the mail server is down');
      return 'done';
    });
    await jobs.run('sweep', DUE);
    await jobs.run('sweep', new Date('2026-11-25T09:07:00.000Z'));
    expect((await runs()).map((run) => [run.state, run.outcome])).toEqual([
      ['failed', 'the mail server is down'],
      ['finished', 'done'],
    ]);
  });

  it('passes on any other fault of the database than a clash', async () => {
    const broken = new Proxy(temporary.database, {
      get: (target, property) =>
        property === 'unitOfWork'
          ? () => Promise.reject(new Error('SQLITE_FULL: disk is full'))
          : Reflect.get(target, property),
    });
    const onBroken = new JobsService(broken, clock, new AppLogger('silent'), [SWEEP], { jobs: false });
    await expect(onBroken.run('sweep', DUE)).rejects.toThrow(/disk is full/);
  });

  it('takes a firing over whose process died, once, and only when it is old enough', async () => {
    const left = { runKey: 'sweep:2026-11-25T07:07:00.000Z', state: 'claimed', finishedAt: null, outcome: '' } as const;
    const { database } = temporary;
    await database.unitOfWork('left behind', () =>
      database.shared().insert(JobRunEntity, { ...left, claimedAt: '2026-11-25T08:00:00.000Z' }),
    );
    let count = 0;
    const two = [service(), service()];
    for (const jobs of two) {
      jobs.register('sweep', async () => {
        count++;
        return 'again';
      });
    }
    await Promise.all(two.map((jobs) => jobs.runStale()));
    expect(count).toBe(0);
    clock.set('2026-11-25T08:10:00.001Z');
    await Promise.all(two.map((jobs) => jobs.runStale()));
    expect(count).toBe(1);
    expect(await runs()).toMatchObject([{ state: 'finished', outcome: 'again' }]);
  });

  it('does not write its end over a run that was taken from it', async () => {
    const [slow, quick] = [service(), service()];
    let letGo: () => void = () => undefined;
    slow.register('sweep', () => new Promise<string>((done) => (letGo = () => done('from the first'))));
    quick.register('sweep', async () => 'from the second');
    const first = slow.run('sweep', DUE);
    while ((await runs()).length === 0) await new Promise((go) => setTimeout(go, 5));
    clock.advance({ minutes: 11 });
    await quick.runStale();
    letGo();
    await first;
    expect(await runs()).toMatchObject([{ state: 'finished', outcome: 'from the second' }]);
  });

  it('makes up at start for the last firing that was missed, and for no other', async () => {
    const { database } = temporary;
    const before = { runKey: 'sweep:2026-11-24T05:07:00.000Z', state: 'finished', outcome: '' } as const;
    const at = { claimedAt: '2026-11-24T05:07:00.000Z', finishedAt: '2026-11-24T05:07:01.000Z' };
    await database.unitOfWork('yesterday', () => database.shared().insert(JobRunEntity, { ...before, ...at }));
    clock.set('2026-11-25T08:30:00.000Z');
    const due: string[] = [];
    const jobs = service();
    const ran = new Promise<void>((done) => {
      jobs.register('sweep', async ({ dueAt }) => {
        due.push(dueAt);
        done();
        return 'caught up';
      });
    });
    jobs.start();
    await ran;
    await jobs.onApplicationShutdown();
    expect(due).toEqual(['2026-11-25T08:07:00.000Z']);
  });

  it('fires nothing at the first start of all', async () => {
    const jobs = service();
    jobs.register('sweep', async () => 'done');
    jobs.start();
    await jobs.onApplicationShutdown();
    expect(await runs()).toEqual([]);
  });

  it('fires by the clock on the wall', async () => {
    const jobs = service([{ ...SWEEP, schedule: '* * * * * *' }]);
    const fired = new Promise<string>((done) => {
      jobs.register('sweep', async ({ dueAt }) => {
        done(dueAt);
        return 'done';
      });
    });
    jobs.start();
    expect(await fired).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.000Z$/);
  });

  it('tells a running job to end, and waits for it, when the program stops', async () => {
    const jobs = service();
    let ended = false;
    jobs.register('sweep', ({ signal }) => {
      return new Promise((done) => {
        signal.addEventListener('abort', () =>
          setTimeout(() => {
            ended = true;
            done('stopped half way');
          }, 30),
        );
      });
    });
    const running = jobs.run('sweep', DUE);
    while ((await runs()).length === 0) await new Promise((go) => setTimeout(go, 5));
    await jobs.onApplicationShutdown();
    expect(ended).toBe(true);
    await running;
    expect(await runs()).toMatchObject([{ state: 'finished', outcome: 'stopped half way' }]);
  });

  it('refuses a line without a job and a job without a line', () => {
    expect(() => service().start()).toThrow(/config\/jobs.yaml: sweep is not a job/);
    const jobs = service([]);
    jobs.register('sweep', async () => 'done');
    expect(() => jobs.start()).toThrow(/sweep has no line, so it would never run/);
    expect(() => jobs.register('sweep', async () => 'done')).toThrow(/two handlers/);
  });

  it('stands still where jobs are switched off', async () => {
    const jobs = service([SWEEP], false);
    expect(() => jobs.onApplicationBootstrap()).not.toThrow();
    expect(await runs()).toEqual([]);
  });
});
