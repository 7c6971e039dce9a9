import type { OutboxItem } from './outbox.js';
import type { SyncEnd } from './sync.js';

const HOUR_MS = 3_600_000;
/** What has waited so long is worth a word of its own. */
const LONG_WAIT_MS = 24 * HOUR_MS;

/** What the bar of every page says: what waits, what needs somebody. */
export function barWords(items: readonly OutboxItem[], isSending: boolean): string {
  const needing = items.filter((item) => item.state === 'needs-you').length;
  const waiting = items.filter((item) => item.state === 'waiting').length;
  if (needing > 0) return needing === 1 ? '1 needs you' : `${needing} need you`;
  if (waiting === 0) return items.length === 0 ? '' : 'All sent';
  return isSending ? `Sending ${waiting}` : `${waiting} not sent yet`;
}

/** What an item is, in a word or two. */
export function itemWords({ kind, pondName }: Pick<OutboxItem, 'kind' | 'pondName'>): string {
  if (kind === 'closing') return `${pondName}, closed`;
  if (kind === 'photo') return `${pondName}, a photo`;
  return `${pondName}, ${kind === 'start' ? 'arrived' : 'on the way'}`;
}

export function stateWords(item: Pick<OutboxItem, 'state' | 'sentence' | 'savedAt'>, nowMs: number): string {
  if (item.state === 'needs-you') return `Needs you: ${item.sentence}`;
  return item.state === 'sent' ? 'Sent.' : `Saved on this phone ${agoWords(item.savedAt, nowMs)}, not sent yet.`;
}

export function agoWords(savedAt: string, nowMs: number): string {
  const minutes = Math.round((nowMs - Date.parse(savedAt)) / 60_000);
  if (!(minutes >= 1)) return 'just now';
  if (minutes < 60) return `${minutes} min ago`;
  const hours = Math.round(minutes / 60);
  return hours < 48 ? `${hours} h ago` : `${Math.round(hours / 24)} days ago`;
}

/** What was refused must not be overlooked; empty while nothing was. */
export function needsWords(items: readonly OutboxItem[]): string {
  const needing = items.filter((item) => item.state === 'needs-you');
  const [first] = needing;
  if (!first) return '';
  const what = needing.length === 1 ? itemWords(first) : `${needing.length} things saved on this phone`;
  return `${what}: the office computer could not take it. Look under "On this phone" in the round.`;
}

/** Why nothing goes out at the moment. */
export function endWords(end: SyncEnd, personName: string): string {
  if (end === 'no-signal') return 'No signal, or the office computer does not answer. It is tried again by itself.';
  if (end === 'signed-out')
    return 'You are signed out. Sign in again: what is saved on this phone then goes by itself.';
  if (end === 'other-person')
    return `Somebody else is signed in. What ${personName} saved stays here until they sign in again.`;
  return '';
}

/** Worth saying when something has waited for a day; empty before. */
export function longWaitWords(items: readonly OutboxItem[], nowMs: number): string {
  const waiting = items.filter((item) => item.state === 'waiting');
  const oldest = waiting.map((item) => item.savedAt).sort()[0];
  if (oldest === undefined || nowMs - Date.parse(oldest) < LONG_WAIT_MS) return '';
  return `The oldest was saved ${agoWords(oldest, nowMs)}. Open this page where there is signal.`;
}

const CLOCK_SLACK_MS = 10 * 60_000;

/** A phone's clock that is wrong is told; what is closed is kept all the same. */
export function phoneClockWords(serverNow: string, phoneNowMs: number): string {
  const aheadMs = phoneNowMs - Date.parse(serverNow);
  if (!(Math.abs(aheadMs) > CLOCK_SLACK_MS)) return '';
  const span = Math.abs(aheadMs);
  const long =
    span < 2 * HOUR_MS
      ? `${Math.round(span / 60_000)} min`
      : span < 48 * HOUR_MS
        ? `${Math.round(span / HOUR_MS)} h`
        : `${Math.round(span / (24 * HOUR_MS))} days`;
  return `This phone's clock is ${long} ${aheadMs > 0 ? 'ahead' : 'behind'}. Set it right: times of readings come from it.`;
}

/** Below this there may be no room for photos of a day. */
export const LITTLE_ROOM_BYTES = 100 * 1024 * 1024;

/** Said before anything is lost; empty while there is room. */
export function roomWords(estimate: { readonly quota?: number; readonly usage?: number }): string {
  if (estimate.quota === undefined) return '';
  const left = estimate.quota - (estimate.usage ?? 0);
  if (left >= LITTLE_ROOM_BYTES) return '';
  return `Little room is left on this phone: ${Math.max(0, Math.floor(left / 1024 / 1024))} MB. Free some, or photos cannot be saved.`;
}

export const NOT_SAVED =
  'Could not save on this phone: no room, or the browser keeps nothing. Keep this page open until it says sent.';

/** Why the page cannot be opened without signal; empty where it can. */
export function offlineFault(browser: {
  readonly isSecure: boolean;
  readonly hasWorker: boolean;
  readonly hasStore: boolean;
}): string {
  if (!browser.isSecure) {
    return 'Without signal this page cannot be opened: the connection is not safe. The office must offer it over HTTPS.';
  }
  if (!browser.hasWorker)
    return 'Without signal this page cannot be opened: this browser, or its private window, keeps no pages.';
  if (!browser.hasStore)
    return 'Nothing can be saved on this phone: this browser, or its private window, keeps nothing.';
  return '';
}
