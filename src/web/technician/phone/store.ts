import type { KeptRound } from './kept-round.js';
import { type NewOutboxItem, type Outbox, type OutboxItem, savedItem } from './outbox.js';

const NAME = 'tarnkeep-phone';
const VERSION = 1;

/** A visit that is being typed. */
export interface Draft {
  readonly key: string;
  readonly owner: string;
  readonly visitId: string;
  readonly typed: Readonly<Record<string, string>>;
  readonly savedAt: string;
}

/** A gate code, for the day of its visit. */
export interface HeldGate {
  readonly visitId: string;
  readonly code: string;
  /** By the phone's clock, when it came. */
  readonly receivedMs: number;
  readonly keepMs: number;
}

/** The round as it was last fetched. */
export interface HeldRound {
  readonly round: KeptRound;
  readonly etag: string;
  /** By the phone's clock. */
  readonly receivedMs: number;
}

/** The phone's own database: what is typed, what waits to be sent, and what the round needs without signal. */
export class PhoneStore implements Outbox {
  private constructor(private readonly db: IDBDatabase) {}

  /** @throws DOMException where the browser keeps nothing, e.g. in a private window. */
  static async open(onReplaced: () => void = () => {}): Promise<PhoneStore> {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      const db = request.result;
      db.createObjectStore('outbox', { keyPath: 'seq', autoIncrement: true }).createIndex('id', 'id', { unique: true });
      db.createObjectStore('drafts', { keyPath: 'key' });
      db.createObjectStore('gates', { keyPath: 'visitId' });
      db.createObjectStore('held');
    };
    const db = await done(request);
    // A newer program in another window wants to change the form of the database: let it.
    db.onversionchange = () => {
      db.close();
      onReplaced();
    };
    return new PhoneStore(db);
  }

  close(): void {
    this.db.close();
  }

  /** Saves an item, and in the same stroke throws away the draft it was made from. */
  async save(item: NewOutboxItem, draftKey?: string): Promise<OutboxItem> {
    const record = savedItem(item);
    const transaction = this.write('outbox', 'drafts');
    const known = await done<OutboxItem | undefined>(transaction.objectStore('outbox').index('id').get(item.id));
    const seq = known?.seq ?? (await done<IDBValidKey>(transaction.objectStore('outbox').add(record)));
    if (draftKey !== undefined) transaction.objectStore('drafts').delete(draftKey);
    await finished(transaction);
    return { ...record, seq: Number(seq) };
  }

  async of(owner: string): Promise<OutboxItem[]> {
    return (await this.all()).filter((item) => item.owner === owner);
  }

  /** Of every person who has used this phone. */
  all(): Promise<OutboxItem[]> {
    return done(this.read('outbox').objectStore('outbox').getAll());
  }

  async change(seq: number, change: Partial<OutboxItem>): Promise<void> {
    const transaction = this.write('outbox');
    const outbox = transaction.objectStore('outbox');
    const item = await done<OutboxItem | undefined>(outbox.get(seq));
    if (item) outbox.put({ ...item, ...change });
    await finished(transaction);
  }

  async remove(seq: number): Promise<void> {
    const transaction = this.write('outbox');
    transaction.objectStore('outbox').delete(seq);
    await finished(transaction);
  }

  /** What was refused becomes a draft again, to be mended and closed anew. */
  async reopen(item: OutboxItem): Promise<void> {
    const transaction = this.write('outbox', 'drafts');
    transaction.objectStore('outbox').delete(item.seq);
    transaction.objectStore('drafts').put(draftOf(item.owner, item.visitId, item.typed, item.savedAt));
    await finished(transaction);
  }

  draft(owner: string, visitId: string): Promise<Draft | undefined> {
    return done(this.read('drafts').objectStore('drafts').get(draftKey(owner, visitId)));
  }

  async saveDraft(draft: Draft): Promise<void> {
    const transaction = this.write('drafts');
    transaction.objectStore('drafts').put(draft);
    await finished(transaction);
  }

  held(): Promise<HeldRound | undefined> {
    return done(this.read('held').objectStore('held').get('round'));
  }

  /** Hashes of the pages that lie in the cache, by address. */
  async heldPages(): Promise<Record<string, string>> {
    return (await done<Record<string, string> | undefined>(this.read('held').objectStore('held').get('pages'))) ?? {};
  }

  async hold(name: 'round' | 'pages' | 'lots', value: unknown): Promise<void> {
    const transaction = this.write('held');
    transaction.objectStore('held').put(value, name);
    await finished(transaction);
  }

  /** The lot last typed for each product. */
  async lots(): Promise<Record<string, string>> {
    return (await done<Record<string, string> | undefined>(this.read('held').objectStore('held').get('lots'))) ?? {};
  }

  async holdGates(gates: readonly HeldGate[]): Promise<void> {
    const transaction = this.write('gates');
    transaction.objectStore('gates').clear();
    for (const gate of gates) transaction.objectStore('gates').put(gate);
    await finished(transaction);
  }

  gates(): Promise<HeldGate[]> {
    return done(this.read('gates').objectStore('gates').getAll());
  }

  /** Forgets the round and its gate codes. What was typed or waits to be sent stays. */
  async forgetRound(): Promise<void> {
    const transaction = this.write('held', 'gates');
    transaction.objectStore('held').clear();
    transaction.objectStore('gates').clear();
    await finished(transaction);
  }

  private read(...stores: string[]): IDBTransaction {
    return this.db.transaction(stores, 'readonly');
  }

  /** On the disk before it is called saved: a battery may end at any moment. */
  private write(...stores: string[]): IDBTransaction {
    return this.db.transaction(stores, 'readwrite', { durability: 'strict' });
  }
}

export function draftKey(owner: string, visitId: string): string {
  return `${owner} ${visitId}`;
}

export function draftOf(owner: string, visitId: string, typed: Draft['typed'], savedAt: string): Draft {
  return { key: draftKey(owner, visitId), owner, visitId, typed, savedAt };
}

function done<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function finished(transaction: IDBTransaction): Promise<void> {
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
    transaction.onerror = () => reject(transaction.error);
  });
}
