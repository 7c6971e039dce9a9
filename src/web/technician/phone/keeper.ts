import { gatesStillHeld, isRoundFresh } from './gates.js';
import type { KeptRound } from './kept-round.js';
import type { PhoneStore } from './store.js';

export const PAGES_CACHE = 'tarnkeep-pages';
export const ASSETS_CACHE = 'tarnkeep-assets';
const FORMAT = 1;

export type Kept = KeptRound | 'signed-out' | 'no-signal';

/** Asks for the round and keeps on the phone whatever has changed. */
export async function keepRound(store: PhoneStore, nowMs: () => number = Date.now): Promise<Kept> {
  const held = await store.held();
  let response: Response;
  let round: KeptRound;
  try {
    response = await fetch('/api/my-round', {
      headers: { accept: 'application/json', ...(held && { 'if-none-match': held.etag }) },
      cache: 'no-store',
      signal: AbortSignal.timeout(20_000),
    });
    if (response.status === 401 || response.status === 403) return 'signed-out';
    if (response.status === 304 && held) round = held.round;
    else if (response.ok) round = (await response.json()) as KeptRound;
    else return 'no-signal';
  } catch {
    return 'no-signal';
  }
  // A newer server speaks of what this program does not know: what is kept stays, and the next page brings the new program.
  if (round.format !== FORMAT) return 'no-signal';
  if (held && held.round.owner !== round.owner) await forgetRound(store);
  if (response.status !== 304) {
    const receivedMs = nowMs();
    const gates = round.visits.flatMap(({ visitId, gateCode, keepMs }) =>
      gateCode === null ? [] : [{ visitId, code: gateCode, receivedMs, keepMs }],
    );
    await store.holdGates(gates);
  }
  await keepPages(store, round);
  const etag = response.headers.get('etag') ?? held?.etag ?? '';
  await store.hold('round', { round: withoutGates(round), etag, receivedMs: nowMs() });
  return round;
}

/** The codes lie apart, where they are wiped. */
function withoutGates(round: KeptRound): KeptRound {
  return { ...round, visits: round.visits.map((visit) => ({ ...visit, gateCode: null })) };
}

async function keepPages(store: PhoneStore, round: KeptRound): Promise<void> {
  if (!('caches' in globalThis)) return;
  const assets = await caches.open(ASSETS_CACHE);
  for (const address of round.assets) {
    if (!(await assets.match(address))) await fetched(address).then((answer) => answer && assets.put(address, answer));
  }
  const pages = await caches.open(PAGES_CACHE);
  const known = await store.heldPages();
  const next: Record<string, string> = {};
  for (const { href, hash } of round.pages) {
    if (known[href] === hash && (await pages.match(href))) next[href] = hash;
    else {
      const page = await fetched(`${href}?keep=1`);
      if (page) await pages.put(href, page);
      if (page) next[href] = hash;
      // An older page is better than none.
      else if (known[href] !== undefined) next[href] = known[href];
    }
  }
  for (const request of await pages.keys()) {
    if (next[new URL(request.url).pathname] === undefined) await pages.delete(request);
  }
  await store.hold('pages', next);
  for (const request of await assets.keys()) {
    const { pathname, search } = new URL(request.url);
    if (!round.assets.includes(pathname + search)) await assets.delete(request);
  }
}

async function fetched(address: string): Promise<Response | null> {
  try {
    const response = await fetch(address, { signal: AbortSignal.timeout(20_000) });
    return response.ok && !response.redirected ? response : null;
  } catch {
    return null;
  }
}

/** Whether every page and script of the round lies on the phone. */
export async function isRoundKept(store: PhoneStore): Promise<boolean> {
  const held = await store.held();
  if (!held || !('caches' in globalThis)) return false;
  const pages = await store.heldPages();
  if (!held.round.pages.every(({ href }) => pages[href] !== undefined)) return false;
  const assets = await caches.open(ASSETS_CACHE);
  for (const address of held.round.assets) {
    if (/\.(js|css)\b/.test(address) && !(await assets.match(address))) return false;
  }
  return true;
}

/** At sign-out, for another person, and after two days: pages, the round and its gate codes go. */
export async function forgetRound(store: PhoneStore): Promise<void> {
  await store.forgetRound();
  if ('caches' in globalThis) await caches.delete(PAGES_CACHE);
}

/** Wipes gate codes whose day is over, and a round of days ago. Answers the codes still held. */
export async function wipeOld(store: PhoneStore, nowMs: number): Promise<ReadonlyMap<string, string>> {
  const held = await store.held();
  if (held && !isRoundFresh(held.receivedMs, nowMs)) await forgetRound(store);
  const gates = await store.gates();
  const left = gatesStillHeld(gates, nowMs);
  if (left.length < gates.length) await store.holdGates(left);
  return new Map(left.map(({ visitId, code }) => [visitId, code]));
}
