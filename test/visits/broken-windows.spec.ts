import { describe, expect, it } from '@jest/globals';
import type { CareTaskView } from '../../src/care-calendar/index.js';
import { brokenWindows } from '../../src/visits/visit-days.js';
import { shippedRules } from '../support/shipped-rules.js';

const rule = shippedRules()[0]!;

function taskOf(machine?: { id: string; name: string }): Pick<CareTaskView, 'task' | 'rule'> {
  const task = { id: 'a', earliestOn: '2026-06-01', latestOn: '2026-06-10', heldDueOn: null, planned: { machine } };
  return { task, rule } as unknown as CareTaskView;
}

describe('a visit outside the windows of its tasks', () => {
  it('names the machine of a task that is about one of several', () => {
    const broken = brokenWindows([taskOf({ id: 'p', name: 'North pump' }), taskOf()], '2026-06-20');
    expect(broken.map(({ title }) => title)).toEqual([`${rule.title}: North pump`, rule.title]);
    expect(broken[0]?.visitIs).toBe('too-late');
  });
});
