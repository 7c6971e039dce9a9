import type { OutboxItem } from './outbox.js';

/** What the phone knows of a stop besides what the page says. */
export interface StopOnPhone {
  readonly visitId: string;
  readonly words: string;
  readonly isClosed: boolean;
}

/** Stops as the items of this phone leave them: closed here, under way here. */
export function stopsOnPhone(items: readonly OutboxItem[]): ReadonlyMap<string, StopOnPhone> {
  const stops = new Map<string, StopOnPhone>();
  for (const { visitId, kind, state } of items) {
    const before = stops.get(visitId);
    if (kind === 'photo' || before?.isClosed) continue;
    if (kind === 'closing')
      stops.set(visitId, { visitId, words: CLOSED_WORDS[state], isClosed: state !== 'needs-you' });
    else stops.set(visitId, { visitId, words: kind === 'start' ? 'under way' : 'on the way', isClosed: false });
  }
  return stops;
}

const CLOSED_WORDS: Readonly<Record<OutboxItem['state'], string>> = {
  waiting: 'closed, not sent yet',
  sent: 'done',
  'needs-you': 'needs you',
};

/** The closing made last, if it was made within the hour: what the round page speaks of first. */
export function lastClosing(items: readonly OutboxItem[], nowMs: number): OutboxItem | null {
  const last = items.filter((item) => item.kind === 'closing' && item.state !== 'needs-you').at(-1);
  return last && Math.abs(nowMs - Date.parse(last.savedAt)) < 3_600_000 ? last : null;
}
