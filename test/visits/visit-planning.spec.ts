import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { CareTaskView } from '../../src/care-calendar/index.js';
import { newId } from '../../src/platform/ids.js';
import type { VisitNewsItems } from '../../src/visits/index.js';
import { aClosing, type VisitStack, visitStack } from './visit-stack.js';

let stack: VisitStack;
let moved: VisitNewsItems['visit-moved'][];
let published: VisitNewsItems['visit-published'][];
beforeAll(async () => {
  stack = await visitStack();
  stack.news.on('visit-moved', async (item) => void moved.push(item));
  stack.news.on('visit-published', async (item) => void published.push(item));
  moved = [];
  published = [];
});
afterAll(() => stack.close());

async function aVisit(own: { plannedOn?: string; take?: number; technician?: boolean } = {}) {
  const { pondId, tasks } = await stack.pondWithTasks();
  const taken = tasks.slice(0, own.take ?? 1);
  const planned = await stack.visits.create(stack.companyId, {
    pondId,
    taskIds: taken.map(({ task }) => task.id),
    plannedOn: own.plannedOn ?? '2026-05-16',
    technicianId: own.technician === false ? null : stack.technician.personId,
  });
  return { pondId, tasks, taken, ...planned };
}
const taskNow = (care: CareTaskView) => stack.calendar.task(stack.companyId, care.task.id);
const codeOf = (promise: Promise<unknown>) =>
  promise.then(
    () => 'done',
    (error: { code: string }) => error.code,
  );

describe('planning a visit', () => {
  it('keeps the intersection of the windows and the minutes with one set-up', async () => {
    const { visit, taken, brokenWindows } = await aVisit();
    expect(visit).toMatchObject({ state: 'TENTATIVE', plannedOn: '2026-05-16', minutes: 65, version: 1 });
    const { earliestOn, latestOn } = taken[0]!.task;
    expect(visit).toMatchObject({ dueEarliestOn: earliestOn, dueLatestOn: latestOn });
    expect(brokenWindows).toEqual([]);
    expect((await taskNow(taken[0]!)).task).toMatchObject({ visitId: visit.id, promisedOn: null });
  });

  it('says whose window does not hold the day, and plans it all the same', async () => {
    // Days which a person has set: no day suits both.
    const { pondId, tasks } = await stack.pondWithTasks();
    const change = tasks.find(({ rule }) => rule.id === 'part-water-change')!;
    const pump = tasks.find(({ rule }) => rule.id === 'pump-clean')!;
    await stack.calendar.hold(stack.companyId, change.task.id, '2026-05-20');
    await stack.calendar.hold(stack.companyId, pump.task.id, '2026-07-20');
    const { visit, brokenWindows } = await stack.visits.create(stack.companyId, {
      pondId,
      taskIds: [change.task.id, pump.task.id],
      plannedOn: '2026-06-10',
    });
    expect(brokenWindows).toEqual([
      expect.objectContaining({ title: change.rule.title, latestOn: '2026-05-20', visitIs: 'too-late' }),
      expect.objectContaining({
        title: expect.stringContaining(pump.rule.title),
        earliestOn: '2026-07-20',
        visitIs: 'too-early',
      }),
    ]);
    // The planned day, which somebody chose, is the window then.
    expect(visit).toMatchObject({ dueEarliestOn: '2026-06-10', dueLatestOn: '2026-06-10' });
  });

  it('plans a visit without a task: somebody comes and looks', async () => {
    const { pondId } = await stack.pondWithTasks();
    const { visit } = await stack.visits.create(stack.companyId, {
      pondId,
      taskIds: [],
      plannedOn: '2026-05-20',
      officeNote: 'Fish hang at the inlet.',
    });
    expect(visit).toMatchObject({ minutes: 25, officeNote: 'Fish hang at the inlet.', dueLatestOn: '2026-05-20' });
  });

  it('refuses a task that is already on an open visit', async () => {
    const { pondId, taken } = await aVisit();
    const again = stack.visits.create(stack.companyId, {
      pondId,
      taskIds: taken.map(({ task }) => task.id),
      plannedOn: '2026-05-16',
    });
    await expect(again).rejects.toMatchObject({ code: 'task-not-plannable', because: 'on-another-visit' });
  });

  it('refuses a task of another pond, of the homeowner, of nobody, and one that is finished', async () => {
    const { pondId, tasks } = await stack.pondWithTasks();
    const other = await stack.pondWithTasks();
    const homeowners = (await stack.calendar.tasksOf(stack.companyId, pondId)).find(
      ({ task }) => task.doneBy === 'homeowner',
    );
    const last = tasks.at(-1)!;
    await stack.calendar.cancel(stack.companyId, last.task.id, {
      by: stack.office.personId,
      because: 'done-by-other-means',
    });
    const because = (taskId: string) =>
      stack.visits.create(stack.companyId, { pondId, taskIds: [taskId], plannedOn: '2026-05-16' }).then(
        () => 'planned',
        (error: { because: string }) => error.because,
      );
    expect(await because(other.tasks[0]!.task.id)).toBe('other-pond');
    expect(await because(newId())).toBe('unknown');
    expect(await because(last.task.id)).toBe('finished');
    if (homeowners) expect(await because(homeowners.task.id)).toBe('homeowner');
  });

  it.each([
    [{ plannedOn: '2026-05-14' }, /Choose a day from 2026-05-15/],
    [{ plannedOn: '2029-01-01' }, /Choose a day from/],
    [{ plannedOn: '2026-02-30' }, /Write a calendar date/],
    [{ plannedOn: '2026-05-16', fromTime: '8', toTime: '10:00' }, /HH:MM/],
    [{ plannedOn: '2026-05-16', fromTime: '10:00', toTime: '08:00' }, /must come after/],
    [{ plannedOn: '2026-05-16', fromTime: '10:00' }, /both times/],
  ])('refuses %j', async (times, message) => {
    const { pondId } = await stack.pondWithTasks();
    await expect(stack.visits.create(stack.companyId, { pondId, taskIds: [], ...times })).rejects.toThrow(message);
  });

  it('refuses a technician who is not of this company', async () => {
    const { visit } = await aVisit();
    await expect(stack.visits.assign(stack.companyId, visit.id, newId())).rejects.toThrow(/person of this company/);
  });

  it('is not found by another company', async () => {
    const { visit } = await aVisit();
    const stranger = newId();
    expect(await codeOf(stack.visits.get(stranger, visit.id))).toBe('not-found');
    expect(await codeOf(stack.visits.publish(stranger, visit.id))).toBe('not-found');
    expect(await codeOf(stack.visits.cancel(stranger, visit.id, 'no'))).toBe('not-found');
    expect((await stack.visits.list(stranger, {})).total).toBe(0);
  });
});

describe('publishing, moving and cancelling', () => {
  it('promises the dates of the tasks and tells of it', async () => {
    const { visit, taken } = await aVisit();
    published = [];
    const { visit: confirmed } = await stack.visits.publish(stack.companyId, visit.id);
    expect(confirmed).toMatchObject({ state: 'CONFIRMED', publishedAt: '2026-05-15T15:00:00.000Z' });
    expect((await taskNow(taken[0]!)).task.promisedOn).toBe('2026-05-16');
    expect(published).toEqual([expect.objectContaining({ visitId: visit.id })]);
  });

  it('is not published before somebody has it', async () => {
    const { visit } = await aVisit({ technician: false });
    await expect(stack.visits.publish(stack.companyId, visit.id)).rejects.toThrow(/Choose who goes/);
  });

  it('moves the promise with the visit', async () => {
    const { visit, taken } = await aVisit();
    await stack.calendar.hold(stack.companyId, taken[0]!.task.id, '2026-05-20');
    await stack.visits.publish(stack.companyId, visit.id);
    moved = [];
    const there = await stack.visits.move(stack.companyId, visit.id, {
      plannedOn: '2026-06-18',
      fromTime: '08:00',
      toTime: '10:00',
    });
    expect(there.visit).toMatchObject({ plannedOn: '2026-06-18', fromTime: '08:00', state: 'CONFIRMED' });
    expect(there.brokenWindows).toEqual([expect.objectContaining({ visitIs: 'too-late' })]);
    expect((await taskNow(taken[0]!)).task.promisedOn).toBe('2026-06-18');
    expect(moved).toEqual([expect.objectContaining({ fromDay: '2026-05-16', toDay: '2026-06-18' })]);
  });

  it('frees the tasks of a cancelled visit', async () => {
    const { visit, taken } = await aVisit();
    await stack.visits.publish(stack.companyId, visit.id);
    const cancelled = await stack.visits.cancel(stack.companyId, visit.id, 'Storm');
    expect(cancelled).toMatchObject({ state: 'CANCELLED', cancelledBecause: 'Storm' });
    expect((await taskNow(taken[0]!)).task).toMatchObject({ visitId: null, promisedOn: null, state: 'NEEDS-ACTION' });
  });

  it('asks why it is cancelled', async () => {
    const { visit } = await aVisit();
    await expect(stack.visits.cancel(stack.companyId, visit.id, '  ')).rejects.toThrow(/Say why/);
  });

  it('takes a task on and lets it go', async () => {
    const { visit, tasks, taken } = await aVisit();
    await stack.visits.publish(stack.companyId, visit.id);
    const rinse = tasks[1]!;
    const more = await stack.visits.addTask(stack.companyId, visit.id, rinse.task.id);
    expect(more.visit.minutes).toBe(95);
    expect((await taskNow(rinse)).task).toMatchObject({ visitId: visit.id, promisedOn: '2026-05-16' });
    const less = await stack.visits.removeTask(stack.companyId, visit.id, rinse.task.id);
    expect(less.visit).toMatchObject({ minutes: 65, dueLatestOn: taken[0]!.task.latestOn });
    expect((await taskNow(rinse)).task).toMatchObject({ visitId: null, promisedOn: null });
  });

  it('refuses a step planned on an older version', async () => {
    const { visit } = await aVisit();
    await stack.visits.move(stack.companyId, visit.id, { plannedOn: '2026-05-15' });
    expect(await codeOf(stack.visits.publish(stack.companyId, visit.id, visit.version))).toBe('stale-version');
  });
});

describe('the states of a visit', () => {
  const steps = {
    assign: (id: string) => stack.visits.assign(stack.companyId, id, stack.office.personId),
    move: (id: string) => stack.visits.move(stack.companyId, id, { plannedOn: '2026-05-16' }),
    publish: (id: string) => stack.visits.publish(stack.companyId, id),
    setOut: (id: string) => stack.visits.markOnTheWay(stack.companyId, id),
    start: (id: string) => stack.visits.start(stack.companyId, id),
    cancel: (id: string) => stack.visits.cancel(stack.companyId, id, 'because'),
    reopen: (id: string) => stack.visits.reopen(stack.office, id, 'because'),
  };
  let pondId: string | undefined;
  const reach = {
    // The state alone is asked here: no task, so that nothing is planned anew thirty times.
    TENTATIVE: async () => {
      pondId ??= (await stack.pondWithTasks()).pondId;
      const technicianId = stack.technician.personId;
      const plan = { pondId, taskIds: [], plannedOn: '2026-05-16', technicianId };
      return (await stack.visits.create(stack.companyId, plan)).visit.id;
    },
    CONFIRMED: async () => {
      const id = await reach.TENTATIVE();
      await steps.publish(id);
      return id;
    },
    'IN-PROCESS': async () => {
      const id = await reach.CONFIRMED();
      await steps.start(id);
      return id;
    },
    COMPLETED: async () => {
      const id = await reach.CONFIRMED();
      await stack.visits.close(stack.technician, id, aClosing([], { note: 'All well.' }));
      return id;
    },
    CANCELLED: async () => {
      const id = await reach.TENTATIVE();
      await steps.cancel(id);
      return id;
    },
  };
  const closed = 'visit-already-closed';
  const no = 'visit-state';
  it.each([
    ['TENTATIVE', { assign: 'done', move: 'done', publish: 'done', setOut: no, start: no, reopen: no, cancel: 'done' }],
    [
      'CONFIRMED',
      { assign: 'done', move: 'done', publish: no, setOut: 'done', start: 'done', reopen: no, cancel: 'done' },
    ],
    // Said twice, an arrival does no harm.
    ['IN-PROCESS', { assign: no, move: no, publish: no, setOut: no, start: 'done', reopen: no, cancel: 'done' }],
    [
      'COMPLETED',
      { assign: closed, move: closed, publish: closed, setOut: closed, start: closed, cancel: closed, reopen: 'done' },
    ],
    ['CANCELLED', { assign: no, move: no, publish: no, setOut: no, start: no, cancel: no, reopen: no }],
  ] as const)(
    'allow from %s exactly these steps',
    async (state, expected) => {
      for (const [step, code] of Object.entries(expected)) {
        const id = await reach[state]();
        expect([step, await codeOf(steps[step as keyof typeof steps](id))]).toEqual([step, code]);
      }
    },
    60_000,
  );

  it('keeps the first time of setting out', async () => {
    const id = await reach.CONFIRMED();
    const first = await stack.visits.markOnTheWay(stack.companyId, id);
    stack.clock.advance({ minutes: 5 });
    const second = await stack.visits.markOnTheWay(stack.companyId, id);
    stack.clock.set('2026-05-15T15:00:00Z');
    expect(second.onTheWayAt).toBe(first.onTheWayAt);
    expect(second.state).toBe('CONFIRMED');
  });
});

describe('proposals', () => {
  it('leave out what is on a visit, and start late work today', async () => {
    stack.clock.set('2026-06-01T15:00:00Z');
    const { pondId, tasks } = await stack.pondWithTasks({ careSince: '2026-03-01' });
    const change = tasks[0]!;
    const [before] = await stack.visits.proposalsFor(stack.companyId, pondId);
    const idsOf = (proposal: typeof before) => proposal?.visits.flatMap((visit) => visit.taskIds) ?? [];
    expect(idsOf(before)).toEqual(expect.arrayContaining([change.task.id]));
    expect(before).toMatchObject({ isProvenOptimal: true, oversize: [] });
    expect(before?.lowerBound).toBe(before?.visits.length);
    for (const { dueWindow } of before?.visits ?? []) {
      expect(dueWindow.earliest).toBeGreaterThanOrEqual(before!.today);
      expect(dueWindow.latest).toBeGreaterThanOrEqual(dueWindow.earliest);
    }

    await stack.visits.create(stack.companyId, { pondId, taskIds: [change.task.id], plannedOn: '2026-06-02' });
    const [after] = await stack.visits.proposalsFor(stack.companyId, pondId);
    expect([...idsOf(after), change.task.id].sort()).toEqual([...idsOf(before)].sort());
    stack.clock.set('2026-05-15T15:00:00Z');
  });

  it('keep a day which a person has set', async () => {
    const { pondId, tasks } = await stack.pondWithTasks();
    await stack.calendar.hold(stack.companyId, tasks[0]!.task.id, '2026-05-20');
    const [proposal] = await stack.visits.proposalsFor(stack.companyId, pondId);
    const held = proposal?.visits.find((visit) => visit.taskIds.includes(tasks[0]!.task.id));
    expect(held?.dueWindow).toEqual({ earliest: 20593, latest: 20593 });
  });

  it('come for every pond that waits, the one that closes first in front', async () => {
    const all = await stack.visits.proposalsFor(stack.companyId);
    // What fits on a planned visit joins it; a pond of which nothing is left comes last.
    const closes = all.map((proposal) => proposal.visits[0]?.dueWindow.latest ?? Number.POSITIVE_INFINITY);
    expect(all.length).toBeGreaterThan(3);
    expect(closes).toEqual([...closes].sort((a, b) => a - b));
  });
});

describe('lists and rounds', () => {
  it('show a technician published visits in the order of day and told time', async () => {
    const own = await visitStack();
    try {
      const { pondId } = await own.pondWithTasks();
      const plan = async (plannedOn: string, fromTime: string | null, isPublished = true) => {
        const { visit } = await own.visits.create(own.companyId, {
          pondId,
          taskIds: [],
          plannedOn,
          fromTime,
          toTime: fromTime && '18:00',
          technicianId: own.technician.personId,
        });
        if (isPublished) await own.visits.publish(own.companyId, visit.id);
        return visit.id;
      };
      const late = await plan('2026-05-16', '13:00');
      const untold = await plan('2026-05-16', null);
      const early = await plan('2026-05-16', '08:00');
      await plan('2026-05-16', '07:00', false);
      const next = await plan('2026-05-17', '07:00');
      const round = await own.visits.roundFor(own.companyId, own.technician.personId, '2026-05-16');
      expect(round.map(({ visit }) => visit.id)).toEqual([early, late, untold]);
      const days = { from: '2026-05-16', to: '2026-05-17' };
      const both = await own.visits.roundFor(own.companyId, own.technician.personId, days);
      expect(both.map(({ visit }) => visit.id)).toEqual([early, late, untold, next]);
      expect(await own.visits.roundFor(own.companyId, own.office.personId, '2026-05-16')).toEqual([]);

      own.clock.set('2026-05-18T15:00:00Z');
      const left = await own.visits.leftOpen(own.companyId, own.technician.personId, '2026-05-18');
      expect(left).toHaveLength(4);
    } finally {
      await own.close();
    }
  });

  it('narrow by day, state, person and words, page by page', async () => {
    const own = await visitStack();
    try {
      const { pondId } = await own.pondWithTasks({ name: 'Heron 100% Hollow', town: 'Verona' });
      for (let day = 1; day <= 5; day++) {
        await own.visits.create(own.companyId, { pondId, taskIds: [], plannedOn: `2026-06-0${day}` });
      }
      const total = async (query: Parameters<typeof own.visits.list>[1]) =>
        (await own.visits.list(own.companyId, query)).total;
      expect(await total({})).toBe(5);
      expect(await total({ from: '2026-06-02', to: '2026-06-03' })).toBe(2);
      expect(await total({ states: ['CONFIRMED'] })).toBe(0);
      expect(await total({ technicianId: 'nobody' })).toBe(5);
      expect(await total({ technicianId: own.technician.personId })).toBe(0);
      expect(await total({ text: 'verona' })).toBe(5);
      expect(await total({ text: '0% h' })).toBe(5);
      expect(await total({ text: '_' })).toBe(0);
      const second = await own.visits.list(own.companyId, { page: 2, pageSize: 2 });
      expect(second.rows.map(({ visit }) => visit.plannedOn)).toEqual(['2026-06-03', '2026-06-04']);
      expect(second.rows[0]).toMatchObject({ technicianName: null, taskTitles: [], isFlagged: false });
      expect((await own.visits.list(own.companyId, { pageSize: 1e9 })).rows).toHaveLength(5);
    } finally {
      await own.close();
    }
  });
});
