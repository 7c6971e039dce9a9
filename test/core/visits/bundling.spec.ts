import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import type { CivilDay } from '../../../src/core/units/civil-day.js';
import { alignedPairs } from '../../../src/core/visits/bundle-alignment.js';
import { type BundleTask, bundleTasks } from '../../../src/core/visits/bundling.js';
import { joinStandingVisits } from '../../../src/core/visits/joining.js';
import { fewestVisitsBound } from '../../../src/core/visits/visit-bound.js';

type Window = readonly [earliest: number, latest: number, minutes?: number];

function tasksOf(...windows: Window[]): BundleTask[] {
  return windows.map(([earliest, latest, minutes = 10], i) => ({
    id: `t${i + 1}`,
    earliest: earliest as CivilDay,
    latest: latest as CivilDay,
    minutes,
    people: 1,
    skills: [],
  }));
}

function bundle(tasks: BundleTask[], minutesPerVisit: number | null = null) {
  return bundleTasks({ tasks, minutesPerVisit, setUpMinutes: 0 });
}

const windowed = fc
  .tuple(fc.integer({ min: 1, max: 14 }), fc.integer({ min: 0, max: 8 }), fc.integer({ min: 5, max: 120 }))
  .map(([earliest, length, minutes]): Window => [earliest, earliest + length, minutes]);
const someTasks = fc.array(windowed, { minLength: 1, maxLength: 8 }).map((windows) => tasksOf(...windows));
const limits = fc.constantFrom(null, 60, 120, 150, 180);

describe('bundleTasks without a limit of minutes', () => {
  // Derived: section 2.4 of the design note lists these four cases.
  it('serves four windows with two visits, triggered by the first and the third', () => {
    const found = bundle(tasksOf([1, 5], [2, 6], [7, 9], [8, 12]));
    expect(found.visits.map((visit) => visit.dueWindow)).toEqual([
      { earliest: 2, latest: 5 },
      { earliest: 8, latest: 9 },
    ]);
    expect(found.visits.map((visit) => visit.taskIds)).toEqual([
      ['t1', 't2'],
      ['t3', 't4'],
    ]);
    expect(found).toMatchObject({ lowerBound: 2, isProvenOptimal: true, oversize: [] });
  });

  it('counts the last day of a window as inside', () => {
    const found = bundle(tasksOf([1, 3], [3, 5], [5, 7]));
    expect(found.visits).toHaveLength(2);
    expect(found.visits.map((visit) => visit.dueWindow.latest)).toEqual([3, 7]);
    expect(found.lowerBound).toBe(2);
  });

  it('plans nothing for nothing', () => {
    expect(bundle([])).toEqual({
      visits: [],
      lowerBound: 0,
      isProvenOptimal: true,
      certificate: [],
      lateForParts: [],
      oversize: [],
    });
  });
});

describe('bundleTasks with a limit of minutes', () => {
  it('does not put two tasks of 70 minutes into 120', () => {
    const found = bundle(tasksOf([1, 9, 70], [1, 9, 70], [1, 9, 70]), 120);
    expect(found.visits).toHaveLength(3);
    expect(found.isProvenOptimal).toBe(true);
  });

  it('puts two tasks of 70 minutes into 140', () => {
    expect(bundle(tasksOf([1, 9, 70], [1, 9, 70], [1, 9, 70]), 140).visits).toHaveLength(2);
  });

  it('meets the bound of minutes where windows and minutes both bind', () => {
    const tasks = tasksOf([1, 10, 100], [1, 4, 100], [4, 10, 80]);
    expect(fewestVisitsBound(tasks, 180)).toBe(2);
    const found = bundle(tasks, 180);
    expect(found.visits).toHaveLength(2);
    expect(found.isProvenOptimal).toBe(true);
  });

  it('gives a task longer than a visit one of its own and says so', () => {
    const found = bundle(tasksOf([1, 5, 240], [1, 5, 30]), 180);
    expect(found.oversize).toEqual(['t1']);
    expect(found.visits.map((visit) => visit.taskIds)).toEqual([['t1'], ['t2']]);
    expect(found).toMatchObject({ lowerBound: 2, isProvenOptimal: true });
  });

  it('adds the set-up once a visit, and not to the limit', () => {
    const found = bundleTasks({ tasks: tasksOf([1, 5, 90], [1, 5, 90]), minutesPerVisit: 180, setUpMinutes: 15 });
    expect(found.visits.map((visit) => visit.minutes)).toEqual([195]);
  });

  it('is not misled by minutes that do not add up exactly', () => {
    expect(bundle(tasksOf([1, 5, 0.1], [1, 5, 0.2], [1, 5, 0.7]), 1).visits).toHaveLength(1);
  });

  it('finds the plan that filling by the first window misses', () => {
    // Greedy takes 60 + 50 and then needs three; 60 + 40, 50 + 30 + 20 fit in two.
    const found = bundle(tasksOf([1, 5, 60], [1, 6, 50], [1, 7, 40], [1, 8, 30], [1, 9, 20]), 100);
    expect(found.visits).toHaveLength(2);
  });
});

describe('bundleTasks and what must stay apart', () => {
  it('keeps work for two people on visits of its own', () => {
    const [lamp, lift] = tasksOf([1, 5, 20], [1, 5, 40]) as [BundleTask, BundleTask];
    const found = bundle([lamp, { ...lift, people: 2 }], 180);
    expect(found.visits).toHaveLength(2);
    expect(found.visits.map((visit) => visit.people).sort()).toEqual([1, 2]);
    expect(found).toMatchObject({ lowerBound: 2, isProvenOptimal: true });
  });

  it('keeps two tasks apart that must not share a visit', () => {
    const [rinse, change] = tasksOf([1, 5, 20], [1, 5, 40]) as [BundleTask, BundleTask];
    const found = bundle([{ ...rinse, notWith: ['t2'] }, change], 180);
    expect(found.visits.map((visit) => visit.taskIds)).toEqual([['t1'], ['t2']]);
    expect(found).toMatchObject({ lowerBound: 2, isProvenOptimal: true });
  });

  it('asks for every skill of the tasks once', () => {
    const [a, b] = tasksOf([1, 5], [2, 6]) as [BundleTask, BundleTask];
    const found = bundle([
      { ...a, skills: ['uv', 'pump'] },
      { ...b, skills: ['pump'] },
    ]);
    expect(found.visits[0]?.skills).toEqual(['pump', 'uv']);
  });
});

describe('bundleTasks and parts that have to be ordered', () => {
  it('does nothing before the parts are there', () => {
    const [lamp] = tasksOf([1, 20]) as [BundleTask];
    const found = bundle([{ ...lamp, partsFrom: 8 as CivilDay }]);
    expect(found.visits[0]?.dueWindow).toEqual({ earliest: 8, latest: 20 });
    expect(found.lateForParts).toEqual([]);
  });

  it('waits for parts that come after the window, and says so', () => {
    const [lamp, rinse] = tasksOf([1, 5], [1, 5]) as [BundleTask, BundleTask];
    const found = bundle([{ ...lamp, partsFrom: 9 as CivilDay }, rinse]);
    expect(found.visits.map((visit) => visit.dueWindow)).toEqual([
      { earliest: 1, latest: 5 },
      { earliest: 9, latest: 9 },
    ]);
    expect(found.lateForParts).toEqual(['t1']);
  });
});

describe('bundleTasks and what goes together', () => {
  const [sleeve, lamp, pump, inlet] = tasksOf([1, 9, 60], [1, 9, 60], [1, 9, 60], [1, 9, 60]) as BundleTask[];

  it('lets tasks meet that are better done together, at no further visit', () => {
    const tasks = [sleeve, { ...pump, alignWith: [inlet?.id] }, lamp, { ...inlet, alignWith: [] }] as BundleTask[];
    const aligned = tasks.map((task) => (task.id === sleeve?.id ? { ...task, alignWith: [lamp?.id ?? ''] } : task));
    const found = bundle(aligned, 120);
    expect(found.visits).toHaveLength(2);
    expect(found.visits.map(({ taskIds }) => [...taskIds].sort())).toEqual([
      ['t1', 't2'],
      ['t3', 't4'],
    ]);
  });

  it('never takes a visit more for it, nor lets fewer meet than filling by the window would', () => {
    const pairs = fc.array(fc.tuple(fc.nat(7), fc.nat(7)), { maxLength: 6 });
    fc.assert(
      fc.property(someTasks, limits, pairs, (tasks, limit, wished) => {
        const wishing = tasks.map((task, i) => ({
          ...task,
          alignWith: wished.flatMap(([a, b]) => (a === i && b !== i && tasks[b] ? [(tasks[b] as BundleTask).id] : [])),
        }));
        const found = bundle(wishing, limit);
        const plain = bundle(tasks, limit);
        expect(found.visits).toHaveLength(plain.visits.length);
        requireSound(tasks, found.visits, limit);
        const meeting = (visits: typeof plain.visits) => {
          const of = visits.map(({ taskIds }) => wishing.filter(({ id }) => taskIds.includes(id)));
          return alignedPairs(of);
        };
        expect(meeting(found.visits)).toBeGreaterThanOrEqual(meeting(plain.visits));
      }),
      { numRuns: 200, seed: 23 },
    );
  });
});

describe('the certificate of bundleTasks', () => {
  it('names ranges that do not overlap and add up to the fewest visits', () => {
    fc.assert(
      fc.property(someTasks, limits, (tasks, limit) => {
        const fitting = tasks.filter((task) => limit === null || task.minutes <= limit);
        const { certificate, visits } = bundle(fitting, limit);
        certificate.forEach((range, i) => {
          const next = certificate[i + 1];
          if (next) expect(range.latest).toBeLessThan(next.earliest);
          const inside = fitting.filter(({ earliest, latest }) => earliest >= range.earliest && latest <= range.latest);
          const minutes = inside.reduce((sum, task) => sum + task.minutes, 0);
          expect(inside.length).toBeGreaterThan(0);
          expect(range.minutes).toBeCloseTo(minutes, 9);
          expect(range.visits).toBe(limit === null ? 1 : Math.max(1, Math.ceil((minutes - 1e-9) / limit)));
        });
        const sum = certificate.reduce((all, range) => all + range.visits, 0);
        expect(sum).toBeLessThanOrEqual(visits.length);
        // Without a limit of minutes the certificate alone proves the plan.
        if (limit === null) expect(sum).toBe(visits.length);
      }),
      { numRuns: 300, seed: 29 },
    );
  });
});

describe('joinStandingVisits', () => {
  const standing = { id: 'v1', day: 5 as CivilDay, workMinutes: 100, people: 1 as const, taskIds: ['x'] };

  it('fills a planned visit inside the window before it asks for another', () => {
    const found = joinStandingVisits({
      tasks: tasksOf([1, 9, 60], [6, 9, 10], [1, 5, 30]),
      visits: [standing],
      minutesPerVisit: 180,
    });
    expect(found.joins).toEqual([{ taskId: 't3', visitId: 'v1' }]);
    expect(found.left.map(({ id }) => id)).toEqual(['t1', 't2']);
  });

  it('keeps apart what must stay apart, two-person work and what waits for parts', () => {
    const [apart, two, parts] = tasksOf([1, 9], [1, 9], [1, 9]) as [BundleTask, BundleTask, BundleTask];
    const tasks = [
      { ...apart, notWith: ['x'] },
      { ...two, people: 2 as const },
      { ...parts, partsFrom: 6 as CivilDay },
    ];
    expect(joinStandingVisits({ tasks, visits: [standing], minutesPerVisit: 180 }).joins).toEqual([]);
  });

  it('never overfills a visit, never leaves a window and loses no task', () => {
    const days = fc.array(fc.tuple(fc.integer({ min: 1, max: 20 }), fc.integer({ min: 0, max: 180 })), {
      maxLength: 4,
    });
    fc.assert(
      fc.property(someTasks, days, (tasks, planned) => {
        const visits = planned.map(([day, workMinutes], i) => {
          return { id: `v${i}`, day: day as CivilDay, workMinutes, people: 1 as const, taskIds: [] };
        });
        const { joins, left } = joinStandingVisits({ tasks, visits, minutesPerVisit: 180 });
        expect([...joins.map(({ taskId }) => taskId), ...left.map(({ id }) => id)].sort()).toEqual(
          tasks.map(({ id }) => id).sort(),
        );
        for (const visit of visits) {
          const own = joins.filter(({ visitId }) => visitId === visit.id);
          const joined = tasks.filter(({ id }) => own.some(({ taskId }) => taskId === id));
          for (const task of joined) expect(task.earliest <= visit.day && visit.day <= task.latest).toBe(true);
          const minutes = joined.reduce((sum, task) => sum + task.minutes, visit.workMinutes);
          if (joined.length > 0) expect(minutes).toBeLessThanOrEqual(180);
        }
      }),
      { numRuns: 200, seed: 31 },
    );
  });
});

describe('bundleTasks and what it refuses', () => {
  it('refuses a window that ends before it starts', () => {
    expect(() => bundle(tasksOf([5, 4]))).toThrow(/window of task t1/);
  });

  it.each([Number.NaN, -1, 100_000])('refuses %d minutes of work', (minutes) => {
    expect(() => bundle(tasksOf([1, 5, minutes]))).toThrow(/minutes of task t1/);
  });

  it('refuses an id given twice', () => {
    const [task] = tasksOf([1, 5]) as [BundleTask];
    expect(() => bundle([task, task])).toThrow(/Give each task once/);
  });

  it.each([0, Number.NaN])('refuses a limit of %d minutes', (limit) => {
    expect(() => bundle(tasksOf([1, 5]), limit)).toThrow(/minutes per visit/);
  });
});

describe('bundleTasks against every possible plan', () => {
  it('needs the fewest visits and proves it', () => {
    fc.assert(
      fc.property(someTasks, limits, (tasks, limit) => {
        const found = bundle(tasks, limit);
        const split = tasks.filter((task) => limit !== null && task.minutes > limit);
        const fewest = fewestByTryingAll(
          tasks.filter((task) => !split.includes(task)),
          limit ?? Number.POSITIVE_INFINITY,
        );
        expect(found.visits).toHaveLength(split.length + fewest);
        expect(found.isProvenOptimal).toBe(true);
        expect(found.lowerBound).toBe(found.visits.length);
        requireSound(tasks, found.visits, limit);
      }),
      { numRuns: 400, seed: 20261125 },
    );
  });

  it('needs the fewest visits where some tasks must stay apart', () => {
    const apart = fc.array(fc.tuple(fc.nat(7), fc.nat(7)), { maxLength: 4 });
    fc.assert(
      fc.property(someTasks, limits, apart, (tasks, limit, pairs) => {
        const kept = tasks.filter((task) => limit === null || task.minutes <= limit);
        const constrained = kept.map((task, i) => ({
          ...task,
          notWith: pairs.flatMap(([a, b]) => (a === i && b !== i && kept[b] ? [(kept[b] as BundleTask).id] : [])),
        }));
        const found = bundle(constrained, limit);
        expect(found.visits).toHaveLength(fewestByTryingAll(constrained, limit ?? Number.POSITIVE_INFINITY));
      }),
      { numRuns: 300, seed: 7 },
    );
  });

  it('never has fewer visits than the bound, and the bound never exceeds the fewest', () => {
    fc.assert(
      fc.property(someTasks, (tasks) => {
        expect(fewestVisitsBound(tasks, 120)).toBeLessThanOrEqual(fewestByTryingAll(tasks, 120));
      }),
      { numRuns: 200, seed: 11 },
    );
  });

  it('does not depend on the order in which the tasks are given', () => {
    fc.assert(
      fc.property(someTasks, limits, (tasks, limit) => {
        expect(bundle([...tasks].reverse(), limit)).toEqual(bundle(tasks, limit));
      }),
      { numRuns: 100, seed: 3 },
    );
  });

  it('bundles a full season of forty tasks within a second', () => {
    const season = tasksOf(
      ...Array.from(
        { length: 40 },
        (_, i): Window => [(i * 37) % 90, ((i * 37) % 90) + 14 + (i % 9), 15 + (i % 7) * 13],
      ),
    );
    const startedAt = performance.now();
    const found = bundle(season, 180);
    expect(performance.now() - startedAt).toBeLessThan(1000);
    requireSound(season, found.visits, 180);
    expect(found.visits.length - found.lowerBound).toBeLessThanOrEqual(1);
  });
});

/** Every partition, without cleverness: each task goes into one of the bins there are, or opens one. */
function fewestByTryingAll(tasks: readonly BundleTask[], limit: number): number {
  let fewest = tasks.length;
  const place = (index: number, bins: BundleTask[][]): void => {
    const task = tasks[index];
    if (!task) {
      fewest = Math.min(fewest, bins.length);
      return;
    }
    bins.forEach((bin, at) => {
      if (isOneVisit([...bin, task], limit)) place(index + 1, bins.with(at, [...bin, task]));
    });
    if (isOneVisit([task], limit)) place(index + 1, [...bins, [task]]);
  };
  place(0, []);
  return fewest;
}

function isOneVisit(bin: readonly BundleTask[], limit: number): boolean {
  const days = Array.from({ length: 40 }, (_, day) => day);
  const hasDay = days.some((day) => bin.every((task) => task.earliest <= day && day <= task.latest));
  const ids = bin.map((task) => task.id);
  const staysApart = !bin.some((task) => task.notWith?.some((id) => ids.includes(id)));
  return hasDay && staysApart && bin.reduce((sum, task) => sum + task.minutes, 0) <= limit;
}

function requireSound(
  tasks: readonly BundleTask[],
  visits: ReturnType<typeof bundle>['visits'],
  limit: number | null,
): void {
  expect(visits.flatMap((visit) => visit.taskIds).sort()).toEqual(tasks.map((task) => task.id).sort());
  for (const visit of visits) {
    const own = tasks.filter((task) => visit.taskIds.includes(task.id));
    expect(visit.dueWindow.earliest).toBeLessThanOrEqual(visit.dueWindow.latest);
    for (const task of own) {
      expect(task.earliest).toBeLessThanOrEqual(visit.dueWindow.earliest);
      expect(task.latest).toBeGreaterThanOrEqual(visit.dueWindow.latest);
    }
    if (own.length > 1) expect(visit.minutes).toBeLessThanOrEqual(limit ?? Number.POSITIVE_INFINITY);
  }
}
