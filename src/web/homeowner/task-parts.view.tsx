import type { TaskOnPage } from './task-link.view-model.js';

/** How much, caution before the steps, steps, why now. */
export function taskParts(task: TaskOnPage): JSX.Element {
  return (
    <>
      <p class="q" safe>
        {task.when}
      </p>
      {task.amounts.map((amount) => (
        <p class="amount" safe>
          {amount}
        </p>
      ))}
      {task.cautions.map((caution) => (
        <div class="caution">
          <svg viewBox="0 0 28 28" aria-hidden="true">
            <path class="o" d="M14 3L26 25H2z" />
            <path class="x" d="M14 11v7M14 21.5v.5" />
          </svg>
          <b safe>{caution.first}</b>
          <span safe>{caution.more.join(' ')}</span>
        </div>
      ))}
      {task.steps.length === 0 ? (
        ''
      ) : (
        <ol class="how">
          {task.steps.map((step) => (
            <li>
              <span safe>{step}</span>
            </li>
          ))}
        </ol>
      )}
      <p class="q" safe>
        {`Why now: ${task.why}`}
      </p>
      {task.wouldChangeIf === '' ? (
        ''
      ) : (
        <p class="fine" safe>
          {`It would change if: ${task.wouldChangeIf}`}
        </p>
      )}
    </>
  );
}
