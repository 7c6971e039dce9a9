import type { ReadingField } from './reading-fields.js';
import { readingFields } from './reading-fields.js';
import { lineOf, type SaidFor, type SaidReading, sayReading } from './reading-words.js';
import { typedReading } from './typed-reading.js';

/*
 * The visit page beside a pond: says at once what a reading means, counts the open tasks, and sends the closing without
 * leaving the page, so that nothing typed is lost when the answer does not come. The page works without it.
 */
const REST_MS = 400;
const SVG = 'http://www.w3.org/2000/svg';
let isTyped = false;
let isSending = false;
let resting: ReturnType<typeof setTimeout> | undefined;

document.addEventListener('input', (event) => {
  if (!(event.target as Element).closest('#closing')) return;
  isTyped = true;
  say('sent', 'Typed, not sent');
  clearTimeout(resting);
  resting = setTimeout(sayReadings, REST_MS);
});
document.addEventListener('change', (event) => {
  if (!(event.target as Element).closest('#closing')) return;
  countOpen();
  sayReadings();
});
document.addEventListener('submit', (event) => {
  const form = event.target as HTMLFormElement;
  if (form.id !== 'closing') return;
  event.preventDefault();
  void send(form);
});
window.addEventListener('beforeunload', (event) => {
  if (isTyped) event.preventDefault();
});
countOpen();

/** Judges every typed reading anew: temperature and pH decide about ammonia. */
function sayReadings(): void {
  const form = document.getElementById('closing') as HTMLFormElement | null;
  if (!form) return;
  const about = JSON.parse(form.dataset.about ?? '{}') as SaidFor;
  const rows = readingFields(about.units).flatMap((field) => {
    const input = form.querySelector<HTMLInputElement>(`input[data-quantity="${field.quantity}"]`);
    return input ? [{ field, input, reading: typedReading(field, input.value) }] : [];
  });
  const typedValue = (quantity: ReadingField['quantity']) => {
    const reading = rows.find((row) => row.field.quantity === quantity)?.reading;
    return reading?.kind === 'value' ? reading.value : undefined;
  };
  const temperatureC = typedValue('water-temperature');
  const ph = typedValue('ph');
  const sample = { ...(temperatureC !== undefined && { temperatureC }), ...(ph !== undefined && { ph }) };

  for (const { field, input, reading } of rows) {
    const isWrong = reading.kind === 'wrong';
    input.closest('.inp')?.classList.toggle('wrong', isWrong);
    input.toggleAttribute('aria-invalid', isWrong);
    const place = document.getElementById(`said-${field.quantity}`);
    if (!place) continue;
    const said = reading.kind === 'value' ? saidElement(sayReading(field, reading.value, sample, about)) : null;
    const spoken = isWrong ? element('span', 'err', reading.sentence) : said;
    // Left alone when nothing new is said, so that it is not read out again.
    if (place.textContent !== (spoken?.textContent ?? '')) place.replaceChildren(...(spoken ? [spoken] : []));
  }
}

function saidElement(said: SaidReading): HTMLElement {
  if (said.form === 'line') {
    const line = element('span', 'verdict');
    line.append(sign('M2 7.5l3.4 3.6L12 3.4'), element('span', '', lineOf(said)));
    return line;
  }
  const block = element('div', `result ${said.level}`);
  const level = element('span', 'lvl');
  level.append(sign('M7 1.5L13 12.5H1z'), element('span', '', said.levelWord));
  const words = [element('p', '', said.limit), element('p', '', said.actions.join(' '))];
  block.append(level, element('span', 'big', said.headline), ...words);
  return block;
}

function countOpen(): void {
  const boxes = [...document.querySelectorAll<HTMLInputElement>('.check input[type="checkbox"]')];
  if (boxes.length === 0) return;
  const open = boxes.filter((box) => !box.checked).length;
  const of = boxes.length === 1 ? '1 task' : `${open} of ${boxes.length} tasks`;
  say('open-tasks', open === 0 ? 'Everything is ticked.' : `${of} ${open === 1 ? 'is' : 'are'} open.`);
}

async function send(form: HTMLFormElement): Promise<void> {
  if (isSending) return;
  isSending = true;
  say('sent', 'Sending');
  say('sending', 'Sending. Keep this page open.');
  try {
    const body = new URLSearchParams(new FormData(form) as unknown as Record<string, string>);
    const answer = await fetch(form.action, { method: 'POST', body, headers: { accept: 'text/html' } });
    if (answer.ok) {
      isTyped = false;
      window.location.assign(answer.url);
      return;
    }
    if (answer.status === 422) showAnswer(await answer.text());
    else notSent(REASONS[answer.status] ?? `the office computer answered ${answer.status}.`);
  } catch {
    notSent('there is no signal, or the office computer does not answer.');
  }
  isSending = false;
}

const REASONS: Readonly<Record<number, string>> = {
  401: 'you are signed out. Sign in again in another tab, then press once more.',
  403: 'this page is too old. Open the visit in another tab and copy what you typed.',
  404: 'this visit is not there any more. Call the office.',
};

function notSent(reason: string): void {
  say('sent', 'Not sent');
  say('sending', `Not sent: ${reason} What you typed is still here. Press again to send it.`);
}

/** Fields that cannot be used come back on the page itself, with all that was typed. */
function showAnswer(html: string): void {
  const main = new DOMParser().parseFromString(html, 'text/html').querySelector('main');
  if (!main?.querySelector('#closing')) {
    notSent('the answer cannot be read.');
    return;
  }
  document.querySelector('main')?.replaceWith(main);
  say('sent', 'Not sent');
  say('sending', 'Not closed yet: look at the marked fields.');
  countOpen();
  const first = main.querySelector<HTMLElement>('.inp.wrong input, .err');
  (first ?? main).scrollIntoView({ block: 'center' });
  if (first instanceof HTMLInputElement) first.focus();
}

function say(id: string, words: string): void {
  const place = document.getElementById(id);
  if (place && place.textContent !== words) place.textContent = words;
}

function element(tag: string, className: string, text = ''): HTMLElement {
  const made = document.createElement(tag);
  if (className) made.className = className;
  made.textContent = text;
  return made;
}

function sign(path: string): SVGElement {
  const svg = document.createElementNS(SVG, 'svg');
  svg.setAttribute('viewBox', '0 0 14 14');
  svg.setAttribute('aria-hidden', 'true');
  const line = document.createElementNS(SVG, 'path');
  line.setAttribute('d', path);
  svg.append(line);
  return svg;
}
