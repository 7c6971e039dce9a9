import type { Actor } from '../../accounts/index.js';
import { formToken } from '../shell/layout.js';
import { checklist } from './checklist.view.js';
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
        {view.cautions.map((caution) => (
          <div class="caution">
            {cautionSign()}
            <b safe>{caution.firstLine}</b>
            <ul>
              {[...caution.lines, caution.defersTo].map((line) => (
                <li safe>{line}</li>
              ))}
            </ul>
          </div>
        ))}
        <form
          id="closing"
          method="post"
          action={`/my-round/visits/${view.visitId}/closing`}
          data-about={JSON.stringify(view.about)}
          novalidate
        >
          {formToken(actor)}
          <input type="hidden" name="closingId" value={view.closingId} />
          {checklist(view)}
          {readings(view)}
          {noteAndPresence(view)}
        </form>
      </>
    ),
  });
}

function steps(actor: Actor, { visitId, maySetOut, mayStart }: VisitPageView): JSX.Element {
  if (!mayStart) return '';
  const press = (act: 'on-the-way' | 'start', words: string) => (
    <form method="post" action={`/my-round/visits/${visitId}/${act}`}>
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

function noteAndPresence({ typed, faults }: VisitPageView): JSX.Element {
  return (
    <>
      <h2 id="note-title">Note</h2>
      <textarea name="note" aria-labelledby="note-title" maxlength="10000" rows="4" safe>
        {typed.note ?? ''}
      </textarea>
      {fieldFault(faults.note)}
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
