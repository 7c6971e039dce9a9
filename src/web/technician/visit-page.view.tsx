import type { Actor } from '../../accounts/index.js';
import { formToken } from '../shell/layout.js';
import { taskField } from './closing-form.js';
import { cautionSign, phonePage } from './phone.view.js';
import { saidReading } from './said-reading.view.js';
import { wayIn } from './stop.view.js';
import type { TaskCard } from './task-card.js';
import type { ClosedView, ReadingRow, VisitPageView } from './visit-page.view-model.js';

const BACK = { href: '/my-round', text: 'My round' } as const;

/** The page beside the pond. One form: it is sent as a whole, and nothing is sent before. */
export function visitPage(actor: Actor, view: VisitPageView): string {
  return phonePage({
    title: `${view.stop.pondName}, visit`,
    actor,
    back: BACK,
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

function checklist(view: VisitPageView): JSX.Element {
  if (view.cards.length === 0) {
    return (
      <>
        <h2>To do</h2>
        <p class="meta">No task is planned: look at the pond, test the water, write what you see.</p>
      </>
    );
  }
  return (
    <>
      <h2 safe>{view.workWords}</h2>
      <ul class="check">
        {view.cards.map((card) => (
          <li>
            <label>
              <input
                type="checkbox"
                name={taskField(card.taskId, 'done')}
                checked={view.typed[taskField(card.taskId, 'done')] !== undefined}
              />
              <span>
                <span class="t" safe>
                  {card.title}
                </span>
                {card.isFinished ? <span class="q">Done or cancelled by somebody else already.</span> : ''}
                {card.quantities.map((quantity) => (
                  <span class="q" safe>
                    {quantity}
                  </span>
                ))}
                {card.isLate ? (
                  <span class="q late" safe>
                    {card.window}
                  </span>
                ) : (
                  ''
                )}
              </span>
            </label>
            <div class="more">
              {howTo(card)}
              {notAll(view, card)}
            </div>
          </li>
        ))}
      </ul>
    </>
  );
}

function howTo(card: TaskCard): JSX.Element {
  return (
    <details class="how">
      <summary>Steps and why</summary>
      <ol>
        {card.steps.map((step) => (
          <li safe>{step}</li>
        ))}
      </ol>
      {card.parts.length > 0 ? <p safe>{`With: ${card.parts.join(', ')}.`}</p> : ''}
      <p safe>{card.why}</p>
    </details>
  );
}

function notAll({ typed, faults }: VisitPageView, card: TaskCard): JSX.Element {
  const share = taskField(card.taskId, 'share');
  const remark = taskField(card.taskId, 'remark');
  const actualNames = card.actuals.map((field) => taskField(card.taskId, field.name));
  const isOpen = [share, remark, ...actualNames].some(
    (name) => (typed[name] ?? '') !== '' || faults[name] !== undefined,
  );
  return (
    <details class="how" open={isOpen}>
      <summary>Not as planned</summary>
      <div class="f">
        <label for={share}>Only partly done</label>
        <span class="inp">
          <select id={share} name={share}>
            {[
              ['', 'no'],
              ['0.25', 'about a quarter is done'],
              ['0.5', 'about half is done'],
              ['0.75', 'about three quarters are done'],
            ].map(([value, words]) => (
              <option value={value} selected={(typed[share] ?? '') === value} safe>
                {words as string}
              </option>
            ))}
          </select>
        </span>
        <span class="hint">The rest stays due.</span>
      </div>
      {card.actuals.map((field) => {
        const name = taskField(card.taskId, field.name);
        return (
          <div class="f">
            <label for={name} safe>
              {field.label}
            </label>
            <span class={faults[name] ? 'inp wrong' : 'inp'}>
              <input
                id={name}
                name={name}
                inputmode="decimal"
                autocomplete="off"
                value={typed[name] ?? field.planned}
              />
              <span class="u" safe>
                {field.unit}
              </span>
            </span>
            {fault(faults[name])}
          </div>
        );
      })}
      <div class="f">
        <label for={remark}>What is left, or why not</label>
        <textarea id={remark} name={remark} rows="2" maxlength="2000" safe>
          {typed[remark] ?? ''}
        </textarea>
        {fault(faults[remark])}
      </div>
    </details>
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
        {wrong === null ? saidReading(row.said) : fault(wrong)}
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
      {fault(faults.note)}
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

function fault(sentence: string | undefined): JSX.Element {
  return sentence === undefined ? (
    ''
  ) : (
    <span class="err" safe>
      {sentence}
    </span>
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

/** After the closing: what was kept, in the words the homeowner's report uses too. */
export function closedPage(actor: Actor, view: ClosedView): string {
  return phonePage({
    title: `${view.stop.pondName}, closed`,
    actor,
    back: BACK,
    middle: view.position,
    status: 'Sent',
    children: (
      <>
        <h1 safe>{view.stop.pondName}</h1>
        <p class="note gap" role="status">
          <b safe>{view.sent}</b> The visit is closed.
        </p>
        {view.remarks.map((remark) => (
          <p class="note act gap" safe>
            {remark}
          </p>
        ))}
        {view.tasks.length > 0 ? (
          <>
            <h2>Tasks</h2>
            <dl class="kept">
              {view.tasks.map((task) => (
                <>
                  <dt safe>{task.title}</dt>
                  <dd safe>{[task.outcome, task.remark].filter((part) => part !== '').join('. ')}</dd>
                </>
              ))}
            </dl>
          </>
        ) : (
          ''
        )}
        {view.readings.length > 0 ? (
          <>
            <h2>Readings</h2>
            <dl class="kept">
              {view.readings.map((reading) => (
                <>
                  <dt safe>{`${reading.label}: ${reading.shown}`}</dt>
                  <dd>{saidReading(reading.said)}</dd>
                </>
              ))}
            </dl>
          </>
        ) : (
          ''
        )}
        {view.notes.map((note) => (
          <>
            <h2 safe>{`Note by ${note.by}`}</h2>
            <p class="typed" safe>
              {note.note}
            </p>
          </>
        ))}
        <div class="one gap">
          <a class="btn first" href="/my-round">
            Back to my round
          </a>
          <a class="btn" href={view.addHref}>
            Add something
          </a>
        </div>
      </>
    ),
  });
}
