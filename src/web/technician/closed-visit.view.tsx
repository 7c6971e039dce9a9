import type { Actor } from '../../accounts/index.js';
import { BACK_TO_ROUND, phonePage } from './phone.view.js';
import { saidReading } from './said-reading.view.js';
import type { ClosedView } from './visit-page.view-model.js';

/** After the closing: what was kept, in the words the homeowner's report uses too. */
export function closedPage(actor: Actor, view: ClosedView): string {
  return phonePage({
    title: `${view.stop.pondName}, closed`,
    actor,
    back: BACK_TO_ROUND,
    middle: view.position,
    status: 'Sent',
    scripts: ['round'],
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
