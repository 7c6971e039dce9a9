import type { Actor } from '../../../../accounts/index.js';
import { selectField, textField } from '../../../forms/fields.js';
import { formToken } from '../../../shell/layout.js';
import type { HistoryLine } from './history.view-model.js';
import type { PondPageModel } from './pond-page.view-model.js';

export function readingForm(actor: Actor, model: PondPageModel): JSX.Element {
  const { options, takenAt, quantity, value, fault } = model.readingForm;
  return (
    <details class="words enter" id="enter-reading" open={fault !== ''}>
      <summary class="btn">Enter a reading</summary>
      <form method="post" action={`/ponds/${model.id}/readings#enter-reading`} class="grid6">
        {formToken(actor)}
        {selectField({ name: 'quantity', label: 'Quantity', value: quantity, width: 'c6', options })}
        {textField({
          name: 'value',
          label: 'Value',
          value,
          width: 'c3',
          inputmode: 'decimal',
          required: true,
          ...(fault && { fault }),
          hint: 'In the unit that stands beside the quantity',
        })}
        {textField({
          name: 'takenAt',
          label: 'Taken',
          value: takenAt,
          width: 'c3',
          type: 'datetime-local',
          required: true,
          hint: 'Local time of the pond',
        })}
        <p class="c6">
          <button type="submit" class="btn first">
            Keep this reading
          </button>
        </p>
      </form>
    </details>
  );
}

/** History, and what is seldom done: archive, restore, house sold. */
export function pondActs(actor: Actor, model: PondPageModel): JSX.Element {
  return (
    <section aria-labelledby="history-title">
      <div class="sec">
        <h2 id="history-title">History</h2>
        <span class="fine">What was done, and how the calendar moved</span>
      </div>
      {model.history.length === 0 ? (
        <p class="empty">
          <b>Nothing has happened yet.</b>Everything done and every move of the calendar is written down here.
        </p>
      ) : (
        <details class="why history" open={model.history.some(({ undo }) => undo !== null)}>
          <summary>
            <u safe>{model.history.length === 1 ? 'One entry' : `${model.history.length} entries`}</u>
          </summary>
          <dl class="facts">{model.history.map((line) => historyRow(actor, line))}</dl>
        </details>
      )}
      <div class="seldom gap">{model.isArchived ? restore(actor, model) : seldomActs(actor, model)}</div>
    </section>
  );
}

function historyRow(actor: Actor, line: HistoryLine): JSX.Element {
  return (
    <>
      <dt>
        <span safe>{line.title}</span>
        <small safe>{line.detail}</small>
      </dt>
      <dd>
        <span class="num" safe>
          {line.when}
        </span>
        {line.undo ? (
          <form method="post" action={line.undo}>
            {formToken(actor)}
            <button type="submit" class="linklike" aria-label={`Take back: ${line.title}`}>
              Take it back
            </button>
          </form>
        ) : (
          ''
        )}
      </dd>
    </>
  );
}

function seldomActs(actor: Actor, model: PondPageModel): JSX.Element {
  return (
    <>
      <details class="confirm">
        <summary class="btn">The house was sold</summary>
        <form method="post" action={`/ponds/${model.id}/sale`}>
          {formToken(actor)}
          <p>
            Its people stop being contacts on that day, their links die, and no mail reaches them any more. The pond,
            its record and its history stay.
          </p>
          {textField({ name: 'on', label: 'Sold on', value: model.today, type: 'date', required: true })}
          <button type="submit" class="btn">
            Yes, end the contacts
          </button>
        </form>
      </details>
      <details class="confirm">
        <summary class="btn">Archive this pond</summary>
        <form method="post" action={`/ponds/${model.id}/archiving`}>
          {formToken(actor)}
          <p>
            It leaves your care: nothing is planned or mailed for it any more. Everything stays and it can be taken
            back.
          </p>
          <button type="submit" class="btn">
            Yes, archive it
          </button>
        </form>
      </details>
    </>
  );
}

function restore(actor: Actor, model: PondPageModel): JSX.Element {
  return (
    <form method="post" action={`/ponds/${model.id}/restoring`}>
      {formToken(actor)}
      <button type="submit" class="btn first">
        Take it back into care
      </button>
    </form>
  );
}
