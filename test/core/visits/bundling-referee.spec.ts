import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import highsModule from 'highs';
import type { CivilDay } from '../../../src/core/units/civil-day.js';
import { type BundleTask, bundleTasks } from '../../../src/core/visits/bundling.js';

/**
 * A mixed-integer model solved by another program, as referee on cases too large to try every plan. Visit v stands on
 * one day; each task is on one visit; a visit takes no more than its minutes.
 */
function modelOf(tasks: readonly BundleTask[], limit: number): string {
  const days = [...new Set(tasks.map((task) => task.latest))].sort((a, b) => a - b);
  // On each day as many visits as the tasks open then could ever need.
  const visits = days.flatMap((day) => {
    const open = tasks.filter((task) => task.earliest <= day && day <= task.latest);
    return open.map((_, copy) => ({ day, name: `y_${day}_${copy}`, open }));
  });
  const on = (task: BundleTask, visit: { name: string }) => `x_${task.id}_${visit.name}`;
  const once = tasks.map((task) => {
    const possible = visits.filter(({ open }) => open.includes(task)).map((visit) => on(task, visit));
    return ` c_${task.id}: ${possible.join(' + ')} = 1`;
  });
  const inside = visits.map((visit) => {
    const work = visit.open.map((task) => `${task.minutes} ${on(task, visit)}`).join(' + ');
    return ` m_${visit.name}: ${work} - ${limit} ${visit.name} <= 0`;
  });
  const names = [
    ...visits.map(({ name }) => name),
    ...visits.flatMap((visit) => visit.open.map((task) => on(task, visit))),
  ];
  return [
    'Minimize',
    ` visits: ${visits.map(({ name }) => name).join(' + ')}`,
    'Subject To',
    ...once,
    ...inside,
    'Binary',
    ` ${names.join(' ')}`,
    'End',
  ].join('\n');
}

describe('bundleTasks against a mixed-integer solver', () => {
  it('needs as many visits as the solver for seasons of a dozen tasks', async () => {
    const highs = await (
      highsModule as unknown as () => Promise<{ solve(model: string): { Status: string; ObjectiveValue: number } }>
    )();
    const task = fc.tuple(
      fc.integer({ min: 1, max: 60 }),
      fc.integer({ min: 3, max: 25 }),
      fc.integer({ min: 10, max: 110 }),
    );
    const seasons = fc.sample(fc.array(task, { minLength: 9, maxLength: 12 }), { numRuns: 12, seed: 41 });
    for (const season of seasons) {
      const tasks = season.map(([earliest, length, minutes], i): BundleTask => {
        return {
          id: `t${i}`,
          earliest: earliest as CivilDay,
          latest: (earliest + length) as CivilDay,
          minutes,
          people: 1,
          skills: [],
        };
      });
      const found = bundleTasks({ tasks, minutesPerVisit: 180, setUpMinutes: 0 });
      const solved = highs.solve(modelOf(tasks, 180));
      expect(solved.Status).toBe('Optimal');
      expect(found.visits).toHaveLength(Math.round(solved.ObjectiveValue));
    }
  });
});
