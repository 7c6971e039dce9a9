import { afterAll, afterEach, beforeAll, describe, expect, it } from '@jest/globals';
import type { CareTaskView } from '../../src/care-calendar/index.js';
import { newId } from '../../src/platform/ids.js';
import { ReadingEntity } from '../../src/ponds/index.js';
import type { CloseVisit, VisitNewsItems } from '../../src/visits/index.js';
import { VisitClosingEntity, VisitTaskEntity } from '../../src/visits/index.js';
import { aClosing, actorOf, type VisitStack, visitStack } from './visit-stack.js';

let stack: VisitStack;
let closed: VisitNewsItems['visit-closed'][] = [];
let amended: VisitNewsItems['visit-amended'][] = [];
let listenerFails = false;
beforeAll(async () => {
  stack = await visitStack();
  stack.news.on('visit-closed', async (item) => {
    closed.push(item);
    if (listenerFails) throw new Error('The report could not be written.');
  });
  stack.news.on('visit-amended', async (item) => void amended.push(item));
});
afterEach(() => {
  closed = [];
  amended = [];
  listenerFails = false;
  stack.clock.set('2026-05-15T15:00:00Z');
});
afterAll(() => stack.close());

/** A published visit today with a water change and, where asked, more of the pond's tasks. */
async function aRound(options: { take?: number; rules?: readonly string[] } = {}) {
  const { pondId, tasks } = await stack.pondWithTasks();
  const wanted = options.rules ? tasks.filter(({ rule }) => options.rules?.includes(rule.id)) : tasks;
  const taken = wanted.slice(0, options.rules?.length ?? options.take ?? 1);
  const { visit } = await stack.visits.create(stack.companyId, {
    pondId,
    taskIds: taken.map(({ task }) => task.id),
    plannedOn: '2026-05-15',
    technicianId: stack.technician.personId,
  });
  await stack.visits.publish(stack.companyId, visit.id);
  return { pondId, visitId: visit.id, tasks, taken };
}

const aReading = (own: Partial<CloseVisit['readings'][number]> = {}): CloseVisit['readings'][number] => ({
  id: newId(),
  quantity: 'ph',
  value: 7.6,
  takenAt: '2026-05-15T14:50:00Z',
  ...own,
});
const close = (visitId: string, closing: CloseVisit) => stack.visits.close(stack.technician, visitId, closing);
const history = (visitId: string) => stack.visits.history(stack.companyId, visitId);
const taskNow = async (care: CareTaskView) => (await stack.calendar.task(stack.companyId, care.task.id)).task;

/** Everything a closing may write, as it is stored. */
async function everything(visitId: string, pondId: string) {
  const store = stack.database.company(stack.companyId);
  return {
    visit: (await stack.visits.get(stack.companyId, visitId)).visit,
    closings: await store.find(VisitClosingEntity, { where: { visitId }, order: { closingVersion: 'ASC' } }),
    outcomes: await store.find(VisitTaskEntity, { where: { visitId }, order: { id: 'ASC' } }),
    readings: await store.find(ReadingEntity, { where: { pondId }, order: { id: 'ASC' } }),
    open: (await stack.calendar.tasksOf(stack.companyId, pondId)).map(({ task }) => [
      task.ruleId,
      task.cycle,
      task.dueOn,
    ]),
    finished: (await stack.calendar.tasksOf(stack.companyId, pondId, { finished: true })).map(({ task }) => task.id),
    log: (await stack.calendar.log(stack.companyId, pondId)).length,
  };
}

describe('closing a visit', () => {
  it('keeps outcomes, readings and the note, and counts what comes next from what was done', async () => {
    const { visitId, pondId, taken } = await aRound({ rules: ['part-water-change'] });
    const closing = aClosing(taken, {
      note: 'Skimmer door is cracked.',
      homeownerPresent: true,
      readings: [aReading()],
    });
    const answer = await close(visitId, closing);
    expect(answer).toMatchObject({ outcome: 'closed', closingId: closing.closingId, closingVersion: 1, flags: [] });
    expect(answer).toMatchObject({ closedAt: '2026-05-15T14:55:00.000Z', receivedAt: '2026-05-15T15:00:00.000Z' });

    const { visit, closings, readings, tasks } = await history(visitId);
    expect(visit).toMatchObject({ state: 'COMPLETED', closedAt: '2026-05-15T14:55:00.000Z' });
    expect(closings).toEqual([expect.objectContaining({ closedByName: 'Dana Ruiz', closingVersion: 1 })]);
    expect(closings[0]?.record).toMatchObject({ note: 'Skimmer door is cracked.', homeownerPresent: true });
    expect(readings).toEqual([expect.objectContaining({ value: 7.6, visitId, takenBy: stack.technician.personId })]);
    expect(tasks.map(({ onVisit }) => onVisit.outcome)).toEqual(['done']);

    expect(await taskNow(taken[0]!)).toMatchObject({ state: 'COMPLETED', finishedOn: '2026-05-15' });
    const next = (await stack.calendar.tasksOf(stack.companyId, pondId)).find(
      ({ rule }) => rule.id === 'part-water-change',
    );
    // A change every seven days, counted from the day it was really done.
    expect(next?.task.dueOn).toBe('2026-05-22');
    expect(closed).toEqual([expect.objectContaining({ visitId, closingId: closing.closingId, isAgain: false })]);
  });

  it('teaches the actual state: planned figures unless others were typed', async () => {
    const { visitId, taken } = await aRound({ rules: ['part-water-change', 'biological-media-rinse'] });
    const [change, rinse] = [
      taken.find(({ rule }) => rule.id === 'part-water-change')!,
      taken.find(({ rule }) => rule.id === 'biological-media-rinse')!,
    ];
    const closing = aClosing(taken);
    const typed = closing.tasks.map((task) =>
      task.careTaskId === change.task.id ? { ...task, actuals: { changedL: 640 } } : task,
    );
    await close(visitId, { ...closing, tasks: typed });
    expect((await taskNow(change)).actuals).toEqual({ changedL: 640 });
    expect((await taskNow(rinse)).actuals).toEqual({ mediaShareRinsed: 0.33 });
  });

  it('starts a new lamp at no hours', async () => {
    const { pondId, tasks } = await stack.pondWithTasks({
      equipment: [{ kind: 'uv-lamp', name: 'Lamp', installedOn: '2024-06-01', rated: { lampRatedHours: 9000 } }],
    });
    const lamp = tasks.find(({ rule }) => rule.id === 'uv-lamp-replacement')!;
    const { visit } = await stack.visits.create(stack.companyId, {
      pondId,
      taskIds: [lamp.task.id],
      plannedOn: '2026-05-15',
    });
    await close(visit.id, aClosing([lamp]));
    expect((await taskNow(lamp)).actuals).toEqual({ lampHours: 0 });
    const next = (await stack.calendar.tasksOf(stack.companyId, pondId)).find(
      ({ rule }) => rule.id === 'uv-lamp-replacement',
    );
    expect(next?.task.earliestOn ?? '9999').not.toBe(lamp.task.earliestOn);
    expect(next ? next.task.dueOn > '2026-12-01' : true).toBe(true);
  });

  it('leaves due what was done only partly or not at all, and free for another visit', async () => {
    const { visitId, pondId, taken } = await aRound({ take: 2 });
    const [change, other] = taken as [CareTaskView, CareTaskView];
    const closing = aClosing([]);
    await close(visitId, {
      ...closing,
      tasks: [
        { careTaskId: change.task.id, outcome: 'partly', doneShare: 0.5, remark: 'Hose too short.', actuals: {} },
        { careTaskId: other.task.id, outcome: 'not-done', doneShare: null, remark: '', actuals: {} },
      ],
    });
    const outcomes = (await history(visitId)).tasks.map(({ onVisit }) => onVisit);
    expect(outcomes).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ outcome: 'partly', doneShare: 0.5, remark: 'Hose too short.' }),
        expect.objectContaining({ outcome: 'not-done', doneShare: null }),
      ]),
    );
    for (const care of taken) {
      expect(await taskNow(care)).toMatchObject({ state: 'NEEDS-ACTION', visitId: null, promisedOn: null });
    }
    const again = await stack.visits.create(stack.companyId, {
      pondId,
      taskIds: taken.map(({ task }) => task.id),
      plannedOn: '2026-05-16',
    });
    expect(again.visit.state).toBe('TENTATIVE');
  });

  it('is one transaction: when a listener fails, nothing at all is kept', async () => {
    const { visitId, pondId, taken } = await aRound();
    const before = await everything(visitId, pondId);
    const closing = aClosing(taken, { note: 'Lost?', readings: [aReading()] });
    listenerFails = true;
    await expect(close(visitId, closing)).rejects.toThrow('The report could not be written.');
    expect(await everything(visitId, pondId)).toEqual(before);

    listenerFails = false;
    closed = [];
    expect(await close(visitId, closing)).toMatchObject({ outcome: 'closed', closingVersion: 1 });
    expect(closed).toHaveLength(1);
  });

  it('sent ten times is one closing with one answer', async () => {
    const { visitId, pondId, taken } = await aRound();
    const closing = aClosing(taken, { note: 'Once.', readings: [aReading()] });
    const answer = await close(visitId, closing);
    const after = await everything(visitId, pondId);
    for (let i = 0; i < 9; i++) {
      stack.clock.advance({ minutes: 7 });
      expect(await close(visitId, closing)).toEqual(answer);
    }
    expect(await everything(visitId, pondId)).toEqual(after);
    expect(closed).toHaveLength(1);
  });
});

describe('a closing that meets a changed visit', () => {
  it('is kept beside the first when the visit is closed already', async () => {
    const { visitId, taken } = await aRound({ take: 2 });
    const [first, second] = taken as [CareTaskView, CareTaskView];
    const reading = aReading();
    await close(visitId, aClosing([first], { note: 'First.', readings: [reading] }));
    const later = aClosing([second], {
      note: 'Second.',
      readings: [reading, aReading({ quantity: 'nitrite', value: 0.02 })],
    });
    const answer = await stack.visits.close(stack.office, visitId, later);
    expect(answer).toMatchObject({ outcome: 'amended', closingVersion: 2, flags: ['amendment', 'other-person'] });

    const kept = await history(visitId);
    expect(kept.closings.map(({ record }) => record.note)).toEqual(['First.', 'Second.']);
    expect(kept.readings.map(({ quantity }) => quantity).sort()).toEqual(['nitrite', 'ph']);
    expect(kept.tasks.map(({ onVisit }) => onVisit.outcome)).toEqual(['done', 'done']);
    expect(await taskNow(second)).toMatchObject({ state: 'COMPLETED' });
    expect(closed).toHaveLength(1);
    expect(amended).toEqual([expect.objectContaining({ closingVersion: 2 })]);
  });

  it('does not undo what the first one ticked', async () => {
    const { visitId, taken } = await aRound();
    await close(visitId, aClosing(taken));
    const untick = aClosing(taken);
    await close(visitId, { ...untick, tasks: untick.tasks.map((task) => ({ ...task, outcome: 'not-done' as const })) });
    expect((await history(visitId)).tasks[0]?.onVisit.outcome).toBe('done');
    expect(await taskNow(taken[0]!)).toMatchObject({ state: 'COMPLETED' });
  });

  it('is accepted and flagged when the office has cancelled the visit', async () => {
    const { visitId, taken } = await aRound();
    await stack.visits.cancel(stack.companyId, visitId, 'Homeowner is away');
    const answer = await close(visitId, aClosing(taken, { note: 'I was there.' }));
    expect(answer).toMatchObject({ outcome: 'closed', flags: ['after-cancel'] });
    const { visit } = await history(visitId);
    expect(visit).toMatchObject({ state: 'COMPLETED', cancelledBecause: 'Homeowner is away' });
    expect(await taskNow(taken[0]!)).toMatchObject({ state: 'COMPLETED' });
    const { rows } = await stack.visits.list(stack.companyId, { pageSize: 200 });
    expect(rows.find((row) => row.visit.id === visitId)?.isFlagged).toBe(true);
  });

  it('is accepted and flagged when the visit was given to somebody else or moved', async () => {
    const { visitId, taken } = await aRound();
    await stack.visits.assign(stack.companyId, visitId, stack.office.personId);
    await stack.visits.move(stack.companyId, visitId, { plannedOn: '2026-05-20' });
    expect(await close(visitId, aClosing(taken))).toMatchObject({ outcome: 'closed', flags: ['other-person'] });
  });

  it('is accepted and flagged when the office took a task off, and leaves it on its new visit', async () => {
    const { visitId, pondId, taken } = await aRound({ take: 2 });
    const [kept, gone] = taken as [CareTaskView, CareTaskView];
    await stack.visits.removeTask(stack.companyId, visitId, gone.task.id);
    const next = await stack.visits.create(stack.companyId, {
      pondId,
      taskIds: [gone.task.id],
      plannedOn: '2026-05-16',
    });
    const closing = aClosing([kept]);
    const spoken = { careTaskId: gone.task.id, outcome: 'not-done' as const, doneShare: null, remark: '', actuals: {} };
    const answer = await close(visitId, { ...closing, tasks: [...closing.tasks, spoken] });
    expect(answer.flags).toEqual(['task-taken-off']);
    expect(await taskNow(gone)).toMatchObject({ state: 'NEEDS-ACTION', visitId: next.visit.id });
  });

  it('keeps a form that was changed and posted again under the same number, once', async () => {
    const { visitId, taken } = await aRound();
    const closing = aClosing(taken, { note: 'Before.' });
    await close(visitId, closing);
    const changed = { ...closing, note: 'Before. And the gate is open.' };
    const answer = await close(visitId, changed);
    expect(answer).toMatchObject({ outcome: 'amended', closingVersion: 2 });
    expect(await close(visitId, changed)).toEqual(answer);
    expect((await history(visitId)).closings.map(({ record }) => record.note)).toEqual([
      'Before.',
      'Before. And the gate is open.',
    ]);
  });

  it('believes a phone whose clock can be right, and takes the time of receipt from another', async () => {
    const early = await aRound();
    const answer = await close(early.visitId, aClosing([], { note: 'x', closedAt: '2016-05-15T14:00:00Z' }));
    expect(answer).toMatchObject({ closedAt: '2026-05-15T15:00:00.000Z', flags: ['clock-wrong'] });

    const late = await aRound();
    const reading = aReading({ takenAt: '2026-05-18T14:50:00Z' });
    const ahead = await close(late.visitId, aClosing([], { closedAt: '2026-05-18T14:55:00Z', readings: [reading] }));
    expect(ahead).toMatchObject({ closedAt: '2026-05-15T15:00:00.000Z', flags: ['clock-wrong'] });
    const kept = await history(late.visitId);
    expect(kept.readings[0]?.takenAt).toBe('2026-05-15T15:00:00.000Z');
    // What the phone claimed is kept with the closing.
    expect(kept.closings[0]?.record.readings[0]?.takenAt).toBe('2026-05-18T14:50:00Z');
  });

  it('is kept from a phone that was days without signal, as of the day it was done', async () => {
    const { visitId, taken } = await aRound();
    stack.clock.set('2026-05-18T15:00:00Z');
    const answer = await close(visitId, aClosing(taken, { closedAt: '2026-05-15T16:00:00-05:00' }));
    expect(answer).toMatchObject({ closedAt: '2026-05-15T21:00:00.000Z', flags: [] });
    expect(await taskNow(taken[0]!)).toMatchObject({ finishedOn: '2026-05-15' });
  });
});

describe('two closings at once', () => {
  it('make exactly one change to closed in twenty rounds, and lose nothing', async () => {
    const { pondId } = await stack.pondWithTasks();
    for (let round = 0; round < 20; round++) {
      const { visit } = await stack.visits.create(stack.companyId, {
        pondId,
        taskIds: [],
        plannedOn: '2026-05-15',
        technicianId: stack.technician.personId,
      });
      closed = [];
      amended = [];
      const size = 2 + (round % 4);
      const closings = Array.from({ length: size }, (_, i) =>
        aClosing([], { note: `Phone ${i}`, readings: round < 4 ? [aReading({ value: 7 + i / 10 })] : [] }),
      );
      // Each is sent twice, as a phone does that did not hear the answer.
      const answers = await Promise.all([...closings, ...closings].map((one) => close(visit.id, one)));
      expect(answers.filter((answer) => answer.outcome === 'closed').length).toBe(2);
      expect(answers.slice(0, size)).toEqual(answers.slice(size));
      expect(closed).toHaveLength(1);
      expect(amended).toHaveLength(size - 1);
      const kept = await history(visit.id);
      expect(kept.visit.state).toBe('COMPLETED');
      expect(kept.closings.map(({ record }) => record.note).sort()).toEqual(closings.map(({ note }) => note).sort());
      expect(kept.closings.map(({ closingVersion }) => closingVersion)).toEqual(closings.map((_, i) => i + 1));
      expect(kept.readings).toHaveLength(round < 4 ? size : 0);
    }
  }, 60_000);
});

describe('reopening', () => {
  it('keeps both versions, and what had been finished is due again', async () => {
    const { visitId, pondId, taken } = await aRound();
    await close(visitId, aClosing(taken, { note: 'Wrong pond.', readings: [aReading()] }));
    const visit = await stack.visits.reopen(stack.office, visitId, 'The note belongs to another pond.');
    expect(visit).toMatchObject({ state: 'IN-PROCESS', closedAt: null });
    expect(await taskNow(taken[0]!)).toMatchObject({ state: 'NEEDS-ACTION', visitId, promisedOn: '2026-05-15' });

    const again = aClosing(taken, { note: 'Right pond.' });
    expect(await close(visitId, again)).toMatchObject({ outcome: 'closed', closingVersion: 2, flags: [] });
    const kept = await history(visitId);
    expect(kept.closings).toEqual([
      expect.objectContaining({ reopenedByName: 'Maria Lind', reopenedBecause: 'The note belongs to another pond.' }),
      expect.objectContaining({ reopenedAt: null, reopenedByName: null }),
    ]);
    expect(kept.closings.map(({ record }) => record.note)).toEqual(['Wrong pond.', 'Right pond.']);
    expect(kept.readings).toHaveLength(1);
    expect(await taskNow(taken[0]!)).toMatchObject({ state: 'COMPLETED' });
    expect(closed.map(({ isAgain }) => isAgain)).toEqual([false, true]);
    const changes = (await stack.calendar.tasksOf(stack.companyId, pondId)).filter(
      ({ rule }) => rule.id === taken[0]?.rule.id,
    );
    expect(changes).toHaveLength(1);
  });

  it('leaves a task where it was planned since', async () => {
    const { visitId, pondId, taken } = await aRound({ take: 2 });
    const [done, left] = taken as [CareTaskView, CareTaskView];
    await close(visitId, aClosing([done]));
    const next = await stack.visits.create(stack.companyId, {
      pondId,
      taskIds: [left.task.id],
      plannedOn: '2026-05-16',
    });
    await stack.visits.reopen(stack.office, visitId, 'Mistake');
    expect(await taskNow(left)).toMatchObject({ visitId: next.visit.id });
    expect((await history(visitId)).tasks.map(({ care }) => care.task.id)).toEqual([done.task.id]);
  });

  it('asks why', async () => {
    const { visitId } = await aRound();
    await close(visitId, aClosing([], { note: 'x' }));
    await expect(stack.visits.reopen(stack.office, visitId, ' ')).rejects.toThrow(/Say why/);
  });

  it('sent again, a closing from before the reopening does not close it again', async () => {
    const { visitId } = await aRound();
    const closing = aClosing([], { note: 'x' });
    const answer = await close(visitId, closing);
    await stack.visits.reopen(stack.office, visitId, 'Look again');
    expect(await close(visitId, closing)).toEqual(answer);
    expect((await history(visitId)).visit.state).toBe('IN-PROCESS');
  });
});

describe('a closing that cannot be kept', () => {
  it.each([
    ['a note of 10,001 characters', { note: 'a'.repeat(10_001) }, /at most 10000/],
    ['a number that is none', { closingId: 'abc' }, /UUID/],
    ['a time that is none', { closedAt: 'yesterday' }, /ISO 8601/],
    ['a reading no pond shows', { readings: [aReading({ value: 71 })] }, /readings\/0\/ph: 71, outside 4 to 11/],
    ['a reading that is no number', { readings: [aReading({ value: Number.NaN })] }, /outside/],
    ['a quantity nobody knows', { readings: [aReading({ quantity: 'wit' as never })] }, /not kept/],
    [
      'a task of nobody',
      { tasks: [{ careTaskId: newId(), outcome: 'done' as const, doneShare: null, remark: '', actuals: {} }] },
      /no such task/,
    ],
  ])('is refused for %s, and nothing is kept', async (_, own, message) => {
    const { visitId, pondId } = await aRound();
    const before = await everything(visitId, pondId);
    await expect(close(visitId, { ...aClosing([]), ...own })).rejects.toThrow(message);
    expect(await everything(visitId, pondId)).toEqual(before);
  });

  it.each(['constructor', 'volume'])('is refused for the actual figure %s, which nobody knows', async (name) => {
    const { visitId, taken } = await aRound();
    const [said] = aClosing(taken).tasks;
    const tasks = [{ ...said!, actuals: { [name]: 1 } }];
    await expect(close(visitId, aClosing([], { tasks }))).rejects.toThrow(/Known actual figures are lampHours/);
  });

  it.each([0, 1, 1.5, Number.NaN, null])('is refused for a done share of %s', async (doneShare) => {
    const { visitId, taken } = await aRound();
    const tasks = [{ careTaskId: taken[0]!.task.id, outcome: 'partly' as const, doneShare, remark: '', actuals: {} }];
    await expect(close(visitId, aClosing([], { tasks }))).rejects.toThrow(/more than 0 and less than 1/);
  });

  it('keeps emoji, right-to-left text and line breaks of a note as they are', async () => {
    const { visitId } = await aRound();
    const note = '🐟 שלום\nzweite Zeile \u202E <b>&';
    await close(visitId, aClosing([], { note }));
    expect((await history(visitId)).closings[0]?.record.note).toBe(note);
  });

  it('does not tell one company of another', async () => {
    const { visitId } = await aRound();
    const stranger = actorOf(newId());
    await expect(stack.visits.close(stranger, visitId, aClosing([]))).rejects.toMatchObject({ code: 'not-found' });
    await expect(stack.visits.reopen(stranger, visitId, 'x')).rejects.toMatchObject({ code: 'not-found' });
  });

  it('names an id that is used by another visit', async () => {
    const [one, other] = [await aRound(), await aRound()];
    const closing = aClosing([], { note: 'x' });
    await close(one.visitId, closing);
    await expect(close(other.visitId, closing)).rejects.toMatchObject({ code: 'closing-id-taken' });
  });
});
