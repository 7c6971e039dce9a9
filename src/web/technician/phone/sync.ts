import type { Outbox, OutboxItem } from './outbox.js';

/** How a round of sending ended. */
export type SyncEnd = 'all-sent' | 'no-signal' | 'signed-out' | 'other-person';

export interface Sending {
  readonly outbox: Outbox;
  /** Whose items may go. */
  readonly owner: string;
  readonly fetch: (address: string, init: RequestInit) => Promise<Response>;
  /** The session's form token as last known; asked anew when the server says it is old. */
  readonly token: () => Promise<string>;
  readonly freshToken: () => Promise<
    { readonly owner: string; readonly formToken: string } | 'signed-out' | 'no-signal'
  >;
  /** ISO 8601, by the phone's clock. */
  readonly now: () => string;
  readonly onChange?: (item: OutboxItem) => void;
}

type Answer =
  | { readonly kind: 'sent'; readonly flags: readonly string[] }
  | { readonly kind: 'refused'; readonly sentence: string }
  | { readonly kind: 'old-token' | 'signed-out' | 'no-signal' };

const WAIT_MS = 20_000;
const PHOTO_WAIT_MS = 90_000;

/**
 * Sends what waits, in the order in which it was saved, and goes on where it stopped. An item counts as sent only when
 * the answer names it; one that is refused for good is set aside and does not hold up the others.
 */
export async function sendWaiting(sending: Sending): Promise<SyncEnd> {
  let token = await sending.token();
  for (const item of await sending.outbox.of(sending.owner)) {
    if (item.state !== 'waiting') continue;
    let answer = await sendOne(sending, item, token);
    if (answer.kind === 'old-token') {
      const fresh = await sending.freshToken();
      if (typeof fresh === 'string') return fresh;
      if (fresh.owner !== sending.owner) return 'other-person';
      token = fresh.formToken;
      answer = await sendOne(sending, item, token);
    }
    if (answer.kind === 'sent' || answer.kind === 'refused') await keepAnswer(sending, item, answer);
    else return answer.kind === 'no-signal' ? 'no-signal' : 'signed-out';
  }
  return 'all-sent';
}

async function keepAnswer(
  { outbox, now, onChange }: Sending,
  item: OutboxItem,
  answer: Extract<Answer, { kind: 'sent' | 'refused' }>,
): Promise<void> {
  const change =
    answer.kind === 'sent'
      ? ({
          state: 'sent',
          body: null,
          photo: null,
          typed: {},
          flags: answer.flags,
          sentAt: now(),
          sentence: '',
        } as const)
      : ({ state: 'needs-you', sentence: answer.sentence } as const);
  await outbox.change(item.seq, change);
  onChange?.({ ...item, ...change });
}

async function sendOne(sending: Sending, item: OutboxItem, token: string): Promise<Answer> {
  let response: Response;
  let body: Readonly<Record<string, unknown>> | null;
  try {
    response = await sending.fetch(addressOf(item), requestOf(item, token));
    body = await jsonOf(response);
  } catch {
    return { kind: 'no-signal' };
  }
  const { status } = response;
  if (response.ok) return namesIt(item, body) ? { kind: 'sent', flags: flagsOf(body) } : { kind: 'no-signal' };
  if (status === 401) return { kind: 'signed-out' };
  if (status === 403) return { kind: 'old-token' };
  // The server or something before it is busy or ill: later.
  if (status >= 500 || status === 408 || status === 425 || status === 429) return { kind: 'no-signal' };
  // Setting out and arriving are only told in time; the closing says what was done.
  if (item.kind === 'start' || item.kind === 'on-the-way') return { kind: 'sent', flags: [] };
  return { kind: 'refused', sentence: sentenceOf(status, body) };
}

function addressOf({ kind, visitId, id }: OutboxItem): string {
  return `/api/visits/${visitId}/${kind === 'photo' ? `photos/${id}` : kind}`;
}

function requestOf(item: OutboxItem, token: string): RequestInit {
  const isPhoto = item.kind === 'photo';
  return {
    method: isPhoto ? 'PUT' : 'POST',
    credentials: 'same-origin',
    redirect: 'error',
    signal: AbortSignal.timeout(isPhoto ? PHOTO_WAIT_MS : WAIT_MS),
    headers: {
      accept: 'application/json',
      'content-type': isPhoto ? 'image/jpeg' : 'application/json',
      'x-form-token': token,
      'idempotency-key': item.id,
    },
    body: isPhoto ? item.photo : JSON.stringify(item.body),
  };
}

/** An answer counts only when it speaks of this item: a sign-in page of a hotel network says 200 too. */
function namesIt(item: OutboxItem, body: Readonly<Record<string, unknown>> | null): boolean {
  return item.kind === 'photo' ? body?.photoId === item.id : body?.visitId === item.visitId;
}

async function jsonOf(response: Response): Promise<Readonly<Record<string, unknown>> | null> {
  const text = await response.text();
  try {
    return JSON.parse(text) as Readonly<Record<string, unknown>>;
  } catch {
    return null;
  }
}

function flagsOf(body: Readonly<Record<string, unknown>> | null): readonly string[] {
  return Array.isArray(body?.flags) ? body.flags.map(String) : [];
}

function sentenceOf(status: number, body: Readonly<Record<string, unknown>> | null): string {
  if (typeof body?.detail === 'string' && body.detail !== '') return body.detail;
  if (status === 404) return 'The office computer does not know this visit any more. Call the office.';
  if (status === 413) return 'It is too large to be taken.';
  return `The office computer refused it (${status}). Call the office.`;
}
