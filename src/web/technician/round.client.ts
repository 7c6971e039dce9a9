import type { ClosingFlag } from '../../visits/index.js';
import { flagWords } from './flag-words.js';
import { button, element } from './phone/elements.js';
import type { OutboxItem } from './phone/outbox.js';
import { Phone } from './phone/phone.js';
import { itemWords, offlineFault, stateWords } from './phone/phone-words.js';
import { lastClosing, stopsOnPhone } from './phone/round-state.js';
import { roundSentence } from './round-words.js';

/*
 * The round on a phone: keeps today and tomorrow for where there is no signal, sends what waits, and shows over the page
 * what this phone has closed. The page works without it.
 */
void start();

async function start(): Promise<void> {
  const phone = await Phone.start();
  if (!phone) return;
  warnBeforeSignOut(phone);
  await phone.onChange((items) => show(phone, items));
  await phone.send();
  await phone.keep();
  await sayKept(phone);
}

function show(phone: Phone, items: readonly OutboxItem[]): void {
  showStops(items);
  showClosed(items);
  showOutbox(phone, items);
}

function showStops(items: readonly OutboxItem[]): void {
  const onPhone = stopsOnPhone(items);
  for (const row of document.querySelectorAll<HTMLElement>('.stops [data-visit]')) {
    const stop = onPhone.get(row.dataset.visit ?? '');
    const place = row.querySelector('.s');
    if (!stop || !place || row.dataset.minutes === '') continue;
    place.textContent = stop.words;
    row.classList.toggle('done', stop.isClosed);
    row.toggleAttribute('data-closed', stop.isClosed);
  }
  let isFirst = true;
  for (const next of document.querySelectorAll<HTMLElement>('section.next[data-visit]')) {
    const isClosed = onPhone.get(next.dataset.visit ?? '')?.isClosed === true;
    next.hidden = isClosed || !isFirst;
    if (!isClosed) isFirst = false;
  }
  const sentence = document.getElementById('round-sentence');
  if (!sentence) return;
  const today = [...document.querySelectorAll<HTMLElement>('#today [data-visit]')];
  const open = today.filter((row) => row.dataset.minutes !== '' && !row.hasAttribute('data-closed'));
  const minutes = open.map((row) => Number(row.dataset.minutes));
  sentence.textContent = roundSentence(Number(sentence.dataset.stops), minutes);
}

/** What was closed a moment ago, and what the office computer said to it. */
function showClosed(items: readonly OutboxItem[]): void {
  const place = document.getElementById('just-closed');
  const last = lastClosing(items, Date.now());
  if (!place || !last) return;
  const line = element('p', 'note gap');
  line.append(element('b', '', `${last.pondName} is closed. `), stateWords(last, Date.now()));
  const remarks = last.flags.map((flag) => element('p', 'note act gap', flagWords(flag as ClosingFlag)));
  if (place.textContent !== [line, ...remarks].map((one) => one.textContent).join(''))
    place.replaceChildren(line, ...remarks);
}

/** Everything that is not at the office yet, with what can be done about it. */
function showOutbox(phone: Phone, items: readonly OutboxItem[]): void {
  const section = document.getElementById('outbox');
  if (!section) return;
  const open = items.filter((item) => item.state !== 'sent');
  section.hidden = open.length === 0;
  if (open.length === 0) return;
  const title = element('h2', '', 'On this phone');
  title.id = 'outbox-title';
  const list = element('ul', 'outbox');
  list.append(...open.map((item) => outboxRow(phone, item)));
  section.replaceChildren(
    title,
    list,
    button('Send now', () => phone.send().then(() => {})),
  );
}

function outboxRow(phone: Phone, item: OutboxItem): HTMLElement {
  const row = element('li');
  row.append(element('b', '', itemWords(item)), element('p', '', stateWords(item, Date.now())));
  if (item.state !== 'needs-you') return row;
  const again = button('Try again', async () => {
    await phone.saved((store) => store.change(item.seq, { state: 'waiting', sentence: '' }));
    await phone.send();
  });
  row.append(again);
  if (item.kind === 'closing') row.append(button('Mend it', () => mend(phone, item)));
  else row.append(throwAway(phone, item));
  return row;
}

async function mend(phone: Phone, item: OutboxItem): Promise<void> {
  if (await phone.saved((store) => store.reopen(item))) window.location.assign(`/my-round/visits/${item.visitId}`);
}

/** Asks once more on the same button. */
function throwAway(phone: Phone, item: OutboxItem): HTMLButtonElement {
  let isAsked = false;
  const made = button('Throw it away', async () => {
    if (!isAsked) {
      isAsked = true;
      made.textContent = 'Press again to throw it away';
      return;
    }
    await phone.saved((store) => store.remove(item.seq));
    await phone.changed();
  });
  return made;
}

async function sayKept(phone: Phone): Promise<void> {
  const place = document.getElementById('kept');
  if (!place) return;
  const fault = offlineFault({
    isSecure: window.isSecureContext,
    hasWorker: 'serviceWorker' in navigator,
    hasStore: phone.store !== null,
  });
  if (fault !== '') place.textContent = fault;
  else if (await phone.isKept()) {
    place.textContent = 'Kept on this phone: today and tomorrow open without signal.';
    place.dataset.kept = '';
  } else place.textContent = 'Not on this phone yet: open this page once with signal before you set out.';
}

/** What is not sent stays on the phone; whoever signs out is told before. */
function warnBeforeSignOut(phone: Phone): void {
  let isWarned = false;
  document.addEventListener('submit', (event) => {
    const form = event.target as HTMLFormElement;
    if (form.getAttribute('action') !== '/sign-out') return;
    event.preventDefault();
    void phone.items().then(async (items) => {
      const left = items.filter((item) => item.state !== 'sent').length;
      if (left > 0 && !isWarned) {
        isWarned = true;
        const what = left === 1 ? 'One thing is' : `${left} things are`;
        phone.tell(
          'sign-out',
          `${what} not sent yet. It stays on this phone and goes when you sign in again. Press Sign out again.`,
        );
        document.getElementById('phone-says')?.scrollIntoView({ block: 'center' });
        return;
      }
      await phone.forget();
      form.submit();
    });
  });
}
