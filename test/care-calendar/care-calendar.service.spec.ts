import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { CareTaskEntity, PlanLogEntity, PlanOutcomeEntity } from '../../src/care-calendar/index.js';
import { addDays, civilDay, isoDateOf } from '../../src/core/units/civil-day.js';
import { newId } from '../../src/platform/ids.js';
import { pondInputOf, readPondInput } from '../../src/ponds/index.js';
import { type CareStack, careStack } from '../support/care-stack.js';
import { storeCompany } from '../support/company-rows.js';
import { aPond } from '../support/typed-pond.js';

const NOW = '2026-05-15T15:00:00Z';
const TODAY = '2026-05-15';

let stack: CareStack;
beforeAll(async () => {
  stack = await careStack({ at: NOW });
});
afterAll(() => stack.close());
beforeEach(() => stack.clock.set(NOW));

const { create, open, one, log, by, on } = {
  create: (own: Parameters<typeof aPond>[0] = {}) => stack.ponds.create(stack.companyId, aPond(own)),
  open: (pondId: string) => stack.calendar.tasksOf(stack.companyId, pondId),
  one: async (pondId: string, ruleId: string) =>
    (await stack.calendar.tasksOf(stack.companyId, pondId)).find(({ task }) => task.ruleId === ruleId),
  log: async (pondId: string) =>
    (await stack.calendar.log(stack.companyId, pondId)).map(({ kind, ruleId, cycle }) => `${kind} ${ruleId} ${cycle}`),
  by: () => stack.personId,
  on: (isoDate: string, days: number) => isoDateOf(addDays(civilDay(isoDate), days)),
};

describe('CareCalendarService.replan', () => {
  it('plans a pond the moment it is saved, with a log and what else was found', async () => {
    const pondId = await create();
    const tasks = await open(pondId);
    expect(tasks.map(({ task }) => `${task.ruleId} ${task.cycle}`).sort()).toEqual([
      'device-test 1',
      'winter-shutdown cooling-2026',
    ]);
    const shutdown = tasks.find(({ task }) => task.ruleId === 'winter-shutdown')!;
    expect(shutdown.rule.title).toBe('Take the pump out for winter');
    expect(shutdown.task.dueOn > '2026-09-01' && shutdown.task.dueOn < '2026-12-01').toBe(true);
    expect(await log(pondId)).toEqual(
      expect.arrayContaining(['added device-test 1', 'added winter-shutdown cooling-2026']),
    );
    const outcome = await stack.calendar.outcomeOf(stack.companyId, pondId);
    expect(outcome).toMatchObject({
      plannedOn: TODAY,
      notDue: expect.arrayContaining([expect.objectContaining({ ruleId: 'ammonia-change', because: 'no-reading' })]),
    });
    expect(outcome!.outlook).toMatchObject({ firstDay: TODAY, winterClass: expect.stringMatching(/^W[23]$/) });
    expect(outcome!.outlook.p50C).toHaveLength(548);
    expect((await stack.ponds.pond(stack.companyId, pondId)).winterClass).toBe(outcome!.outlook.winterClass);
  });

  it('changes nothing and writes nothing when there is nothing new', async () => {
    const pondId = await create();
    const rows = async () => {
      const store = stack.database.company(stack.companyId);
      return JSON.stringify([
        await store.find(CareTaskEntity, { where: { pondId }, order: { id: 'ASC' } }),
        await store.find(PlanLogEntity, { where: { pondId }, order: { id: 'ASC' } }),
        await store.find(PlanOutcomeEntity, { where: { pondId } }),
        await stack.ponds.get(stack.companyId, pondId),
      ]);
    };
    const before = await rows();
    stack.clock.advance({ minutes: 5 });
    expect(await stack.calendar.replan(stack.companyId, pondId)).toEqual([]);
    expect(await rows()).toBe(before);
  });

  it('keeps the windows on later days as well', async () => {
    const pondId = await create();
    const before = (await one(pondId, 'winter-shutdown'))!.task;
    stack.clock.advance({ days: 20 });
    expect(await stack.calendar.replan(stack.companyId, pondId)).toEqual([]);
    expect((await one(pondId, 'winter-shutdown'))!.task).toEqual(before);
    expect((await stack.calendar.outcomeOf(stack.companyId, pondId))!.plannedOn).toBe('2026-06-04');
  });

  it('takes a task away when the record no longer asks for it, and brings the same one back', async () => {
    const pondId = await create();
    const { task } = (await one(pondId, 'winter-shutdown'))!;
    const typed = pondInputOf(await stack.ponds.get(stack.companyId, pondId));
    const withoutPump = typed.equipment.filter(({ kind }) => kind !== 'pump');
    await stack.ponds.update(stack.companyId, pondId, readPondInput({ ...typed, equipment: withoutPump }), 1);
    expect(await one(pondId, 'winter-shutdown')).toBeUndefined();
    expect(await log(pondId)).toContain('cancelled winter-shutdown cooling-2026');

    await stack.ponds.update(
      stack.companyId,
      pondId,
      readPondInput({ ...typed, equipment: [...withoutPump, { kind: 'pump', name: 'New' }] }),
      2,
    );
    expect((await one(pondId, 'winter-shutdown'))!.task).toMatchObject({
      id: task.id,
      cycle: 'cooling-2026',
      state: 'NEEDS-ACTION',
      finishedOn: null,
    });
    expect(await log(pondId)).toContain('returned winter-shutdown cooling-2026');
  });

  it('leaves an archived pond alone and out of every list', async () => {
    const pondId = await create({ name: 'Resting' });
    await stack.ponds.archive(stack.companyId, pondId);
    expect(await stack.calendar.replan(stack.companyId, pondId)).toEqual([]);
    const due = await stack.calendar.dueForTechnicians(stack.companyId, { from: TODAY, to: '2027-05-01' });
    expect(due.some(({ task }) => task.pondId === pondId)).toBe(false);
  });

  it('plans all ponds of a company, tells its progress, and goes on past a pond that cannot be planned', async () => {
    const { company } = await storeCompany(stack.database);
    for (const name of ['a', 'b', 'c']) await stack.ponds.create(company.id, aPond({ name }));
    const seen: string[] = [];
    const report = await stack.calendar.replanAll(company.id, {
      asOf: civilDay('2026-08-01'),
      onProgress: ({ done, total }) => seen.push(`${done}/${total}`),
    });
    expect(report).toMatchObject({ ponds: 3, failed: [] });
    expect(seen).toEqual(['1/3', '2/3', '3/3']);
  });

  it('previews the very calendar that saving gives, and stores nothing', async () => {
    const pondId = newId();
    const input = aPond({ name: 'Preview' });
    const preview = await stack.calendar.preview(stack.companyId, input, { pondId });
    expect(await stack.database.company(stack.companyId).count(CareTaskEntity, { pondId })).toBe(0);
    await stack.ponds.create(stack.companyId, input, { id: pondId });
    const stored = (await open(pondId)).map(({ task }) => task.planned);
    expect(stored).toEqual(JSON.parse(JSON.stringify(preview.tasks.map(({ task }) => task))));
  });

  it('plans for a past day with what was known then', async () => {
    const pondId = await create();
    await stack.readings.add(stack.companyId, pondId, [
      { quantity: 'total-ammonia', value: 2, takenAt: '2026-05-15T10:00:00Z' },
    ]);
    const rulesOn = async (day: string) =>
      (await stack.calendar.planAsOf(stack.companyId, pondId, civilDay(day))).plan.tasks.map(({ ruleId }) => ruleId);
    expect(await rulesOn('2026-05-15')).toContain('ammonia-change');
    expect(await rulesOn('2026-05-13')).not.toContain('ammonia-change');
  });
});

describe('CareCalendarService, readings', () => {
  it('plans an urgent task inside the saving of a reading beyond its limit, and takes it away when a new one is in order', async () => {
    const pondId = await create();
    const [readingId] = await stack.readings.add(stack.companyId, pondId, [
      { quantity: 'total-ammonia', value: 2, takenAt: '2026-05-15T14:00:00Z' },
    ]);
    const urgent = (await one(pondId, 'ammonia-change'))!;
    expect(urgent.task).toMatchObject({ cycle: readingId, consequence: 'urgent', dueOn: TODAY, latestOn: TODAY });
    expect((await stack.calendar.thisWeek(stack.companyId)).urgent.map(({ task }) => task.id)).toContain(
      urgent.task.id,
    );

    await stack.readings.add(stack.companyId, pondId, [
      { quantity: 'total-ammonia', value: 0.1, takenAt: '2026-05-15T15:00:00Z' },
    ]);
    expect(await one(pondId, 'ammonia-change')).toBeUndefined();
  });

  it('keeps neither reading nor plan when planning fails', async () => {
    const pondId = await create();
    const { planner } = (stack.calendar as unknown as { replanning: { planner: { plan: unknown } } }).replanning;
    const plan = planner.plan;
    planner.plan = () => {
      throw new Error('no plan');
    };
    try {
      await expect(
        stack.readings.add(stack.companyId, pondId, [{ quantity: 'ph', value: 7, takenAt: '2026-05-15T10:00:00Z' }]),
      ).rejects.toThrow('no plan');
    } finally {
      planner.plan = plan;
    }
    expect(await stack.readings.list(stack.companyId, pondId)).toEqual([]);
  });
});

describe('CareCalendarService, acts', () => {
  it('counts the next task from the day one was really done, and gives that as the reason', async () => {
    const pondId = await create();
    const { task } = (await one(pondId, 'device-test'))!;
    await stack.calendar.complete(stack.companyId, task.id, { on: '2026-05-12', by: by(), actuals: { tripMs: 24 } });

    const next = (await one(pondId, 'device-test'))!.task;
    expect(next).toMatchObject({
      cycle: '2',
      dueOn: on('2026-05-12', 30),
      earliestOn: on('2026-05-12', 23),
      latestOn: on('2026-05-12', 37),
    });
    expect(JSON.stringify(next.planned.reason.inputs)).toContain(String(civilDay('2026-05-12')));
    const [finished] = await stack.calendar.tasksOf(stack.companyId, pondId, { finished: true });
    expect(finished!.task).toMatchObject({
      id: task.id,
      state: 'COMPLETED',
      finishedOn: '2026-05-12',
      finishedBecause: 'done',
      actuals: { tripMs: 24 },
    });
    expect(await log(pondId)).toEqual(expect.arrayContaining(['completed device-test 1', 'added device-test 2']));
  });

  it('takes "done" said twice for once', async () => {
    const pondId = await create();
    const { task } = (await one(pondId, 'device-test'))!;
    await stack.calendar.complete(stack.companyId, task.id, { by: by() });
    await stack.calendar.complete(stack.companyId, task.id, { by: by(), on: '2026-05-01' });
    expect((await stack.calendar.task(stack.companyId, task.id)).task.finishedOn).toBe(TODAY);
  });

  it.each([
    ['a day still to come', { on: '2026-05-16' }, /still to come/],
    ['a day of another year', { on: '2024-05-16' }, /more than a year ago/],
    ['a day that is none', { on: '2026-02-30' }, /YYYY-MM-DD/],
    ['an actual that is no number', { actuals: { changedL: Number.NaN } }, /finite number/],
  ])('refuses to complete with %s', async (_, done, message) => {
    const { task } = (await one(await create(), 'device-test'))!;
    await expect(stack.calendar.complete(stack.companyId, task.id, { by: by(), ...done })).rejects.toThrow(message);
    expect((await stack.calendar.task(stack.companyId, task.id)).task.state).toBe('NEEDS-ACTION');
  });

  it('takes a completion back on the same day, and the task counted from it goes', async () => {
    const pondId = await create();
    const { task } = (await one(pondId, 'device-test'))!;
    await stack.calendar.complete(stack.companyId, task.id, { by: by() });
    await stack.calendar.reopen(stack.companyId, task.id, { by: by() });
    const tests = (await open(pondId)).filter((view) => view.task.ruleId === 'device-test');
    expect(tests.map((view) => view.task.cycle)).toEqual(['1']);

    await stack.calendar.complete(stack.companyId, task.id, { by: by() });
    stack.clock.advance({ days: 1 });
    await expect(stack.calendar.reopen(stack.companyId, task.id, { by: by() })).rejects.toThrow(/on that day only/);
    await stack.calendar.reopen(stack.companyId, task.id, { by: by(), anyDay: true });
    expect((await one(pondId, 'device-test'))!.task.cycle).toBe('1');
  });

  it('never brings a task back that a person has cancelled', async () => {
    const pondId = await create();
    const { task } = (await one(pondId, 'winter-shutdown'))!;
    await stack.calendar.cancel(stack.companyId, task.id, { by: by(), because: 'not-applicable' });
    await stack.calendar.replan(stack.companyId, pondId);
    expect(await one(pondId, 'winter-shutdown')).toBeUndefined();
    await expect(stack.calendar.complete(stack.companyId, task.id, { by: by() })).rejects.toThrow(/Reopen it first/);
  });

  it('counts what was done by other means, as CANCELLED with that reason', async () => {
    const pondId = await create();
    const { task } = (await one(pondId, 'device-test'))!;
    await stack.calendar.complete(stack.companyId, task.id, { by: by(), because: 'done-by-other-means' });
    expect((await stack.calendar.task(stack.companyId, task.id)).task).toMatchObject({
      state: 'CANCELLED',
      finishedBecause: 'done-by-other-means',
    });
    expect((await one(pondId, 'device-test'))!.task.cycle).toBe('2');
  });

  it('lets a task wait inside its window and no longer', async () => {
    const pondId = await create();
    const { task } = (await one(pondId, 'winter-shutdown'))!;
    const putOff = (until: string) => stack.calendar.putOff(stack.companyId, task.id, until);
    await putOff(task.latestOn);
    expect((await one(pondId, 'winter-shutdown'))!.dueOn).toBe(task.latestOn);
    await expect(putOff(on(task.latestOn, 1))).rejects.toThrow(/at most/);
    await expect(putOff(TODAY)).rejects.toThrow(/still to come/);
  });

  it('holds a day a person has set through every replan, until released', async () => {
    const pondId = await create();
    const { task } = (await one(pondId, 'device-test'))!;
    await stack.calendar.hold(stack.companyId, task.id, '2026-06-30');
    stack.clock.advance({ days: 10 });
    await stack.calendar.replan(stack.companyId, pondId);
    expect(await one(pondId, 'device-test')).toMatchObject({
      dueOn: '2026-06-30',
      task: { heldDueOn: '2026-06-30' },
      isLate: false,
    });
    await stack.calendar.release(stack.companyId, task.id);
    expect((await one(pondId, 'device-test'))!.task.heldDueOn).toBeNull();
    await expect(stack.calendar.hold(stack.companyId, task.id, '2026-01-01')).rejects.toThrow(/between today/);
  });

  it('says so when a promised day can no longer be kept', async () => {
    const pondId = await create();
    const { task } = (await one(pondId, 'winter-shutdown'))!;
    await stack.calendar.promise(stack.companyId, [task.id], task.dueOn, { byMail: true });
    expect((await one(pondId, 'winter-shutdown'))!.task).toMatchObject({ promisedOn: task.dueOn, mailedTimes: 1 });

    // The pond turns out to lie far to the north: its autumn comes weeks earlier.
    const typed = pondInputOf(await stack.ponds.get(stack.companyId, pondId));
    await stack.ponds.update(stack.companyId, pondId, readPondInput({ ...typed, latitude: 54.5, elevationM: 900 }), 1);
    const moved = (await one(pondId, 'winter-shutdown'))!.task;
    expect(moved.dueOn < task.earliestOn).toBe(true);
    expect(moved.promisedOn).toBeNull();
    const [row] = (await stack.calendar.log(stack.companyId, pondId)).filter(
      ({ kind }) => kind === 'moved-off-promise',
    );
    expect(row!.because).toContain(`promised for ${task.dueOn}`);
  });

  it('releases a promise, and puts tasks on a visit and off it', async () => {
    const { task } = (await one(await create(), 'device-test'))!;
    await stack.calendar.promise(stack.companyId, [task.id], task.dueOn);
    await stack.calendar.releasePromise(stack.companyId, [task.id]);
    const visitId = newId();
    await stack.calendar.putOnVisit(stack.companyId, [task.id], visitId);
    expect((await stack.calendar.task(stack.companyId, task.id)).task).toMatchObject({ promisedOn: null, visitId });
    await stack.calendar.putOnVisit(stack.companyId, [task.id], null);
    expect((await stack.calendar.task(stack.companyId, task.id)).task.visitId).toBeNull();
    await expect(stack.calendar.promise(stack.companyId, [task.id, newId()], task.dueOn)).rejects.toMatchObject({
      code: 'not-found',
    });
  });
});

describe('CareCalendarService, lists', () => {
  it('answers what is due for technicians and for homeowners, late ones first', async () => {
    const { company, owner } = await storeCompany(stack.database);
    const agreement = [{ ruleId: 'device-test', doneBy: 'homeowner' as const }];
    const mine = await stack.ponds.create(company.id, aPond({ name: 'Ours', careSince: TODAY }));
    const theirs = await stack.ponds.create(company.id, aPond({ name: 'Theirs', careSince: TODAY, agreement }));
    const technicians = (from: string, to: string, withEarlier?: boolean) =>
      stack.calendar.dueForTechnicians(company.id, { from, to, withEarlier });

    const june = await technicians('2026-06-08', '2026-06-21');
    expect(june).toMatchObject([{ pondName: 'Ours', dueOn: '2026-06-14', rule: { id: 'device-test' } }]);
    const homeowner = await stack.calendar.dueForHomeowner(company.id, [theirs], {
      from: '2026-06-08',
      to: '2026-06-21',
    });
    expect(homeowner.map(({ task }) => task.pondId)).toEqual([theirs]);
    expect(await stack.calendar.dueForHomeowner(company.id, [], { from: '2026-06-08', to: '2026-06-21' })).toEqual([]);
    expect(await technicians('2026-06-15', '2026-06-21', false)).toEqual([]);

    stack.clock.set('2026-06-16T15:00:00Z');
    expect((await stack.calendar.thisWeek(company.id)).atRisk.map(({ task }) => task.pondId)).toEqual([mine]);
    stack.clock.set('2026-06-22T15:00:00Z');
    const week = await stack.calendar.thisWeek(company.id);
    expect(week.late.map(({ pondName }) => pondName).sort()).toEqual(['Ours', 'Theirs']);
    expect(week.atRisk).toEqual([]);
    await stack.calendar.complete(company.id, week.late[0]!.task.id, { by: owner.id });
    expect((await stack.calendar.thisWeek(company.id)).late).toHaveLength(1);
  });

  it('knows nothing of the tasks of another company', async () => {
    const pondId = await create();
    const { task } = (await one(pondId, 'device-test'))!;
    const { company } = await storeCompany(stack.database);
    const { calendar } = stack;
    await expect(calendar.task(company.id, task.id)).rejects.toMatchObject({ code: 'not-found' });
    await expect(calendar.complete(company.id, task.id, { by: by() })).rejects.toMatchObject({ code: 'not-found' });
    await expect(calendar.hold(company.id, task.id, '2026-06-30')).rejects.toMatchObject({ code: 'not-found' });
    await expect(calendar.promise(company.id, [task.id], TODAY)).rejects.toMatchObject({ code: 'not-found' });
    await expect(calendar.replan(company.id, pondId)).rejects.toMatchObject({ code: 'not-found' });
    expect(await calendar.tasksOf(company.id, pondId)).toEqual([]);
    expect(await calendar.dueForHomeowner(company.id, [pondId], { from: TODAY, to: '2027-05-01' })).toEqual([]);
    expect(await calendar.outcomeOf(company.id, pondId)).toBeNull();
    expect((await calendar.task(stack.companyId, task.id)).task.state).toBe('NEEDS-ACTION');
  });
});
