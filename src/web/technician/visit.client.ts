import { closingFromForm, takenAtField } from './closing-form.js';
import { putBack, showFaults, typedOf } from './phone/draft-form.js';
import { button, element, say } from './phone/elements.js';
import type { NewOutboxItem, OutboxItem } from './phone/outbox.js';
import { Phone } from './phone/phone.js';
import { stateWords } from './phone/phone-words.js';
import { PhotoRefused, smallPhoto } from './phone/photo.js';
import { sayDoses } from './phone/said-doses.js';
import { sayReadings } from './phone/said-readings.js';
import { draftKey, draftOf } from './phone/store.js';
import { phoneId } from './phone/uuid.js';
import { powerField } from './power-fence.js';
import { readingFields } from './reading-fields.js';
import type { SaidFor } from './reading-words.js';
import type { ClosingData } from './visit-page.view-model.js';

/*
 * The visit page beside a pond: says at once what a reading means and what to measure out, keeps on the phone whatever
 * is typed, and closes the visit with or without signal. The page works without it.
 */
const REST_MS = 400;
const SAVE_MS = 150;
/** Beside a pond a round fetched so lately is good enough. */
const RECENT_MS = 5 * 60_000;

void start();

async function start(): Promise<void> {
  const form = document.getElementById('closing') as HTMLFormElement | null;
  const phone = await Phone.start();
  if (!phone || !form) return;
  await new VisitOnPhone(phone, form).start();
  await phone.send();
  await phone.keep(RECENT_MS);
}

class VisitOnPhone {
  private readonly visitId: string;
  private readonly about: SaidFor;
  private readonly data: ClosingData;
  /** When readings were typed, and when somebody arrived: beside what stands in the form. */
  private readonly noted: Record<string, string> = {};
  private closingId = '';
  private resting: ReturnType<typeof setTimeout> | undefined;
  private saving: ReturnType<typeof setTimeout> | undefined;
  private isClosing = false;

  constructor(
    private readonly phone: Phone,
    private readonly form: HTMLFormElement,
  ) {
    this.visitId = form.dataset.visit ?? '';
    this.about = JSON.parse(form.dataset.about ?? '{}') as SaidFor;
    this.data = JSON.parse(form.dataset.closing ?? '{}') as ClosingData;
  }

  async start(): Promise<void> {
    const { phone, form } = this;
    await this.restore();
    form.addEventListener('input', (event) => this.onInput(event.target as HTMLInputElement));
    form.addEventListener('change', () => this.look());
    document.addEventListener('submit', (event) => this.onSubmit(event));
    window.addEventListener('pagehide', () => void this.save());
    document.addEventListener('visibilitychange', () => void this.save());
    document.getElementById('photo')?.addEventListener('change', (event) => void this.takePhoto(event));
    if (phone.store) document.getElementById('photos')?.removeAttribute('hidden');
    await this.fillLots();
    await phone.onChange((items) => this.showItems(items.filter((item) => item.visitId === this.visitId)));
    this.look();
    document.documentElement.dataset.ready = '';
  }

  private async restore(): Promise<void> {
    const draft = await this.phone.store?.draft(this.phone.owner, this.visitId).catch(() => undefined);
    if (draft) {
      putBack(this.form, draft.typed);
      for (const [name, value] of Object.entries(draft.typed)) {
        if (name.startsWith('taken:') || name === 'arrivedAt') this.noted[name] = value;
      }
      say('sending', 'What you typed before is back.');
    }
    const given = this.form.querySelector<HTMLInputElement>('[name="closingId"]');
    this.closingId = draft?.typed.closingId || given?.value || phoneId();
  }

  private onInput(input: HTMLInputElement): void {
    const { quantity } = input.dataset;
    if (quantity) this.noted[takenAtField({ quantity: quantity as never })] = new Date().toISOString();
    clearTimeout(this.resting);
    clearTimeout(this.saving);
    this.resting = setTimeout(() => this.look(), REST_MS);
    this.saving = setTimeout(() => void this.save(), SAVE_MS);
  }

  private look(): void {
    sayReadings(this.form);
    sayDoses(this.form, this.data.cards, this.about.units);
    this.countOpen();
    this.watchPower();
  }

  private typed(): Record<string, string> {
    return { ...typedOf(this.form), ...this.noted, closingId: this.closingId };
  }

  private async save(): Promise<void> {
    if (this.isClosing) return;
    const draft = draftOf(this.phone.owner, this.visitId, this.typed(), new Date().toISOString());
    if (await this.phone.saved((store) => store.saveDraft(draft))) say('sending', 'Saved on this phone as you type.');
  }

  private countOpen(): void {
    const boxes = [...this.form.querySelectorAll<HTMLInputElement>('.check input[data-task]')];
    if (boxes.length === 0) return;
    const open = boxes.filter((box) => !box.checked).length;
    const of = boxes.length === 1 ? '1 task' : `${open} of ${boxes.length} tasks`;
    say('open-tasks', open === 0 ? 'Everything is ticked.' : `${of} ${open === 1 ? 'is' : 'are'} open.`);
  }

  /** Work between the two ticks of a fence asks for the first one. */
  private watchPower(): void {
    for (const off of this.form.querySelectorAll<HTMLInputElement>('input[data-side="off"]')) {
      const fence = Number(off.dataset.fence);
      const isWorked = fencedBoxes(off).some((box) => box.checked);
      say(`${powerField(fence, 'off')}-fault`, isWorked && !off.checked ? 'Power off first. Then tick this.' : '');
    }
  }

  private onSubmit(event: SubmitEvent): void {
    const form = event.target as HTMLFormElement;
    if (form === this.form) {
      event.preventDefault();
      void this.close();
    } else if (form.dataset.step) {
      event.preventDefault();
      void this.takeStep(form, form.dataset.step as 'on-the-way' | 'start');
    }
  }

  private async takeStep(form: HTMLFormElement, kind: 'on-the-way' | 'start'): Promise<void> {
    const at = new Date().toISOString();
    if (kind === 'start') this.noted.arrivedAt = at;
    const isSaved = await this.phone.saved((store) => store.save(this.item({ kind, id: phoneId(), body: { at } })));
    if (!isSaved) return;
    await this.save();
    form.hidden = true;
    await this.phone.send();
  }

  /** Saves the closing first; it is sent from the round's page, which comes next at once. */
  private async close(): Promise<void> {
    if (this.isClosing) return;
    const read = closingFromForm(this.typed(), {
      cards: this.data.cards,
      fields: readingFields(this.about.units),
      now: new Date().toISOString(),
      units: this.about.units,
      plannedOn: this.data.plannedOn,
      idOf: () => phoneId(),
    });
    if ('faults' in read) {
      this.look();
      showFaults(this.form, read.faults);
      const count = Object.keys(read.faults).length;
      say(
        'sending',
        read.faults[''] ?? `Not closed yet: ${count === 1 ? 'one field needs' : `${count} fields need`} a look.`,
      );
      return;
    }
    this.isClosing = true;
    clearTimeout(this.saving);
    const item = this.item({ kind: 'closing', id: this.closingId, body: read.closing, typed: this.typed() });
    const key = draftKey(this.phone.owner, this.visitId);
    if (await this.phone.saved((store) => store.save(item, key))) {
      await this.keepLots();
      if (await this.phone.opensRound()) window.location.assign('/my-round');
      else await this.stayClosed();
      return;
    }
    await this.sendUnsaved(read.closing);
    this.isClosing = false;
  }

  /** Neither kept nor within reach, the round would be an empty page: this one tells what became of the closing. */
  private async stayClosed(): Promise<void> {
    this.isClosing = false;
    await this.phone.changed();
    window.scrollTo(0, 0);
    await this.phone.send();
  }

  private item(own: Pick<NewOutboxItem, 'kind' | 'id' | 'body' | 'typed' | 'photo'>): NewOutboxItem {
    const { owner } = this.phone;
    const { pondName } = this.data;
    return { owner, pondName, visitId: this.visitId, savedAt: new Date().toISOString(), ...own };
  }

  /** The phone has no room: the closing goes straight out, and stays on the page until it has gone. */
  private async sendUnsaved(closing: unknown): Promise<void> {
    say('sending', 'Not saved on this phone. Sending. Keep this page open.');
    const token = this.form.querySelector<HTMLInputElement>('[name="_token"]')?.value ?? '';
    const headers = { accept: 'application/json', 'content-type': 'application/json', 'x-form-token': token };
    const answer = await fetch(`/api/visits/${this.visitId}/closing`, {
      ...{ method: 'POST', headers, body: JSON.stringify(closing) },
    }).catch(() => null);
    if (answer?.ok) window.location.assign('/my-round');
    else say('sending', 'Not saved and not sent. What you typed is still here: keep this page open and press again.');
  }

  private async takePhoto(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    for (const file of input.files ?? []) {
      say('photo-said', 'Making the photo small.');
      try {
        const photo = await smallPhoto(file);
        const isSaved = await this.phone.saved((store) =>
          store.save(this.item({ kind: 'photo', id: phoneId(), photo })),
        );
        say('photo-said', isSaved ? '' : 'The photo is not saved.');
      } catch (fault) {
        say('photo-said', fault instanceof PhotoRefused ? fault.message : 'The photo could not be taken.');
      }
    }
    input.value = '';
    await this.phone.changed();
    await this.phone.send();
  }

  private showItems(items: readonly OutboxItem[]): void {
    const photos = items.filter((item) => item.kind === 'photo');
    say('photo-words', photos.length === 0 ? 'Take a photo' : `Take another photo, ${photos.length} so far`);
    const rows = photos.map((item, i) => element('li', '', `Photo ${i + 1}. ${stateWords(item, Date.now())}`));
    document.getElementById('photo-list')?.replaceChildren(...rows);
    for (const step of document.querySelectorAll<HTMLFormElement>('form[data-step]')) {
      const isTaken = items.some((item) => item.kind === step.dataset.step || item.kind === 'start');
      if (isTaken) step.hidden = true;
    }
    const closing = items.filter((item) => item.kind === 'closing').at(-1);
    if (closing && !this.isClosing) this.showClosed(closing);
  }

  /** Closed on this phone: the form gives way to what became of it. */
  private showClosed(closing: OutboxItem): void {
    // Something may be added to what has been sent.
    if (closing.state === 'sent' && window.location.search !== '') return;
    this.form.hidden = true;
    for (const over of document.querySelectorAll<HTMLElement>('.foot, .phone .caution, form[data-step]'))
      over.hidden = true;
    const said = document.getElementById('closed-here') ?? element('div');
    said.id = 'closed-here';
    const line = element('p', 'note gap');
    line.append(element('b', '', 'Closed. '), stateWords(closing, Date.now()));
    said.replaceChildren(line);
    if (closing.state !== 'sent') said.append(button('Open it again', () => this.openAgain(closing)));
    else said.append(addLink(this.visitId));
    document.querySelector('main h1')?.after(said);
  }

  private async openAgain(closing: OutboxItem): Promise<void> {
    if (await this.phone.saved((store) => store.reopen(closing))) window.location.reload();
  }

  /** A lot is typed once and stays until another one is opened. */
  private async fillLots(): Promise<void> {
    const lots = (await this.phone.store?.lots().catch(() => ({}))) as Record<string, string> | undefined;
    for (const input of this.lotInputs()) if (input.value === '') input.value = lots?.[input.dataset.lot ?? ''] ?? '';
  }

  private async keepLots(): Promise<void> {
    const typed = this.lotInputs().filter((input) => input.value !== '');
    if (typed.length === 0) return;
    const own = Object.fromEntries(typed.map((input) => [input.dataset.lot ?? '', input.value]));
    await this.phone.saved(async (store) => store.hold('lots', { ...(await store.lots()), ...own }));
  }

  private lotInputs(): HTMLInputElement[] {
    return [...this.form.querySelectorAll<HTMLInputElement>('input[data-lot]')];
  }
}

/** The ticks of the tasks between a fence's "power off" and its "power on". */
function fencedBoxes(off: HTMLInputElement): HTMLInputElement[] {
  const boxes: HTMLInputElement[] = [];
  for (let row = off.closest('li')?.nextElementSibling; row && !row.matches('.fence'); row = row.nextElementSibling) {
    const box = row.querySelector<HTMLInputElement>('input[data-task]');
    if (box) boxes.push(box);
  }
  return boxes;
}

function addLink(visitId: string): HTMLElement {
  const link = element('a', 'btn', 'Add something');
  link.href = `/my-round/visits/${visitId}?add=1`;
  return link;
}
