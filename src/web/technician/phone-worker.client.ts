import { isRoundFresh } from './phone/gates.js';
import { ASSETS_CACHE, PAGES_CACHE } from './phone/keeper.js';
import { PhoneStore } from './phone/store.js';

/*
 * Stands between the technician's pages and the network: without signal it opens what the phone keeps. It keeps nothing
 * itself and sends nothing; the pages do.
 */

interface WaitingEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface AskedEvent extends WaitingEvent {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
interface Worker {
  addEventListener(name: 'install' | 'activate', listener: (event: WaitingEvent) => void): void;
  addEventListener(name: 'fetch', listener: (event: AskedEvent) => void): void;
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
  readonly location: Location;
}
const worker = globalThis as unknown as Worker;

/** One bar of signal may hold a page up for a minute; the kept one is there at once. */
const PATIENCE_MS = 3_000;

worker.addEventListener('install', (event) => event.waitUntil(worker.skipWaiting()));
worker.addEventListener('activate', (event) => event.waitUntil(worker.clients.claim()));
worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname, search } = new URL(request.url);
  if (request.method !== 'GET' || origin !== worker.location.origin) return;
  if (pathname.startsWith('/assets/')) event.respondWith(asset(request, pathname + search));
  else if (request.mode === 'navigate' && search === '') event.respondWith(page(request, pathname));
});

/** Assets carry their content's hash in their address: what is kept is right. */
async function asset(request: Request, address: string): Promise<Response> {
  const kept = await (await caches.open(ASSETS_CACHE)).match(address);
  return kept ?? fetch(request);
}

async function page(request: Request, pathname: string): Promise<Response> {
  const fromNetwork = fetch(request);
  const first = await Promise.race([
    fromNetwork.catch(() => null),
    new Promise<null>((resolve) => setTimeout(() => resolve(null), PATIENCE_MS)),
  ]);
  if (first && first.status < 500) return first;
  const kept = await keptPage(pathname);
  if (kept) return kept;
  return fromNetwork.catch(() => notKept());
}

async function keptPage(pathname: string): Promise<Response | null> {
  const store = await PhoneStore.open().catch(() => null);
  try {
    const held = await store?.held();
    if (!held || !isRoundFresh(held.receivedMs, Date.now())) return null;
    return (await (await caches.open(PAGES_CACHE)).match(pathname)) ?? null;
  } finally {
    store?.close();
  }
}

async function notKept(): Promise<Response> {
  const assets = await caches.open(ASSETS_CACHE);
  const sheet = (await assets.keys()).map(({ url }) => new URL(url)).find(({ pathname }) => pathname.endsWith('.css'));
  const style = sheet ? `<link rel="stylesheet" href="${sheet.pathname}${sheet.search}">` : '';
  const html =
    '<!doctype html><html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">' +
    `<title>No signal · Tarnkeep</title>${style}</head><body><div class="phone"><header class="bar"><a href="/my-round">My round</a></header>` +
    '<main><h1>No signal</h1><p class="meta">This page is not kept on the phone. Today\'s and tomorrow\'s visits are: go back to the round. ' +
    'What you typed is still here.</p></main></div></body></html>';
  const headers = { 'content-type': 'text/html; charset=utf-8', 'content-security-policy': "default-src 'self'" };
  return new Response(html, { status: 503, headers });
}
