import type { CareRule } from '../../core/care/care-rule.js';

/** Cautions of work on machines that run on mains power. */
export const MAINS_CAUTIONS: readonly string[] = ['water-and-mains', 'uv-light'];
const SWITCHED_OFF = /\b(switch|turn)(es)?\b[^.;]*\boff\b|\bunplug\b|\bisolate\b/i;

/** Whether the power must be off during a task: its caution is about mains, and one of its steps switches off. */
export function needsPowerOff(rule: Pick<CareRule, 'cautions' | 'steps'>): boolean {
  return rule.cautions.some((id) => MAINS_CAUTIONS.includes(id)) && rule.steps.some((step) => SWITCHED_OFF.test(step));
}

/** Names of the two ticks around the tasks of one fence, numbered from 0. */
export const powerField = (fence: number, side: 'off' | 'on') => `power:${fence}:${side}`;

export const POWER_WORDS = {
  off: 'The power is off and tried',
  on: 'The power is on again and each device tested, or it stays off on purpose',
} as const;

/** Tasks in the order of work, those without power together between their two ticks. */
export interface FencedTasks<T> {
  /** Number of the fence; null for work with the power on. */
  readonly fence: number | null;
  readonly cards: readonly T[];
}

export function fenced<T extends { readonly needsPowerOff: boolean }>(cards: readonly T[]): FencedTasks<T>[] {
  const groups: { fence: number | null; cards: T[] }[] = [];
  let fences = 0;
  for (const card of cards) {
    const last = groups.at(-1);
    if (last && (last.fence !== null) === card.needsPowerOff) last.cards.push(card);
    else groups.push({ fence: card.needsPowerOff ? fences++ : null, cards: [card] });
  }
  return groups;
}
