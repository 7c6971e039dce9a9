import { element, say } from './elements.js';
import { forgetRound, isRoundKept, type Kept, keepRound, wipeOld } from './keeper.js';
import type { OutboxItem } from './outbox.js';
import {
  barWords,
  endWords,
  longWaitWords,
  NOT_SAVED,
  needsWords,
  offlineFault,
  phoneClockWords,
  roomWords,
} from './phone-words.js';
import { PhoneStore } from './store.js';
import { type SyncEnd, sendWaiting } from './sync.js';

/** How often what waits is tried again while a page is open. [ms] */
const TRY_AGAIN_MS = 15_000;
const SHORT_WAIT_MS = 3_000;

/** What all pages of a technician share: the store, the sending, and what the phone says of itself. */
export class Phone {
  readonly owner: string;
  private readonly personName: string;
  private isSending = false;
  private readonly lines = new Map<string, string>();
  private readonly listeners: ((items: readonly OutboxItem[]) => void)[] = [];

  private constructor(
    /** Null where the browser keeps nothing. */
    readonly store: PhoneStore | null,
    private readonly page: HTMLElement,
  ) {
    this.owner = page.dataset.owner ?? '';
    this.personName = page.dataset.name ?? '';
  }

  /** Opens the store of this page's person and says what is wrong early, before anything is typed. */
  static async start(): Promise<Phone | null> {
    const page = document.querySelector<HTMLElement>('.phone[data-owner]');
    if (!page) return null;
    const store = await PhoneStore.open(() => phone?.tell('version', RELOAD)).catch(() => null);
    const phone: Phone = new Phone(store, page);
    phone.tell('offline', offlineFault(browserOf(store)));
    await phone.prepare();
    return phone;
  }

  /** Called with all items of this person whenever one has changed, and once now. */
  async onChange(listener: (items: readonly OutboxItem[]) => void): Promise<void> {
    this.listeners.push(listener);
    listener(await this.items());
  }

  async items(): Promise<OutboxItem[]> {
    return (await this.store?.of(this.owner)) ?? [];
  }

  /** A line of its own for each subject; an empty one takes it away. */
  tell(subject: string, words: string): void {
    if ((this.lines.get(subject) ?? '') === words) return;
    if (words === '') this.lines.delete(subject);
    else this.lines.set(subject, words);
    const lines = [...this.lines.values()].map((line) => element('p', 'note act gap', line));
    document.getElementById('phone-says')?.replaceChildren(...lines);
  }

  /** Runs something that saves on the phone; answers whether it is saved, and says so at once when not. */
  async saved(save: (store: PhoneStore) => Promise<unknown>): Promise<boolean> {
    try {
      if (!this.store) throw new Error('no store');
      await save(this.store);
      this.tell('saving', '');
      return true;
    } catch {
      this.tell('saving', NOT_SAVED);
      return false;
    }
  }

  /** Sends what waits; of several open pages one does it. */
  async send(): Promise<SyncEnd | null> {
    const { store } = this;
    if (!store || this.isSending) return null;
    if (!(await this.items()).some((item) => item.state === 'waiting')) {
      await this.changed();
      return 'all-sent';
    }
    this.isSending = true;
    await this.changed();
    const send = () =>
      sendWaiting({
        outbox: store,
        owner: this.owner,
        fetch: (address, init) => fetch(address, init),
        token: async () => (await store.held())?.round.formToken ?? tokenOfPage(),
        freshToken: () => keepRound(store),
        now: () => new Date().toISOString(),
        onChange: () => void this.changed(),
      });
    const end = await (navigator.locks ? navigator.locks.request('tarnkeep-send', send) : send()).catch(
      () => 'no-signal' as const,
    );
    this.isSending = false;
    this.tell('sending', end === 'no-signal' ? '' : endWords(end, this.personName));
    await this.changed();
    return end;
  }

  /** Fetches the round and keeps it, unless one was fetched less than so long ago. */
  async keep(recentMs = 0): Promise<Kept> {
    if (!this.store) return 'no-signal';
    const held = await this.store.held();
    const ageMs = Date.now() - (held?.receivedMs ?? Number.NEGATIVE_INFINITY);
    if (held && ageMs >= 0 && ageMs < recentMs) return held.round;
    const kept = await keepRound(this.store).catch(() => 'no-signal' as const);
    if (typeof kept !== 'string') {
      this.tell('clock', phoneClockWords(kept.now, Date.now()));
      if (kept.owner === this.owner) await this.showGates();
    }
    return kept;
  }

  async isKept(): Promise<boolean> {
    return this.store !== null && (await isRoundKept(this.store));
  }

  /** Whether the page of the round can be opened now: it is kept, or the network answers. */
  async opensRound(): Promise<boolean> {
    if (navigator.serviceWorker?.controller && (await this.isKept())) return true;
    const signal = AbortSignal.timeout(SHORT_WAIT_MS);
    const answer = await fetch('/phone-worker.js', { cache: 'no-store', signal }).catch(() => null);
    return answer?.ok === true;
  }

  async forget(): Promise<void> {
    if (this.store) await forgetRound(this.store);
  }

  async changed(): Promise<void> {
    const items = await this.items();
    say('sent', barWords(items, this.isSending));
    this.tell('waiting', longWaitWords(items, Date.now()));
    this.tell('needs', needsWords(items));
    for (const listener of this.listeners) listener(items);
  }

  private async prepare(): Promise<void> {
    const { store } = this;
    if (!store) return;
    const held = await store.held();
    if (held && held.round.owner !== this.owner) await forgetRound(store);
    await this.showGates();
    await this.tellOfOthers(store);
    await this.changed();
    void navigator.serviceWorker?.register('/phone-worker.js', { scope: '/my-round' }).catch(() => {});
    void navigator.storage?.persist?.().catch(() => false);
    void navigator.storage?.estimate?.().then((room) => this.tell('room', roomWords(room)));
    window.addEventListener('online', () => void this.send());
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState !== 'visible') return;
      void this.showGates();
      void this.send();
    });
    setInterval(() => {
      void this.showGates();
      void this.send();
    }, TRY_AGAIN_MS);
  }

  /** A kept page has only the place for a gate code; the code itself is held for the day. */
  private async showGates(): Promise<void> {
    if (!this.store) return;
    const codes = await wipeOld(this.store, Date.now());
    for (const place of this.page.querySelectorAll<HTMLElement>('details[data-gate]')) {
      const code = codes.get(place.dataset.gate ?? '');
      const shown = place.querySelector('.code');
      if (!shown) continue;
      if (code === undefined) {
        if (place.dataset.held === undefined) continue;
        shown.textContent = '';
        place.hidden = true;
      } else {
        shown.textContent = code;
        place.dataset.held = '';
        place.hidden = false;
      }
    }
  }

  private async tellOfOthers(store: PhoneStore): Promise<void> {
    const others = (await store.all()).filter((item) => item.owner !== this.owner && item.state !== 'sent').length;
    if (others === 0) return;
    const words = others === 1 ? 'One thing' : `${others} things`;
    this.tell(
      'others',
      `${words} somebody else saved on this phone are not sent yet. They go when that person signs in.`,
    );
  }
}

const RELOAD = 'A newer program is open in another window. Load this page again: what you typed is saved.';

function browserOf(store: PhoneStore | null) {
  return { isSecure: window.isSecureContext, hasWorker: 'serviceWorker' in navigator, hasStore: store !== null };
}

function tokenOfPage(): string {
  return document.querySelector<HTMLInputElement>('input[name="_token"]')?.value ?? '';
}
