import { describe, expect, it } from '@jest/globals';
import type { CareTaskView } from '../../src/care-calendar/index.js';
import type { Caution } from '../../src/core/care/caution.js';
import { en } from '../../src/core/care/wording/en.js';
import type { Wording } from '../../src/core/care/wording/wording.js';
import { CareWords } from '../../src/reminders/care-words.service.js';
import { shippedRules } from '../support/shipped-rules.js';

const RULE = { ...shippedRules().find(({ id }) => id === 'power-failure')!, cautions: ['read', 'unread'] };
const CAUTIONS: readonly Caution[] = ['read', 'unread'].map((id) => ({
  id,
  firstLine: `First ${id}.`,
  lines: [],
  defersTo: 'Local code.',
}));
const french: Wording = {
  ...en,
  language: 'fr',
  unreviewed: ['unread'],
  rules: { 'power-failure': { title: 'De l’air pour les poissons', steps: RULE.steps.map((_, i) => `Étape ${i}`) } },
  cautions: {
    read: { firstLine: 'Lu.', lines: [], defersTo: 'Le code.', reviewed: true },
    unread: { firstLine: 'Pas lu.', lines: [], defersTo: 'Le code.', reviewed: false },
  },
};
const words = new CareWords(
  CAUTIONS,
  new Map([
    ['en', en],
    ['fr', french],
  ]),
);

const view = {
  task: {
    id: 'task',
    latestOn: '2026-07-02',
    heldDueOn: null,
    planned: {
      machine: null,
      confidence: 1,
      quantities: [],
      routineLine: false,
      reason: {
        trigger: 'event',
        formula: '',
        source: '',
        inputs: [
          { name: 'event', value: 'power-failure' },
          { name: 'happened-on', value: 20635, unit: 'day' },
        ],
      },
    },
  },
  rule: RULE,
  dueOn: '2026-07-01',
} as unknown as CareTaskView;

describe('a task in the language of the homeowner', () => {
  it('has title and steps of the language’s file, also for a region without a file of its own', () => {
    for (const language of ['fr', 'fr-CA']) {
      const spoken = words.spoken(view, 'metric', language);
      expect(spoken.title).toBe('De l’air pour les poissons');
      expect(spoken.steps[0]).toBe('Étape 0');
    }
  });

  it('keeps a caution in English until somebody has read its translation', () => {
    const firsts = words.spoken(view, 'metric', 'fr').cautions.map(({ first }) => first);
    expect(firsts).toEqual(['Lu.', 'First unread.']);
  });

  it('is English where the language has no file, or none is asked for', () => {
    expect(words.spoken(view, 'metric', 'de').title).toBe(RULE.title);
    expect(words.spoken(view, 'metric').cautions[0]?.first).toBe('First read.');
  });
});
