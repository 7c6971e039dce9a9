import type { Actor } from '../../../../accounts/index.js';
import { civilDay } from '../../../../core/units/civil-day.js';
import { taskMark } from '../../../charts/task-mark.js';
import { windowBar } from '../../../charts/window-bar.js';
import { formToken } from '../../../shell/layout.js';
import { whyNotList } from '../../../why-not/why-not.view.js';
import type { CalendarEntry, CalendarGroup } from './calendar.view-model.js';
import { laterTimes } from './later.view.js';
import type { PondPageModel } from './pond-page.view-model.js';

/** Whole groups are shown until this many tasks stand there; the rest of the year is one press away. */
const TASKS_SHOWN = 10;

export function careCalendar(actor: Actor, model: PondPageModel): JSX.Element {
  const { near, later } = split(model.calendar);
  const laterCount = later.reduce((sum, { entries }) => sum + entries.length, 0);
  return (
    <>
      <div class="sec">
        <h2 id="calendar">Care calendar</h2>
        <span class="fine">The coming twelve months</span>
      </div>
      {model.calendar.length === 0 ? (
        <p class="empty">
          <b>Nothing is due.</b>
          {model.isArchived
            ? 'An archived pond is not planned.'
            : 'Tasks appear here with their windows as soon as the pond is planned.'}
        </p>
      ) : (
        <>
          {groups(actor, near, model.today)}
          {later.length > 0 ? (
            <details class="later">
              <summary safe>{`${laterCount} more tasks in the year`}</summary>
              {groups(actor, later, model.today)}
            </details>
          ) : (
            ''
          )}
        </>
      )}
      {laterTimes(model.later)}
      {model.conflicts.length > 0 ? conflicts(model.conflicts) : ''}
      {whyNotList(model.notDue, {
        id: 'why-not',
        lead: 'Care that this pond does not get, or not now, and the reason.',
      })}
    </>
  );
}

function split(calendar: readonly CalendarGroup[]): {
  near: readonly CalendarGroup[];
  later: readonly CalendarGroup[];
} {
  let shown = 0;
  const cut = calendar.findIndex(({ entries }) => {
    const isEnough = shown >= TASKS_SHOWN;
    shown += entries.length;
    return isEnough;
  });
  return cut === -1 ? { near: calendar, later: [] } : { near: calendar.slice(0, cut), later: calendar.slice(cut) };
}

function groups(actor: Actor, calendar: readonly CalendarGroup[], today: string): JSX.Element {
  return (
    <ol class="tasks">
      {calendar.map(({ title, entries }) => (
        <>
          <li class="season">
            <h3 safe>{title}</h3>
          </li>
          {entries.map((entry) => taskRow(actor, entry, today))}
        </>
      ))}
    </ol>
  );
}

function taskRow(actor: Actor, entry: CalendarEntry, today: string): JSX.Element {
  const { mark } = entry;
  return (
    <li id={`task-${entry.id}`}>
      <div class="b">{taskMark({ ...mark, needsAction: mark.needsAction || entry.isLate })}</div>
      <div class="t" safe>
        {entry.title}
      </div>
      <div class="d" safe>
        {entry.due}
      </div>
      {windowBar({ ...mark, needsAction: mark.needsAction || entry.isLate, today: civilDay(today) })}
      <details class="why">
        <summary>
          {mark.needsAction || entry.isLate ? (
            <span class="act-note" safe>
              {`${entry.isLate ? 'Late' : 'Needs action'}, ${entry.window}`}
            </span>
          ) : (
            <span safe>{entry.window}</span>
          )}
          <u>Why</u>
          <span class="vh" safe>
            {`: ${entry.title}`}
          </span>
        </summary>
        <div class="box">
          <p safe>{entry.why}</p>
          {entry.amounts.map((amount) => (
            <p class="amount" safe>
              {amount}
            </p>
          ))}
          <dl>
            {entry.lines.map((line) => (
              <>
                <dt safe>{line.name}</dt>
                <dd safe>{line.value}</dd>
              </>
            ))}
            <dt>Worked out by</dt>
            <dd>
              <span safe>{entry.formula}</span>
              {lookUp(entry)}
            </dd>
            {entry.confidence ? (
              <>
                <dt>Comes due in</dt>
                <dd safe>{entry.confidence}</dd>
              </>
            ) : (
              ''
            )}
            <dt>Source</dt>
            <dd safe>{entry.source}</dd>
            {entry.wouldChangeIf ? (
              <>
                <dt>It would change if</dt>
                <dd safe>{entry.wouldChangeIf}</dd>
              </>
            ) : (
              ''
            )}
          </dl>
          {taskActs(actor, entry)}
        </div>
      </details>
    </li>
  );
}

function lookUp({ lookUp: links, title }: CalendarEntry): JSX.Element {
  return (
    <ul class="look-up" aria-label={`How it is computed: ${title}`}>
      {links.map(({ href, words }) => (
        <li>
          <a href={href} safe>
            {words}
          </a>
        </li>
      ))}
    </ul>
  );
}

function taskActs(actor: Actor, entry: CalendarEntry): JSX.Element {
  const { acts, title } = entry;
  const id = `on-${entry.id}`;
  const holdId = `hold-${entry.id}`;
  return (
    <div class="task-acts">
      {acts.mayComplete ? (
        <form method="post" action={`${acts.address}/completion`}>
          {formToken(actor)}
          <label for={id}>Done on</label>
          <span class="inp">
            <input id={id} type="date" name="on" value={acts.today} max={acts.today} required />
          </span>
          <button type="submit" class="btn" name="because" value="done" aria-label={`Mark done: ${title}`}>
            Mark done
          </button>
          <button
            type="submit"
            class="btn plain"
            name="because"
            value="done-by-other-means"
            aria-label={`Done by other means: ${title}`}
          >
            Done by other means
          </button>
        </form>
      ) : (
        ''
      )}
      {acts.mayComplete ? (
        <form method="post" action={`${acts.address}/hold`}>
          {formToken(actor)}
          <label for={holdId}>Day</label>
          <span class="inp">
            <input id={holdId} type="date" name="on" value={acts.heldOn} min={acts.today} required />
          </span>
          <button type="submit" class="btn" aria-label={`Set this day: ${title}`}>
            Set this day
          </button>
          {acts.isHeld ? (
            <button
              type="submit"
              class="btn plain"
              formaction={`${acts.address}/release`}
              formnovalidate
              aria-label={`Release the day: ${title}`}
            >
              Release the day
            </button>
          ) : (
            ''
          )}
        </form>
      ) : (
        ''
      )}
      <form method="post" action={`${acts.address}/cancellation`}>
        {formToken(actor)}
        <button
          type="submit"
          class="btn plain"
          name="because"
          value="not-applicable"
          aria-label={`Not applicable here: ${title}`}
        >
          Not applicable here
        </button>
      </form>
    </div>
  );
}

function conflicts(sentences: readonly string[]): JSX.Element {
  return (
    <details class="why gap">
      <summary>
        <u>What could not be arranged as the rules wish</u>
      </summary>
      <div class="box">
        <ul>
          {sentences.map((sentence) => (
            <li safe>{sentence}</li>
          ))}
        </ul>
      </div>
    </details>
  );
}
