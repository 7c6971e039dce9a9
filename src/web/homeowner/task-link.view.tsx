import { linkPage } from './link-page.js';
import type { TaskLinkModel } from './task-link.view-model.js';
import { taskParts } from './task-parts.view.js';

/** "Done": the page asks, only the button changes anything. */
export function taskDonePage(model: TaskLinkModel, path: string): string {
  const { task, finished, mayUndo } = model;
  if (finished !== null) {
    return linkPage({
      title: task.title,
      crumb: model.crumb,
      isDemo: model.isDemo,
      heading: task.title,
      lead: finished,
      children: mayUndo ? undoForm(path) : '',
    });
  }
  return linkPage({
    title: task.title,
    crumb: model.crumb,
    isDemo: model.isDemo,
    heading: `Done: ${task.title}?`,
    lead: 'Press the button when it is done. The calendar counts from today on.',
    children: (
      <>
        <form class="slip-form" method="post" action={path}>
          <p class="acts">
            <button type="submit" class="btn first">
              Yes, it is done
            </button>
          </p>
        </form>
        <article class="todo">
          <h2>What it was</h2>
          {taskParts(task)}
        </article>
      </>
    ),
  });
}

/** "Not now": always asks when, with days inside the window. */
export function taskNotNowPage(model: TaskLinkModel, path: string, fault: string | null = null): string {
  const { task, finished, putOff, cannotWait, laterDays } = model;
  const lead = finished ?? putOff ?? cannotWait ?? 'When should we ask again? It can wait until the last day offered.';
  const asks = finished === null && cannotWait === null;
  return linkPage({
    title: task.title,
    crumb: model.crumb,
    isDemo: model.isDemo,
    heading: finished === null ? `Not now: ${task.title}` : task.title,
    lead,
    children: (
      <>
        {fault === null ? (
          ''
        ) : (
          <p class="note act" role="alert" safe>
            {fault}
          </p>
        )}
        {asks ? laterForm(path, laterDays, putOff !== null) : ''}
        {finished === null ? (
          <article class="todo">
            <h2>What it is</h2>
            {taskParts(task)}
          </article>
        ) : (
          ''
        )}
      </>
    ),
  });
}

function laterForm(path: string, days: TaskLinkModel['laterDays'], isAgain: boolean): JSX.Element {
  return (
    <form class="slip-form" method="post" action={path} aria-label="When should we ask again?">
      {isAgain ? <p class="q">Another day suits better?</p> : ''}
      <p class="acts">
        {days.map(({ value, label }) => (
          <button type="submit" class="btn" name="until" value={value} safe>
            {label}
          </button>
        ))}
      </p>
    </form>
  );
}

function undoForm(path: string): JSX.Element {
  return (
    <form class="slip-form" method="post" action={`${path}/undo`}>
      <p class="q">Pressed by mistake?</p>
      <p class="acts">
        <button type="submit" class="btn">
          Take it back: it is not done yet
        </button>
      </p>
    </form>
  );
}
