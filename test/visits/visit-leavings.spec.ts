import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { CareTaskView } from '../../src/care-calendar/index.js';
import { newId } from '../../src/platform/ids.js';
import {
  CheckIns,
  PartsShelf,
  type UsedPart,
  VisitLeavings,
  VisitSettings,
  VisitStatements,
} from '../../src/visits/index.js';
import { aClosing, type VisitStack, visitStack } from './visit-stack.js';

let stack: VisitStack;
let shelf: PartsShelf;
let leavings: VisitLeavings;

beforeAll(async () => {
  stack = await visitStack();
  shelf = stack.app.get(PartsShelf, { strict: false });
  leavings = stack.app.get(VisitLeavings, { strict: false });
});
afterAll(() => stack.close());

async function aVisit(): Promise<{ visitId: string; pondId: string; tasks: CareTaskView[] }> {
  const { pondId, tasks } = await stack.pondWithTasks();
  const planned = { pondId, taskIds: tasks.slice(0, 2).map(({ task }) => task.id), plannedOn: '2026-05-15' };
  const { visit } = await stack.visits.create(stack.companyId, planned, stack.office.personId);
  return { visitId: visit.id, pondId, tasks: tasks.slice(0, 2) };
}

const used = (own: Partial<UsedPart> = {}): UsedPart => ({
  id: newId(),
  partId: null,
  name: 'UV lamp',
  amount: 1,
  unit: 'piece',
  careTaskId: null,
  lot: '',
  ...own,
});
const onHand = async (id: string) => (await shelf.list(stack.companyId)).find((part) => part.id === id)?.onHand;

describe('parts of a closing', () => {
  it('are taken from the shelf once, however often the closing comes', async () => {
    const { visitId, tasks } = await aVisit();
    const lamp = await shelf.add(stack.companyId, { name: 'UV lamp, 55 W', unit: 'piece', onHand: 3 });
    const closing = aClosing(tasks, { parts: [used({ partId: lamp.id, amount: 2 })] });
    for (let i = 0; i < 3; i += 1) await stack.visits.close(stack.technician, visitId, closing);
    expect(await onHand(lamp.id)).toBe(1);
    expect(await leavings.partsOf(stack.companyId, [visitId])).toHaveLength(1);
  });

  it('go back on the shelf when the visit is opened again, and off it when it is closed anew', async () => {
    const { visitId, tasks } = await aVisit();
    const lamp = await shelf.add(stack.companyId, { name: 'UV lamp, 18 W', unit: 'piece', onHand: 5 });
    const part = used({ partId: lamp.id, amount: 2 });
    await stack.visits.close(stack.technician, visitId, aClosing(tasks, { parts: [part] }));
    await stack.visits.reopen(stack.office, visitId, 'wrong lamp');
    expect(await onHand(lamp.id)).toBe(5);
    await stack.visits.close(stack.technician, visitId, aClosing(tasks, { parts: [{ ...part, amount: 1 }] }));
    expect(await onHand(lamp.id)).toBe(4);
  });

  it('are kept by name where the shelf does not know them', async () => {
    const { visitId, tasks } = await aVisit();
    await stack.visits.close(stack.technician, visitId, aClosing(tasks, { parts: [used({ partId: newId() })] }));
    expect(await leavings.partsOf(stack.companyId, [visitId])).toMatchObject([{ partId: null, name: 'UV lamp' }]);
  });

  it('stand with the hours in the statement of the month', async () => {
    const { visitId, tasks } = await aVisit();
    const told = { arrivedAt: '2026-05-15T13:00:00Z', leftAt: '2026-05-15T14:30:00Z', parts: [used({ lot: 'L-7' })] };
    await stack.visits.close(stack.technician, visitId, aClosing(tasks, told));
    const statement = await stack.app.get(VisitStatements, { strict: false }).of(stack.companyId, '2026-05');
    expect(statement.visits.find((one) => one.visitId === visitId)).toMatchObject({
      minutes: 90,
      isMeasured: true,
      technicianName: 'Dana Ruiz',
      parts: [{ name: 'UV lamp', amount: 1, unit: 'piece', lot: 'L-7' }],
    });
    expect(statement.hoursByTechnician.map(({ name }) => name)).toEqual(['Dana Ruiz']);
  });
});

describe('follow-ups', () => {
  it('wait until somebody settles them, the soonest wanted first', async () => {
    const { visitId, pondId, tasks } = await aVisit();
    const followUps = [
      { id: newId(), what: 'Skimmer door is cracked', untilOn: null, careTaskId: null },
      { id: newId(), what: 'Socket has no lid', untilOn: '2026-05-20', careTaskId: null },
    ];
    await stack.visits.close(stack.technician, visitId, aClosing(tasks, { followUps }));
    const open = await leavings.openFollowUps(stack.companyId, pondId);
    expect(open.map(({ what }) => what)).toEqual(['Socket has no lid', 'Skimmer door is cracked']);
    await leavings.settle(stack.companyId, open[0]?.id ?? '', stack.office.personId);
    expect(await leavings.openFollowUps(stack.companyId, pondId)).toHaveLength(1);
  });
});

describe('a task done in part', () => {
  it('is still due, with the work that is left', async () => {
    const { visitId, pondId, tasks } = await aVisit();
    const [first] = tasks as [CareTaskView];
    const closing = aClosing([first]);
    const partly = closing.tasks.map((task) => ({ ...task, outcome: 'partly' as const, doneShare: 0.6 }));
    await stack.visits.close(stack.technician, visitId, { ...closing, tasks: partly });
    const next = { pondId, taskIds: [first.task.id], plannedOn: '2026-05-16' };
    const { visit } = await stack.visits.create(stack.companyId, next);
    const rest = Math.max(5, first.task.planned.minutes * 0.4);
    expect(visit.minutes).toBe(Math.round(25 + Math.min(first.task.planned.minutes, rest)));
  });
});

describe('a correction by the office', () => {
  it('stands in place of the closings, keeps them all, and leaves the work with the technician', async () => {
    const { visitId, tasks } = await aVisit();
    stack.clock.advance({ minutes: 1 });
    const reading = { id: newId(), quantity: 'ph' as const, value: 7.1, takenAt: '2026-05-15T14:00:00Z' };
    await stack.visits.close(stack.technician, visitId, aClosing(tasks, { note: 'all well', readings: [reading] }));
    const before = await stack.visits.history(stack.companyId, visitId);
    stack.clock.advance({ minutes: 1 });
    await stack.visits.edit(
      stack.office,
      visitId,
      {
        because: 'the meter was read upside down',
        note: 'all well',
        homeownerPresent: true,
        tasks: before.merged.tasks.map(({ careTaskId, outcome, doneShare, actuals }) => {
          return { careTaskId, outcome, doneShare, remark: '', actuals };
        }),
        readings: [{ ...reading, value: 7.7 }],
      },
      before.visit.version,
    );
    const after = await stack.visits.history(stack.companyId, visitId);
    expect(after.visit).toMatchObject({ state: 'COMPLETED', closedAt: before.visit.closedAt });
    expect(after.closings).toHaveLength(2);
    expect(after.closings[0]?.record.readings).toMatchObject([{ value: 7.1 }]);
    expect(after.readings.map(({ value, replacesId }) => [value, replacesId])).toEqual([[7.7, reading.id]]);
    expect(after.merged.homeownerPresent).toBe(true);
    const [done] = await stack.calendar.tasks(stack.companyId, [tasks[0]?.task.id ?? '']);
    expect(done?.task).toMatchObject({ state: 'COMPLETED', finishedBy: stack.technician.personId });
    expect(after.trail.map(({ step, changedByName }) => [step, changedByName])).toEqual([
      ['planned', stack.office.name],
      ['closed', 'Dana Ruiz'],
      ['edited', stack.office.name],
    ]);
  });

  it('is refused when somebody changed the visit meanwhile, or without a reason', async () => {
    const { visitId, tasks } = await aVisit();
    await stack.visits.close(stack.technician, visitId, aClosing(tasks));
    const record = { because: 'x', note: '', homeownerPresent: null, tasks: [], readings: [] };
    await expect(stack.visits.edit(stack.office, visitId, record, 1)).rejects.toThrow(/changed by somebody else/);
    await expect(stack.visits.edit(stack.office, visitId, { ...record, because: ' ' })).rejects.toThrow(/Say why/);
  });
});

describe('two phones that say different things', () => {
  it('are both kept and flagged until the office has looked', async () => {
    const { visitId, tasks } = await aVisit();
    await stack.visits.close(stack.technician, visitId, aClosing(tasks, { homeownerPresent: true }));
    const second = await stack.visits.close(stack.technician, visitId, aClosing(tasks, { homeownerPresent: false }));
    expect(second.flags).toEqual(['amendment', 'differs']);
    const flagged = () => stack.visits.list(stack.companyId, { isFlagged: true });
    expect((await flagged()).rows.map(({ visit }) => visit.id)).toContain(visitId);
    await stack.visits.settleFlags(stack.office, visitId);
    expect((await flagged()).rows.map(({ visit }) => visit.id)).not.toContain(visitId);
  });

  it('say so when the office had moved the visit meanwhile', async () => {
    const { visitId, tasks } = await aVisit();
    await stack.visits.move(stack.companyId, visitId, { plannedOn: '2026-05-18' }, undefined, stack.office.personId);
    const answer = await stack.visits.close(stack.technician, visitId, aClosing(tasks, { plannedOn: '2026-05-15' }));
    expect(answer).toMatchObject({ outcome: 'closed', flags: ['moved-meanwhile'] });
  });
});

describe('what cannot be kept of a closing', () => {
  it.each([
    ['a part of nothing', { parts: [used({ amount: 0 })] }, /more than 0/],
    ['a part of less than nothing', { parts: [used({ amount: -1 })] }, /amount/],
    [
      'a reading below nothing',
      { readings: [{ id: newId(), quantity: 'nitrite' as const, value: -0.1, takenAt: '2026-05-15T14:00:00Z' }] },
      /nitrite/,
    ],
    ['a note of 10,001 characters', { note: 'x'.repeat(10_001) }, /10001 characters/],
    [
      'a follow-up without words',
      { followUps: [{ id: newId(), what: ' ', untilOn: null, careTaskId: null }] },
      /Write something/,
    ],
  ])('is %s', async (_, told, sentence) => {
    const { visitId } = await aVisit();
    await expect(stack.visits.close(stack.technician, visitId, aClosing([], told))).rejects.toThrow(sentence);
  });

  it.each([
    ['10,000 characters', 'x'.repeat(10_000)],
    ['pictures and two directions', 'Fish 🐟 fine. البركة نظيفة \u202Eabc\u202C'],
  ])('is not a note of %s: it comes back as it was typed', async (_, note) => {
    const { visitId } = await aVisit();
    await stack.visits.close(stack.technician, visitId, aClosing([], { note }));
    const { merged } = await stack.visits.history(stack.companyId, visitId);
    expect(merged.notes.map((one) => one.note)).toEqual([note]);
  });

  it('is not a reading in the future: it gets the time of receipt', async () => {
    const { visitId } = await aVisit();
    const reading = { id: newId(), quantity: 'ph' as const, value: 7.4, takenAt: '2027-01-01T00:00:00Z' };
    await stack.visits.close(stack.technician, visitId, aClosing([], { readings: [reading] }));
    const { readings } = await stack.visits.history(stack.companyId, visitId);
    expect(readings.map(({ takenAt }) => takenAt)).toEqual([stack.clock.instant()]);
  });
});

describe('a check-in time', () => {
  it('is seen by the office once it has passed, and ends when the person speaks', async () => {
    const checkIns = stack.app.get(CheckIns, { strict: false });
    stack.clock.set('2026-05-15T15:00:00Z');
    await checkIns.set(stack.technician, '2026-05-15T15:30:00Z');
    expect(await checkIns.overdue(stack.companyId)).toEqual([]);
    stack.clock.set('2026-05-15T15:31:00Z');
    expect(await checkIns.overdue(stack.companyId)).toMatchObject([{ name: 'Dana Ruiz' }]);
    await checkIns.allIsWell(stack.technician);
    expect(await checkIns.overdue(stack.companyId)).toEqual([]);
    stack.clock.set('2026-05-15T15:00:00Z');
    await expect(checkIns.set(stack.technician, '2026-05-15T14:00:00Z')).rejects.toThrow(/within the coming 16 hours/);
  });
});

describe('the wish for a pause before reports', () => {
  it('is none until it is set, and at most a week', async () => {
    const settings = stack.app.get(VisitSettings, { strict: false });
    expect(await settings.of(stack.companyId)).toEqual({ reportHoldHours: 0 });
    await settings.change(stack.companyId, { reportHoldHours: 12 });
    expect(await settings.of(stack.companyId)).toMatchObject({ reportHoldHours: 12 });
    await expect(settings.change(stack.companyId, { reportHoldHours: 169 })).rejects.toThrow(/reportHoldHours/);
  });
});
