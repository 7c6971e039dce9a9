import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { CarePlan, NotDue, PlannedTask, TaskWindow } from '../../../src/core/care/care-plan.js';
import { reconcile } from '../../../src/core/care/reconcile.js';
import type { PlanChange, StandingTask } from '../../../src/core/care/standing-task.js';
import type { CivilDay } from '../../../src/core/units/civil-day.js';

const TODAY = 20_000 as CivilDay;
const day = (offset: number) => (TODAY + offset) as CivilDay;
const windowOf = (earliest: number, due: number, latest: number): TaskWindow => ({
  earliest: day(earliest),
  due: day(due),
  latest: day(latest),
});

function aTask(window: TaskWindow, changes: Partial<PlannedTask> = {}): PlannedTask {
  return {
    ruleId: 'some-work',
    cycle: '1',
    doneBy: 'technician',
    consequence: 'routine',
    routineLine: false,
    window,
    confidence: 1,
    reason: { trigger: 'interval', formula: '', source: '', inputs: [] },
    quantities: [],
    minutes: 10,
    people: 1,
    ...changes,
  };
}

function standing(task: PlannedTask, changes: Partial<StandingTask> = {}): StandingTask {
  const { ruleId, cycle, window } = task;
  return { ruleId, cycle, window, state: 'NEEDS-ACTION', planned: task, heldDue: null, promisedOn: null, ...changes };
}

function aPlan(tasks: readonly PlannedTask[], notDue: readonly NotDue[] = []): CarePlan {
  return { pondId: 'p', today: TODAY, tasks, notDue, conflicts: [], findings: [] };
}

function changes(before: readonly StandingTask[], plan: CarePlan, today = TODAY): PlanChange[] {
  return reconcile({ standing: before, plan, today });
}

/** The calendar after its changes were stored, as the plan log has them. */
function stored(before: readonly StandingTask[], made: readonly PlanChange[]): StandingTask[] {
  const after = new Map(before.map((task) => [`${task.ruleId} ${task.cycle}`, task]));
  for (const change of made) {
    if (change.kind === 'added') after.set(`${change.task.ruleId} ${change.task.cycle}`, standing(change.task));
    else {
      const key = `${change.ruleId} ${change.cycle}`;
      const task = after.get(key);
      if (!task) throw new Error(key);
      if (change.kind === 'cancelled') after.set(key, { ...task, state: 'CANCELLED' });
      else after.set(key, { ...task, window: change.task.window, planned: change.task });
    }
  }
  return [...after.values()];
}

function fed(computed: number, fishKg = 10): PlannedTask {
  return aTask(windowOf(4, 9, 14), {
    quantities: [
      {
        recipe: 'feed-ration',
        of: 'feed',
        amount: computed,
        unit: 'g',
        per: 'per-day',
        computed,
        basis: { of: 'fish', amount: fishKg, unit: 'kg' },
        formula: '',
        source: '',
        remarks: [],
      },
    ],
  });
}

describe('reconcile', () => {
  it('adds what is new', () => {
    const task = aTask(windowOf(5, 10, 15));
    expect(changes([], aPlan([task]))).toEqual([{ kind: 'added', task }]);
  });

  it('changes nothing while the new due day lies inside the standing window', () => {
    const before = standing(aTask(windowOf(5, 10, 15)));
    for (const due of [5, 10, 15])
      expect(changes([before], aPlan([aTask(windowOf(due - 9, due, due + 9))]))).toEqual([]);
  });

  it('moves the task in one step when the due day leaves the window', () => {
    const before = standing(aTask(windowOf(5, 10, 15)));
    const task = aTask(windowOf(10, 16, 20));
    expect(changes([before], aPlan([task]))).toMatchObject([
      { kind: 'moved', from: before.window, to: task.window, breaksPromise: false },
    ]);
  });

  it.each(['COMPLETED', 'CANCELLED'] as const)('never touches what is %s', (state) => {
    const before = standing(aTask(windowOf(5, 10, 15)), { state });
    expect(changes([before], aPlan([aTask(windowOf(30, 40, 50))]))).toEqual([]);
    expect(changes([before], aPlan([]))).toEqual([]);
  });

  it('keeps a task that has moved twice where it is from 60 days before on, unless it counts from another day', () => {
    const twice = (due: number) => standing(aTask(windowOf(due - 5, due, due + 5)), { nearMoves: 2 });
    const plan = aPlan([aTask(windowOf(75, 80, 85))]);
    expect(changes([twice(60)], plan)).toEqual([]);
    expect(changes([{ ...twice(60), nearMoves: 1 }], plan)).toMatchObject([{ kind: 'moved' }]);
    expect(changes([twice(61)], plan)).toMatchObject([{ kind: 'moved' }]);
    const reason = {
      trigger: 'interval',
      formula: '',
      source: '',
      inputs: [{ name: 'last-done', value: TODAY - 1, unit: 'day' }],
    };
    const changed = aTask(windowOf(75, 80, 85), { reason: reason as PlannedTask['reason'] });
    expect(changes([twice(60)], aPlan([changed]))).toMatchObject([{ kind: 'moved' }]);
  });

  it('leaves a date a person set', () => {
    const before = standing(aTask(windowOf(5, 10, 15)), { heldDue: day(12) });
    expect(changes([before], aPlan([aTask(windowOf(30, 40, 50))]))).toEqual([]);
    expect(changes([before], aPlan([]))).toEqual([]);
  });

  it('keeps a promise the new window still allows', () => {
    const before = standing(aTask(windowOf(5, 10, 15)), { promisedOn: day(12) });
    expect(changes([before], aPlan([aTask(windowOf(12, 18, 22))]))).toEqual([]);
  });

  it('breaks a promise only when the new window excludes the day, and says so', () => {
    const before = standing(aTask(windowOf(5, 10, 15)), { promisedOn: day(12) });
    expect(changes([before], aPlan([aTask(windowOf(13, 18, 22))]))).toMatchObject([
      { kind: 'moved', breaksPromise: true },
    ]);
  });

  it('does not let an overdue task run after today', () => {
    const before = standing(aTask(windowOf(-20, -15, -10)));
    expect(changes([before], aPlan([aTask(windowOf(-3, 0, 3))]))).toEqual([]);
    expect(changes([before], aPlan([aTask(windowOf(1, 5, 9))]))).toMatchObject([{ kind: 'moved' }]);
  });

  it('does not put off to another season what is due within a fortnight, because of the forecast alone', () => {
    const counted = (window: TaskWindow, lastDone: number) =>
      aTask(window, {
        reason: {
          trigger: 'interval',
          formula: '',
          source: '',
          inputs: [{ name: 'last-done', value: lastDone, unit: 'day' }],
        },
      });
    const before = standing(counted(windowOf(2, 5, 8), 1));
    expect(changes([before], aPlan([counted(windowOf(290, 300, 310), 1)]))).toEqual([]);
    expect(changes([before], aPlan([counted(windowOf(290, 300, 310), 1)]), day(9))).toMatchObject([{ kind: 'moved' }]);
    expect(changes([before], aPlan([counted(windowOf(290, 300, 310), 2)]))).toMatchObject([{ kind: 'moved' }]);
  });

  it('revises an amount that differs by more than a tenth, and leaves the window', () => {
    const before = standing({ ...fed(100), window: windowOf(5, 10, 15) });
    expect(changes([before], aPlan([fed(109)]))).toEqual([]);
    expect(changes([before], aPlan([fed(112)]))).toMatchObject([
      { kind: 'revised', because: 'quantity of feed', task: { window: windowOf(5, 10, 15) } },
    ]);
  });

  it('leaves amounts far ahead, unless the pond or its stock changed', () => {
    const ahead = windowOf(40, 50, 60);
    const before = standing({ ...fed(100), window: ahead });
    expect(changes([before], aPlan([{ ...fed(150), window: ahead }]))).toEqual([]);
    expect(changes([before], aPlan([{ ...fed(100, 12), window: ahead }]))).toMatchObject([{ kind: 'revised' }]);
  });

  it('revises every dose at once when the volume of the pond was corrected', () => {
    const dosed = (volumeL: number) =>
      aTask(windowOf(5, 10, 15), {
        quantities: [
          {
            recipe: 'water-change',
            of: 'new-water',
            amount: 1000,
            unit: 'L',
            per: 'once',
            computed: volumeL / 10,
            basis: { of: 'pond', amount: volumeL, unit: 'L' },
            formula: '',
            source: '',
            remarks: [],
          },
        ],
      });
    expect(changes([standing(dosed(10_000))], aPlan([dosed(10_400)]))).toMatchObject([{ kind: 'revised' }]);
  });

  it('says who does it now', () => {
    const before = standing(aTask(windowOf(5, 10, 15)));
    const now = aTask(windowOf(5, 10, 15), { doneBy: 'homeowner' });
    expect(changes([before], aPlan([now]))).toMatchObject([{ kind: 'revised', because: 'done by homeowner' }]);
  });
});

describe('a standing line', () => {
  const line = (computed: number, window: TaskWindow) => ({ ...fed(computed), routineLine: true, window });
  const season = windowOf(-30, -30, 100);
  // Day 20,000 is 4 October 2024, a Friday; three days later is a Monday.
  const MONDAY = day(3);

  it('gives less at once, and more only with a new week', () => {
    const before = standing(line(100, season));
    expect(changes([before], aPlan([line(80, season)]))).toMatchObject([{ kind: 'revised' }]);
    expect(changes([before], aPlan([line(150, season)]))).toEqual([]);
    expect(changes([before], aPlan([line(150, season)]), MONDAY)).toMatchObject([{ kind: 'revised' }]);
  });

  it('gives the first food after none at once', () => {
    expect(changes([standing(line(0, season))], aPlan([line(20, season)]))).toMatchObject([{ kind: 'revised' }]);
  });

  it('is redrawn when its end moves out by more than a fortnight, not when it moves in', () => {
    const before = standing(line(100, season));
    expect(changes([before], aPlan([line(100, windowOf(-20, -20, 110))]))).toEqual([]);
    expect(changes([before], aPlan([line(100, windowOf(-30, -30, 60))]))).toEqual([]);
    expect(changes([before], aPlan([line(100, windowOf(-30, -30, 120))]))).toMatchObject([{ kind: 'moved' }]);
  });
});

describe('a task the plan no longer has', () => {
  const before = standing(aTask(windowOf(5, 10, 15), { cycle: 'cooling-2026' }));
  const because = (reason: NotDue['because'], cycle?: string): NotDue => ({
    ruleId: 'some-work',
    ...(cycle ? { cycle } : {}),
    because: reason,
    detail: '',
  });

  it('goes as not applicable when the record says so', () => {
    expect(changes([before], aPlan([], [because('not-this-equipment')]))).toMatchObject([
      { kind: 'cancelled', because: 'not-applicable', breaksPromise: false },
    ]);
  });

  it('goes as not applicable, and says a promise is broken, when somebody was told of it', () => {
    const told = { ...before, promisedOn: day(10) };
    expect(changes([told], aPlan([], [because('not-this-equipment')]))).toMatchObject([
      { kind: 'cancelled', because: 'not-applicable', breaksPromise: true },
    ]);
  });

  it('goes as superseded when its moment has passed, unless it was promised for a day to come', () => {
    expect(changes([before], aPlan([], [because('overtaken', 'cooling-2026')]))).toMatchObject([
      { kind: 'cancelled', because: 'superseded' },
    ]);
    const told = { ...before, promisedOn: day(10) };
    expect(changes([told], aPlan([], [because('overtaken', 'cooling-2026')]))).toEqual([]);
  });

  it('stays while the forecast merely cannot date it, and goes a month after its last day', () => {
    const plan = aPlan([], [because('no-crossing', 'cooling-2026')]);
    expect(changes([before], plan)).toEqual([]);
    expect(changes([before], plan, day(45))).toEqual([]);
    expect(changes([before], plan, day(46))).toMatchObject([{ kind: 'cancelled', because: 'superseded' }]);
  });

  it('is not taken for overtaken by an earlier season of its rule', () => {
    const next = standing(aTask(windowOf(300, 310, 320), { cycle: 'cooling-2027' }));
    const plan = aPlan([aTask(windowOf(5, 10, 15), { cycle: 'cooling-2026' })]);
    expect(changes([before, next], plan)).toEqual([]);
  });

  it('goes with its rule', () => {
    expect(changes([before], aPlan([]))).toMatchObject([{ kind: 'cancelled', because: 'not-applicable' }]);
  });
});

const aWindow = fc
  .tuple(fc.integer({ min: -60, max: 200 }), fc.nat(30), fc.nat(30))
  .map(([due, before, after]) => windowOf(due - before, due, due + after));
const someTasks = fc
  .uniqueArray(fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f'), { maxLength: 6 })
  .chain((ids) => fc.tuple(...ids.map((id) => aWindow.map((window) => aTask(window, { ruleId: id })))));
const aStanding = fc
  .tuple(
    someTasks,
    fc.array(
      fc.tuple(
        fc.constantFrom('NEEDS-ACTION', 'COMPLETED', 'CANCELLED') as fc.Arbitrary<StandingTask['state']>,
        fc.option(fc.integer({ min: -30, max: 200 })),
        fc.option(fc.integer({ min: -30, max: 200 })),
      ),
      {
        minLength: 6,
        maxLength: 6,
      },
    ),
  )
  .map(([tasks, states]) =>
    (tasks as PlannedTask[]).map((task, index) => {
      const [state, held, promised] = states[index] ?? ['NEEDS-ACTION', null, null];
      return standing(task, {
        state: state as StandingTask['state'],
        heldDue: held === null ? null : day(held as number),
        promisedOn: promised === null ? null : day(promised as number),
      });
    }),
  );

describe('reconcile, for any calendar and plan,', () => {
  it('has nothing more to say once its changes are stored', () => {
    fc.assert(
      fc.property(aStanding, someTasks, (before, tasks) => {
        const plan = aPlan(tasks as PlannedTask[]);
        const after = stored(before, changes(before, plan));
        expect(changes(after, plan)).toEqual([]);
      }),
    );
  });

  it('never changes what is finished, and never moves what is held', () => {
    fc.assert(
      fc.property(aStanding, someTasks, (before, tasks) => {
        const after = stored(before, changes(before, aPlan(tasks as PlannedTask[])));
        for (const task of before) {
          const now = after.find((other) => other.ruleId === task.ruleId);
          if (task.state !== 'NEEDS-ACTION') expect(now).toEqual(task);
          else if (task.heldDue !== null) expect(now?.window).toEqual(task.window);
        }
      }),
    );
  });

  it('never makes a second task of one name', () => {
    fc.assert(
      fc.property(aStanding, someTasks, (before, tasks) => {
        const made = changes(before, aPlan(tasks as PlannedTask[]));
        const added = made.flatMap((change) => (change.kind === 'added' ? [change.task.ruleId] : []));
        for (const task of before) expect(added).not.toContain(task.ruleId);
        expect(new Set(added).size).toBe(added.length);
      }),
    );
  });

  it('keeps every promise the new window allows', () => {
    fc.assert(
      fc.property(aStanding, someTasks, (before, tasks) => {
        for (const change of changes(before, aPlan(tasks as PlannedTask[]))) {
          if (change.kind !== 'moved') continue;
          const promised = before.find((task) => task.ruleId === change.ruleId)?.promisedOn ?? null;
          const isExcluded = promised !== null && (promised < change.to.earliest || promised > change.to.latest);
          expect(change.breaksPromise).toBe(isExcluded);
          if (promised !== null) expect(isExcluded).toBe(true);
        }
      }),
    );
  });
});
