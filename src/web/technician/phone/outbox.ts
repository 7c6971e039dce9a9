/** What a phone sends: made once, sent as often as it takes, kept once. */
export type OutboxKind = 'on-the-way' | 'start' | 'photo' | 'closing';

/** `waiting`: saved on the phone. `sent`: the server has it. `needs-you`: it was refused, and somebody must look. */
export type OutboxState = 'waiting' | 'sent' | 'needs-you';

export interface OutboxItem {
  /** Order in which it was saved; given by the store. The phone's clock has no say in it. */
  readonly seq: number;
  /** Of this record, so that a newer program can read what an older one has saved. */
  readonly format: 1;
  /** UUID of version 7 and idempotency key. */
  readonly id: string;
  readonly owner: string;
  readonly kind: OutboxKind;
  readonly visitId: string;
  readonly pondName: string;
  /** By the phone's clock, ISO 8601: a claim. */
  readonly savedAt: string;
  readonly state: OutboxState;
  /** JSON of a closing or a step; null for a photo, and once it has been sent. */
  readonly body: unknown;
  /** JPEG of a photo; null once it has been sent. */
  readonly photo: ArrayBuffer | null;
  /** What was typed, so that a refused closing can be mended. */
  readonly typed: Readonly<Record<string, string>>;
  /** Why it needs somebody. */
  readonly sentence: string;
  /** What the server remarked on a closing. */
  readonly flags: readonly string[];
  readonly sentAt: string | null;
}

export type NewOutboxItem = Pick<OutboxItem, 'id' | 'owner' | 'kind' | 'visitId' | 'pondName' | 'savedAt'> &
  Partial<Pick<OutboxItem, 'body' | 'photo' | 'typed'>>;

/** Where items wait. In the browser a database, in tests a list. */
export interface Outbox {
  /** Items of one person, in the order in which they were saved. */
  of(owner: string): Promise<OutboxItem[]>;
  change(seq: number, change: Partial<Pick<OutboxItem, OutboxChange>>): Promise<void>;
}
type OutboxChange = 'state' | 'body' | 'photo' | 'typed' | 'sentence' | 'flags' | 'sentAt';

/** A record as it is first saved; the store adds its number. */
export function savedItem(item: NewOutboxItem): Omit<OutboxItem, 'seq'> {
  return {
    format: 1,
    state: 'waiting',
    body: null,
    photo: null,
    typed: {},
    sentence: '',
    flags: [],
    sentAt: null,
    ...item,
  };
}
