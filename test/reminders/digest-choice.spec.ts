import { describe, expect, it } from '@jest/globals';
import { civilDay } from '../../src/core/units/civil-day.js';
import { type Choosable, chooseForDigest } from '../../src/reminders/digest-choice.js';

const WEEK = { from: civilDay('2026-10-03'), to: civilDay('2026-10-09') };
function task(
  taskId: string,
  own: Partial<Omit<Choosable, 'due' | 'latest'>> & { window?: [string, string] } = {},
): Choosable {
  const { window = ['2026-10-01', '2026-10-20'], ...rest } = own;
  return {
    taskId,
    consequence: 'care',
    routineLine: false,
    isIdle: false,
    due: civilDay(window[0]),
    latest: civilDay(window[1]),
    putOffUntil: null,
    askedTimes: 0,
    ...rest,
  };
}
const chosen = (tasks: Choosable[]) => {
  const choice = chooseForDigest(tasks, WEEK);
  const ids = (list: readonly Choosable[]) => list.map((one) => one.taskId);
  return {
    urgent: ids(choice.urgent),
    tasks: ids(choice.tasks),
    routine: ids(choice.routine),
    waiting: ids(choice.waiting),
  };
};

describe('chooseForDigest', () => {
  it('takes three, the gravest first, then those with the fewest days left; the rest waits', () => {
    const tasks = [
      task('light', { consequence: 'routine', window: ['2026-10-01', '2026-10-05'] }),
      task('in-two-weeks', { window: ['2026-10-01', '2026-10-17'] }),
      task('in-a-week', { window: ['2026-10-01', '2026-10-10'] }),
      task('tomorrow', { window: ['2026-10-01', '2026-10-04'] }),
    ];
    expect(chosen(tasks)).toMatchObject({ tasks: ['tomorrow', 'in-a-week', 'in-two-weeks'], waiting: ['light'] });
  });

  it('does not count urgent tasks and standing lines among the three', () => {
    const tasks = ['a', 'b', 'c'].map((id) => task(id));
    tasks.push(task('ice', { consequence: 'urgent' }), task('feed', { consequence: 'routine', routineLine: true }));
    expect(chosen(tasks)).toEqual({ urgent: ['ice'], tasks: ['a', 'b', 'c'], routine: ['feed'], waiting: [] });
  });

  it('asks once more for what was not answered, in the last mail before its latest date, and never a third time', () => {
    const tasks = [
      task('asked-once-time-left', { askedTimes: 1, window: ['2026-09-20', '2026-10-10'] }),
      task('asked-once-last-week', { askedTimes: 1, window: ['2026-09-20', '2026-10-09'] }),
      task('asked-twice', { askedTimes: 2, window: ['2026-09-20', '2026-10-09'] }),
      task('ice', { askedTimes: 5, consequence: 'urgent' }),
      task('feed', { askedTimes: 30, consequence: 'routine', routineLine: true }),
    ];
    expect(chosen(tasks)).toEqual({
      urgent: ['ice'],
      tasks: ['asked-once-last-week'],
      routine: ['feed'],
      waiting: [],
    });
  });

  it('leaves out a standing line with nothing in it', () => {
    const feed = task('feed', { consequence: 'routine', routineLine: true, isIdle: true });
    expect(chosen([feed]).routine).toEqual([]);
  });

  it('leaves out what is past, what comes due later, and what was put off beyond the week', () => {
    const tasks = [
      task('stale', { window: ['2026-09-01', '2026-10-02'] }),
      task('last-day', { window: ['2026-09-01', '2026-10-03'] }),
      task('due-on-the-last-day', { window: ['2026-10-09', '2026-10-30'] }),
      task('later', { window: ['2026-10-10', '2026-10-30'] }),
      task('not-now', { putOffUntil: civilDay('2026-10-10') }),
      task('again', { putOffUntil: civilDay('2026-10-06') }),
    ];
    expect(chosen(tasks).tasks).toEqual(['last-day', 'again', 'due-on-the-last-day']);
  });
});
