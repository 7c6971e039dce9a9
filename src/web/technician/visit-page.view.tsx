import type { Actor } from '../../accounts/index.js';
import { formToken } from '../shell/layout.js';
import { checklist } from './checklist.view.js';
import { PART_LINES, partField } from './closing-form.js';
import { BACK_TO_ROUND, cautionSign, fieldFault, phonePage } from './phone.view.js';
import { saidReading } from './said-reading.view.js';
import { wayIn } from './stop.view.js';
import type { ReadingRow, VisitPageView } from './visit-page.view-model.js';

/** The page beside the pond. One form: it is sent as a whole, and nothing is sent before. */
export function visitPage(actor: Actor, view: VisitPageView): string {
  return phonePage({
    title: `${view.stop.pondName}, visit`,
    actor,
    back: BACK_TO_ROUND,
    middle: view.position,
    status: 'Not closed yet',
    scripts: ['visit'],
    foot: foot(view),
    children: (
      <>
        <h1 safe>{view.stop.pondName}</h1>
        {wayIn(view.stop)}
        {steps(actor, view)}
        {view.notice === null ? (
          ''
        ) : (
          <p class="note act" safe>
            {view.notice}
          </p>
        )}
        {faultNote(view)}
        {cautions(view)}
        <form
          id="closing"
          method="post"
          action={`/my-round/visits/${view.visitId}/closing`}
          data-visit={view.visitId}
          data-about={JSON.stringify(view.about)}
          data-closing={JSON.stringify(view.closing)}
          novalidate
        >
          {formToken(actor)}
          <input type="hidden" name="closingId" value={view.closingId} />
          {checklist(view)}
          {readings(view)}
          {partsUsed(view)}
          {noteAndPresence(view)}
        </form>
        {photos()}
        {before(view)}
      </>
    ),
  });
}

/** Before any step: what to do stands open for each, the first with all its lines. */
function cautions({ cautions: all }: VisitPageView): JSX.Element {
  if (all.length === 0) return '';
  return (
    <div class="caution">
      {cautionSign()}
      {all.map((caution, i) => (
        <details open={i === 0}>
          <summary safe>{caution.firstLine}</summary>
          <ul>
            {[...caution.lines, caution.defersTo].map((line) => (
              <li safe>{line}</li>
            ))}
          </ul>
        </details>
      ))}
    </div>
  );
}

/** Shown by the script, which makes a photo small and keeps it until it is sent. */
function photos(): JSX.Element {
  return (
    <section id="photos" aria-labelledby="photos-title" hidden>
      <h2 id="photos-title">Photos</h2>
      <label class="btn file">
        <span id="photo-words">Take a photo</span>
        <input type="file" id="photo" accept="image/*" />
      </label>
      <p id="photo-said" role="status" class="fine" />
      <ul id="photo-list" class="photos" />
    </section>
  );
}

function before({ before: { water, visits, whyNot, conflicts } }: VisitPageView): JSX.Element {
  if (water === '' && visits.length + whyNot.length + conflicts.length === 0) return '';
  return (
    <section aria-labelledby="before-title">
      <h2 id="before-title">The pond so far</h2>
      {water === '' ? '' : <p safe>{water}</p>}
      {visits.map((visit, i) => (
        <details class="how" open={i === 0}>
          <summary safe>{visit.title}</summary>
          {visit.lines.map((line) => (
            <p class="typed" safe>
              {line}
            </p>
          ))}
        </details>
      ))}
      {conflicts.map((sentence) => (
        <p class="typed" safe>
          {sentence}
        </p>
      ))}
      {notToday(whyNot)}
    </section>
  );
}

function notToday(lines: VisitPageView['before']['whyNot']): JSX.Element {
  if (lines.length === 0) return '';
  return (
    <details class="how">
      <summary>Not due, and why</summary>
      {lines.map(({ title, why }) => (
        <p class="typed">
          <b safe>{title}.</b> <span safe>{why}</span>
        </p>
      ))}
    </details>
  );
}

function steps(actor: Actor, { visitId, maySetOut, mayStart }: VisitPageView): JSX.Element {
  if (!mayStart) return '';
  const press = (act: 'on-the-way' | 'start', words: string) => (
    <form method="post" action={`/my-round/visits/${visitId}/${act}`} data-step={act} data-visit={visitId}>
      {formToken(actor)}
      <button type="submit" class="btn" safe>
        {words}
      </button>
    </form>
  );
  return (
    <div class={maySetOut ? 'two' : 'one'}>
      {maySetOut ? press('on-the-way', 'On the way') : ''}
      {press('start', 'I am here')}
    </div>
  );
}

function faultNote({ faults }: VisitPageView): JSX.Element {
  const count = Object.keys(faults).length;
  if (count === 0) return '';
  const whole = faults[''];
  return (
    <p class="note act" role="alert" id="faults">
      <b>Not closed yet. Nothing you typed is lost. </b>
      <span safe>{whole ?? (count === 1 ? 'One field needs a look.' : `${count} fields need a look.`)}</span>
    </p>
  );
}

function readings(view: VisitPageView): JSX.Element {
  const [first, second, ...rest] = view.usual;
  return (
    <>
      <h2>Readings</h2>
      <div class="read">
        <div class="pair">
          {first ? readingField(first) : ''}
          {second ? readingField(second) : ''}
        </div>
        {rest.map(readingField)}
        <details class="how" open={view.more.some((row) => row.typed !== '' || row.fault !== null)}>
          <summary>More readings</summary>
          <div class="read">{view.more.map(readingField)}</div>
        </details>
      </div>
    </>
  );
}

function readingField(row: ReadingRow): JSX.Element {
  const { field, name, fault: wrong } = row;
  const said = `said-${field.quantity}`;
  return (
    <div class="f">
      <label for={name} safe>
        {field.label}
      </label>
      <span class={wrong ? 'inp wrong' : 'inp'}>
        <input
          id={name}
          name={name}
          value={row.typed}
          inputmode="decimal"
          autocomplete="off"
          aria-describedby={`${said} ${said}-last`}
          aria-invalid={wrong ? 'true' : undefined}
          data-quantity={field.quantity}
        />
        {field.unit === '' ? (
          ''
        ) : (
          <span class="u" safe>
            {field.unit}
          </span>
        )}
      </span>
      <div id={said} role="status">
        {wrong === null ? saidReading(row.said) : fieldFault(wrong)}
      </div>
      <span class="hint" id={`${said}-last`} safe>
        {row.last}
      </span>
    </div>
  );
}

function partsUsed({ typed, faults, cards }: VisitPageView): JSX.Element {
  const known = [...new Set(cards.flatMap((card) => card.parts))];
  const lines = Array.from({ length: PART_LINES }, (_, line) => line);
  return (
    <details class="how" open={lines.some((line) => (typed[partField(line, 'name')] ?? '') !== '')}>
      <summary>Parts used</summary>
      <datalist id="known-parts">
        {known.map((name) => (
          <option value={name} />
        ))}
      </datalist>
      {lines.map((line) => (
        <div class="part">
          {(['name', 'amount'] as const).map((part) => {
            const name = partField(line, part);
            const isName = part === 'name';
            return (
              <div class="f">
                <label for={name}>{isName ? `Part ${line + 1}` : 'How many'}</label>
                <span class={faults[name] ? 'inp wrong' : 'inp'}>
                  <input
                    id={name}
                    name={name}
                    value={typed[name] ?? ''}
                    autocomplete="off"
                    list={isName ? 'known-parts' : undefined}
                    inputmode={isName ? undefined : 'decimal'}
                    maxlength={isName ? '200' : '8'}
                  />
                </span>
                {fieldFault(faults[name])}
              </div>
            );
          })}
        </div>
      ))}
    </details>
  );
}

function noteAndPresence({ typed, faults }: VisitPageView): JSX.Element {
  return (
    <>
      <h2 id="note-title">Note</h2>
      <textarea name="note" aria-labelledby="note-title" maxlength="10000" rows="4" safe>
        {typed.note ?? ''}
      </textarea>
      {fieldFault(faults.note)}
      <details class="how" open={(typed.followUp ?? '') !== ''}>
        <summary>To be looked after</summary>
        <div class="f">
          <label for="followUp">What somebody should come back for</label>
          <textarea id="followUp" name="followUp" rows="2" maxlength="2000" safe>
            {typed.followUp ?? ''}
          </textarea>
          {fieldFault(faults.followUp)}
        </div>
      </details>
      <fieldset class="presence">
        <legend>Was the homeowner there?</legend>
        <div class="two">
          {[
            ['yes', 'Yes'],
            ['no', 'No'],
          ].map(([value, words]) => (
            <label>
              <input type="radio" name="homeowner" value={value} checked={typed.homeowner === value} />
              <span safe>{words as string}</span>
            </label>
          ))}
        </div>
      </fieldset>
    </>
  );
}

function foot({ cards, isAddition }: VisitPageView): JSX.Element {
  const count = cards.length === 1 ? '1 task.' : `${cards.length} tasks.`;
  return (
    <footer class="foot">
      <div>
        <p role="status">
          <b id="open-tasks" safe>
            {cards.length === 0 ? '' : count}
          </b>{' '}
          <span id="sending">Nothing is sent until you close the visit.</span>
        </p>
        <button type="submit" class="btn first" form="closing">
          {isAddition ? 'Add this to the visit' : 'Close the visit'}
        </button>
      </div>
    </footer>
  );
}
