import { taskField } from './closing-form.js';
import { fieldFault } from './phone.view.js';
import type { TaskCard } from './task-card.js';
import type { VisitPageView } from './visit-page.view-model.js';

/** The tasks to tick, each with its steps and what to say when it went otherwise. */
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
            {fieldFault(faults[name])}
          </div>
        );
      })}
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
