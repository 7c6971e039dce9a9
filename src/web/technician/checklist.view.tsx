import type { ChemicalDose } from './chemical-dose.js';
import { chemicalField, taskField, volumeField } from './closing-form.js';
import { fieldFault } from './phone.view.js';
import { fenced, POWER_WORDS, powerField } from './power-fence.js';
import type { ActualField, TaskCard } from './task-card.js';
import type { VisitPageView } from './visit-page.view-model.js';

/** The tasks to tick, each with its steps and what to say when it went otherwise; work without power between two ticks. */
export function checklist(view: VisitPageView): JSX.Element {
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
        {fenced(view.cards).map(({ fence, cards }) => (
          <>
            {fence === null ? '' : powerTick(view, fence, 'off')}
            {cards.map((card) => taskRow(view, card))}
            {fence === null ? '' : powerTick(view, fence, 'on')}
          </>
        ))}
      </ul>
    </>
  );
}

function powerTick({ typed, faults }: VisitPageView, fence: number, side: 'off' | 'on'): JSX.Element {
  const name = powerField(fence, side);
  return (
    <li class="fence">
      <label>
        <input
          type="checkbox"
          id={name}
          name={name}
          checked={typed[name] !== undefined}
          data-fence={String(fence)}
          data-side={side}
        />
        <span class="t">{POWER_WORDS[side]}</span>
      </label>
      <div id={`${name}-fault`} role="status">
        {fieldFault(faults[name])}
      </div>
    </li>
  );
}

function taskRow(view: VisitPageView, card: TaskCard): JSX.Element {
  const done = taskField(card.taskId, 'done');
  return (
    <li>
      <label>
        <input type="checkbox" name={done} checked={view.typed[done] !== undefined} data-task={card.taskId} />
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
      {card.chemicals.map((dose, index) => chemical(view, card, dose, index))}
      {card.serialOf === 'lamp' ? serial(view, card, 'Serial number of the new lamp') : ''}
      <div class="more">
        {howTo(card)}
        {notAll(view, card)}
      </div>
    </li>
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

/** A product to measure out: first for how much water, then the dose for it, then what went in and of which lot. */
function chemical(view: VisitPageView, card: TaskCard, dose: ChemicalDose, index: number): JSX.Element {
  const { typed, faults } = view;
  const volume = volumeField(card, index, dose.quantity.basis.of);
  const amount = chemicalField(card.taskId, index, 'amount');
  const lot = chemicalField(card.taskId, index, 'lot');
  const doseId = `dose:${card.taskId}:${index}`;
  return (
    <fieldset class="chemical" data-chemical={String(index)} data-task={card.taskId}>
      <legend safe>{dose.product}</legend>
      <div class="f">
        <label for={volume}>For how much water</label>
        <span class={faults[volume] ? 'inp wrong' : 'inp'}>
          <input
            id={volume}
            name={volume}
            inputmode="decimal"
            autocomplete="off"
            value={typed[volume] ?? dose.plannedVolume}
            aria-describedby={doseId}
          />
          <span class="u">{dose.unit}</span>
        </span>
        {fieldFault(faults[volume])}
      </div>
      <p class="dose" id={doseId} role="status" safe>
        {`Measure out ${dose.plannedDose}.`}
      </p>
      <details class="how" open={(typed[amount] ?? '') !== '' || (typed[lot] ?? '') !== ''}>
        <summary>Lot and amount</summary>
        <div class="f">
          <label for={lot}>Lot on the label</label>
          <span class="inp">
            <input
              id={lot}
              name={lot}
              autocomplete="off"
              maxlength="60"
              value={typed[lot] ?? ''}
              data-lot={dose.product}
            />
          </span>
          {fieldFault(faults[lot])}
        </div>
        <div class="f">
          <label for={amount}>Put in, if not the dose above</label>
          <span class={faults[amount] ? 'inp wrong' : 'inp'}>
            <input id={amount} name={amount} inputmode="decimal" autocomplete="off" value={typed[amount] ?? ''} />
            <span class="u">g</span>
          </span>
          {fieldFault(faults[amount])}
        </div>
      </details>
    </fieldset>
  );
}

function notAll(view: VisitPageView, card: TaskCard): JSX.Element {
  const { typed, faults } = view;
  const share = taskField(card.taskId, 'share');
  const remark = taskField(card.taskId, 'remark');
  const askedAbove = card.chemicals.map((dose, index) => volumeField(card, index, dose.quantity.basis.of));
  const actuals = card.actuals.filter((field) => !askedAbove.includes(taskField(card.taskId, field.name)));
  const names = [share, remark, ...actuals.map((field) => taskField(card.taskId, field.name))];
  const isOpen = names.some((name) => (typed[name] ?? '') !== '' || faults[name] !== undefined);
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
      {actuals.map((field) => actualInput(view, card, field))}
      {card.serialOf === 'media' ? serial(view, card, 'Serial number, if new media went in') : ''}
      <div class="f">
        <label for={remark}>What is left, or why not</label>
        <textarea id={remark} name={remark} rows="2" maxlength="2000" safe>
          {typed[remark] ?? ''}
        </textarea>
        {fieldFault(faults[remark])}
      </div>
    </details>
  );
}

function serial({ typed }: VisitPageView, card: TaskCard, label: string): JSX.Element {
  const name = taskField(card.taskId, 'serial');
  return (
    <div class="f">
      <label for={name} safe>
        {label}
      </label>
      <span class="inp">
        <input id={name} name={name} autocomplete="off" maxlength="60" value={typed[name] ?? ''} />
      </span>
    </div>
  );
}

function actualInput({ typed, faults }: VisitPageView, card: TaskCard, field: ActualField): JSX.Element {
  const name = taskField(card.taskId, field.name);
  return (
    <div class="f">
      <label for={name} safe>
        {field.label}
      </label>
      <span class={faults[name] ? 'inp wrong' : 'inp'}>
        <input id={name} name={name} inputmode="decimal" autocomplete="off" value={typed[name] ?? field.planned} />
        <span class="u" safe>
          {field.unit}
        </span>
      </span>
      {fieldFault(faults[name])}
    </div>
  );
}
