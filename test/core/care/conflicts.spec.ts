import { describe, expect, it } from '@jest/globals';
import type { FinishedTask, TaskWindow } from '../../../src/core/care/care-plan.js';
import type { CareRule } from '../../../src/core/care/care-rule.js';
import { arrange } from '../../../src/core/care/conflicts.js';
import type { DraftTask } from '../../../src/core/care/draft-task.js';
import { historyIndex } from '../../../src/core/care/history-index.js';
import type { CivilDay } from '../../../src/core/units/civil-day.js';
import { aRule } from '../../support/a-rule.js';

const TODAY = 20_000 as CivilDay;

function draft(id: string, days: [number, number, number], says: Partial<CareRule> = {}): DraftTask {
  const [earliest, due, latest] = days.map((day) => (TODAY + day) as CivilDay) as [CivilDay, CivilDay, CivilDay];
  const window: TaskWindow = { earliest, due, latest };
  const rule = aRule({ id, cycle: 'count', anyOf: [{ kind: 'interval', days: 'd', slackDays: 's' }], ...says });
  const reason = { trigger: 'interval' as const, formula: '', source: '', inputs: [] };
  return { rule, cycle: '1', window, firing: { fires: true, window, confidence: 1, reason } };
}

function arranged(drafts: readonly DraftTask[], finished: readonly FinishedTask[] = []) {
  const result = arrange(drafts, historyIndex({ finished, readings: [], events: [] }), TODAY);
  return {
    due: Object.fromEntries(result.drafts.map((one) => [one.rule.id, one.window.due - TODAY])),
    conflicts: result.conflicts.map(({ kind, ruleId, otherRuleId }) => `${kind} ${ruleId} ${otherRuleId}`),
  };
}

describe('arrange', () => {
  it('lets a rule keep company where its window allows', () => {
    const drafts = [draft('lamp', [0, 10, 30], { alignWith: ['start-up'] }), draft('start-up', [15, 20, 40])];
    expect(arranged(drafts)).toEqual({ due: { lamp: 20, 'start-up': 20 }, conflicts: [] });
  });

  it('reports company it cannot keep', () => {
    const drafts = [draft('lamp', [0, 10, 15], { alignWith: ['start-up'] }), draft('start-up', [15, 20, 40])];
    expect(arranged(drafts)).toEqual({ due: { lamp: 10, 'start-up': 20 }, conflicts: ['align-with lamp start-up'] });
  });

  it('does not call work of another season company', () => {
    const drafts = [draft('lamp', [0, 10, 15], { alignWith: ['start-up'] }), draft('start-up', [190, 200, 210])];
    expect(arranged(drafts).conflicts).toEqual([]);
  });

  it('brings work forward that must come before other work', () => {
    const drafts = [draft('drain', [5, 30, 40], { before: ['shut-down'] }), draft('shut-down', [10, 20, 25])];
    expect(arranged(drafts)).toEqual({ due: { drain: 20, 'shut-down': 20 }, conflicts: [] });
  });

  it('reports an order it cannot bring about', () => {
    const drafts = [draft('drain', [25, 30, 40], { before: ['shut-down'] }), draft('shut-down', [10, 20, 25])];
    expect(arranged(drafts)).toEqual({ due: { drain: 30, 'shut-down': 20 }, conflicts: ['before drain shut-down'] });
  });

  it('keeps its distance from planned work, later rather than sooner', () => {
    const keepOff = { notWithin: [{ ruleId: 'change', days: 3 }] };
    expect(arranged([draft('rinse', [0, 10, 20], keepOff), draft('change', [9, 11, 12])]).due.rinse).toBe(14);
    expect(arranged([draft('rinse', [0, 10, 13], keepOff), draft('change', [9, 11, 12])]).due.rinse).toBe(8);
  });

  it('keeps its distance from work really done', () => {
    const done = {
      ruleId: 'change',
      cycle: '1',
      state: 'COMPLETED',
      on: (TODAY + 9) as CivilDay,
      actuals: {},
    } as const;
    const rinse = draft('rinse', [0, 10, 20], { notWithin: [{ ruleId: 'change', days: 3 }] });
    expect(arranged([rinse], [done]).due.rinse).toBe(12);
    expect(arranged([rinse], [{ ...done, state: 'CANCELLED' }]).due.rinse).toBe(10);
  });

  it('reports a distance its window has no room for, and leaves it where it was', () => {
    const rinse = draft('rinse', [9, 10, 11], { notWithin: [{ ruleId: 'change', days: 7 }] });
    expect(arranged([rinse, draft('change', [9, 11, 12])])).toEqual({
      due: { rinse: 10, change: 11 },
      conflicts: ['not-within rinse change'],
    });
  });

  it('gives the same result whatever the order of the rules', () => {
    const drafts = [
      draft('a', [0, 10, 30], { alignWith: ['b'] }),
      draft('b', [5, 12, 20], { notWithin: [{ ruleId: 'c', days: 4 }] }),
      draft('c', [0, 11, 20], { before: ['a'] }),
    ];
    expect(arranged(drafts.toReversed())).toEqual(arranged(drafts));
  });

  it('reports company that a later step undid', () => {
    const lamp = draft('lamp', [0, 10, 30], { alignWith: ['start-up'], notWithin: [{ ruleId: 'rinse', days: 3 }] });
    expect(arranged([lamp, draft('start-up', [15, 20, 40]), draft('rinse', [18, 19, 20])])).toEqual({
      due: { lamp: 22, 'start-up': 20, rinse: 19 },
      conflicts: ['align-with lamp start-up'],
    });
  });

  it('moves nothing a reading asks for, and still reports what it comes too close to', () => {
    const urgent = draft('change', [0, 0, 10], { notWithin: [{ ruleId: 'rinse', days: 3 }] });
    const read = {
      ...urgent,
      firing: { ...urgent.firing, reason: { ...urgent.firing.reason, trigger: 'reading' as const } },
    };
    expect(arranged([read, draft('rinse', [0, 1, 2])])).toEqual({
      due: { change: 0, rinse: 1 },
      conflicts: ['not-within change rinse'],
    });
  });

  it('keeps its distance from what happened', () => {
    const rinse = draft('rinse', [0, 2, 20], { notAfter: [{ event: 'fish-added', days: 7 }] });
    const events = [{ id: 'e', kind: 'fish-added' as const, on: TODAY }];
    const { drafts } = arrange([rinse], historyIndex({ finished: [], readings: [], events }), TODAY);
    expect((drafts[0]?.window.due ?? 0) - TODAY).toBe(7);
  });
});
