import { shortDate } from '../charts/show-date.js';
import { taskMark } from '../charts/task-mark.js';
import { verdictSign } from '../charts/verdict-sign.js';
import { yearWheel } from '../charts/year-wheel.js';
import { areaField, selectField, textField } from '../forms/fields.js';
import { whyNotList } from '../why-not/why-not.view.js';
import { linkPage } from './link-page.js';
import type { MyPondModel, PondPart } from './my-pond.view-model.js';
import { taskParts } from './task-parts.view.js';

export interface MyPondNotes {
  /** What the last act did, and the task it can be taken back for. */
  readonly did: string | null;
  readonly undoTaskId: string | null;
  readonly temperature: { readonly pondId: string; readonly typed: string; readonly fault: string } | null;
  /** A question that could not be kept. */
  readonly saying: {
    readonly pondId: string;
    readonly kind: string;
    readonly said: string;
    readonly fault: string;
  } | null;
  /** Quiet weeks that could not be noted. */
  readonly quiet: { readonly from: string; readonly until: string; readonly fault: string } | null;
}

export const NO_NOTES: MyPondNotes = { did: null, undoTaskId: null, temperature: null, saying: null, quiet: null };

/** All of a homeowner's ponds, without a password and without anything that is not theirs. */
export function myPondPage(model: MyPondModel, path: string, notes: MyPondNotes): string {
  const { ponds } = model;
  return linkPage({
    title: model.heading,
    crumb: model.crumb,
    isDemo: model.isDemo,
    isWide: true,
    scripts: ['read-out', 'why-not'],
    heading: model.heading,
    lead: model.lead,
    children: (
      <>
        {notes.did === null ? '' : didLine(notes.did, notes.undoTaskId, path)}
        {ponds.map((pond) => pondSections(pond, model, path, notes, ponds.length > 1))}
        {askUs(model, path, notes.saying)}
        {wishes(model, path, notes.quiet)}
      </>
    ),
  });
}

function didLine(did: string, undoTaskId: string | null, path: string): JSX.Element {
  return (
    <div class="note did" role="status">
      <span safe>{did}</span>
      {undoTaskId === null ? (
        ''
      ) : (
        <form class="inline" method="post" action={`${path}/tasks/${undoTaskId}/undo`}>
          <button type="submit" class="btn plain">
            Undo
          </button>
        </form>
      )}
    </div>
  );
}

function pondSections(
  pond: PondPart,
  model: MyPondModel,
  path: string,
  notes: MyPondNotes,
  isNamed: boolean,
): JSX.Element {
  return (
    <>
      <section class="week" aria-label={isNamed ? pond.name : 'To do'}>
        {isNamed ? <h2 safe>{pond.name}</h2> : ''}
        {pond.asked.map((task) => (
          <article class="todo">
            {isNamed ? <h3 safe>{task.title}</h3> : <h2 safe>{task.title}</h2>}
            {taskParts(task)}
            <div class="acts">
              <form class="inline" method="post" action={`${path}/tasks/${task.id}/done`}>
                <button type="submit" class="btn first">
                  Done
                </button>
              </form>
              <a class="btn" href={`${path}/tasks/${task.id}/not-now`}>
                Not now
              </a>
            </div>
          </article>
        ))}
        {pond.nothingToDo === null ? (
          ''
        ) : (
          <p class="empty">
            <b>Nothing waits here.</b>
            <span safe>{pond.nothingToDo}</span>
          </p>
        )}
        {routineLines(pond)}
      </section>
      {yearSection(pond)}
      {threeColumns(pond, model, path, notes)}
    </>
  );
}

function routineLines({ routine }: PondPart): JSX.Element | '' {
  if (routine.length === 0) return '';
  return (
    <div class="routine">
      <h3>Every week</h3>
      <dl class="facts">
        {routine.map(({ title, amounts }) => (
          <>
            <dt safe>{title}</dt>
            <dd safe>{amounts.join(' ')}</dd>
          </>
        ))}
      </dl>
    </div>
  );
}

function yearSection(pond: PondPart): JSX.Element | '' {
  if (pond.wheel === null && pond.comingUp.length === 0) return '';
  return (
    <section class="twin">
      <div class="wheelbox">
        {pond.wheel === null ? '' : yearWheel(pond.wheel)}
        {pond.yearWords.length === 0 ? (
          ''
        ) : (
          <div class="words">
            <h3>The year in words</h3>
            {pond.yearWords.map((sentence) => (
              <p safe>{sentence}</p>
            ))}
          </div>
        )}
      </div>
      <div>
        <h2>What comes next</h2>
        {pond.visits.map(({ when, what }) => (
          <p class="visit-line">
            <b safe>{`${when}.`}</b> <span safe>{what}</span>
          </p>
        ))}
        <ol class="key">
          {pond.comingUp.map((task) => (
            <li>
              {taskMark(task)}
              <span>
                <span safe>{task.title}</span>
                <span class="vh">{task.doneBy === 'technician' ? ', our work' : ', yours'}</span>
              </span>
              <span class="d" safe>
                {shortDate(task.due)}
              </span>
            </li>
          ))}
        </ol>
        <p class="fine">A square is our work, a circle is yours. Dates follow the water and may move by some days.</p>
        {whyNotList(pond.whyNot, {
          id: `why-not-${pond.id.slice(-6)}`,
          lead: 'Care of yours that has no date now, and the reason.',
        })}
        {pond.conflicts.map((sentence) => (
          <p class="fine" safe>
            {sentence}
          </p>
        ))}
      </div>
    </section>
  );
}

function threeColumns(pond: PondPart, model: MyPondModel, path: string, notes: MyPondNotes): JSX.Element {
  const typed = notes.temperature?.pondId === pond.id ? notes.temperature : null;
  return (
    <section class="cols3">
      <div>
        <h2>Log a temperature</h2>
        <form method="post" action={`${path}/ponds/${pond.id}/temperature`}>
          {textField({
            name: 'temperature',
            label: 'Water, one foot down',
            value: typed?.typed ?? '',
            unit: model.units === 'us' ? '°F' : '°C',
            inputmode: 'decimal',
            required: true,
            hint: 'Six a year make your dates much sharper.',
            fault: typed?.fault,
          })}
          <p class="gap">
            <button type="submit" class="btn">
              Save
            </button>
          </p>
        </form>
      </div>
      <div>
        <h2>Last readings</h2>
        {pond.readings.length === 0 ? (
          <p class="empty">
            <b>No reading yet.</b>
            <span>What you log and what we measure on visits stands here.</span>
          </p>
        ) : (
          <dl class="facts">
            {pond.readings.map((reading) => (
              <>
                <dt>
                  <span safe>{reading.name}</span>
                  <small safe>{reading.takenOn}</small>
                </dt>
                <dd safe>{reading.value}</dd>
                <dd class="wide">
                  {verdictSign(reading.level === 'not-judged' ? 'in-order' : reading.level, reading.meaning)}
                </dd>
              </>
            ))}
          </dl>
        )}
      </div>
      <div>
        <h2>Last visit</h2>
        {pond.lastVisit === null ? (
          <p class="empty">
            <b>No visit yet.</b>
            <span>After a visit its report stands here.</span>
          </p>
        ) : (
          <dl class="facts">
            <dt>
              <span safe>{pond.lastVisit.words}</span>
              <small safe>{pond.lastVisit.works}</small>
            </dt>
            <dd>
              <a href={`${path}/visits/${pond.lastVisit.visitId}`}>Report</a>
            </dd>
          </dl>
        )}
      </div>
    </section>
  );
}

function askUs({ ponds }: MyPondModel, path: string, typed: MyPondNotes['saying']): JSX.Element {
  const [first] = ponds;
  return (
    <section id="ask">
      <h2>Ask us</h2>
      <p class="q">A question, or the wish that we come and look. We answer by phone or mail.</p>
      <form class="slip-form" method="post" action={`${path}/words`}>
        {ponds.length === 1 && first ? (
          <input type="hidden" name="pondId" value={first.id} />
        ) : (
          selectField({
            name: 'pondId',
            label: 'Pond',
            value: typed?.pondId ?? first?.id ?? '',
            options: ponds.map(({ id, name }) => ({ value: id, label: name })),
          })
        )}
        {areaField({
          name: 'said',
          label: 'What is it about?',
          value: typed?.said ?? '',
          ...(typed && { fault: typed.fault }),
        })}
        <p class="acts">
          <button type="submit" class="btn first" name="kind" value="question">
            Ask
          </button>
          <button type="submit" class="btn" name="kind" value="visit-wish">
            Ask for a visit
          </button>
        </p>
      </form>
    </section>
  );
}

function wishes({ wishes: wish, units }: MyPondModel, path: string, typed: MyPondNotes['quiet']): JSX.Element {
  return (
    <section id="wishes">
      <h2>Your wishes</h2>
      <p class="q" safe>
        {wish.words}
      </p>
      <form class="wish-form" method="post" action={`${path}/wishes`}>
        {selectField({ name: 'weekday', label: 'Day of the mail', value: wish.weekday, options: wish.weekdays })}
        {selectField({ name: 'hour', label: 'Hour', value: wish.hour, options: wish.hours })}
        {selectField({
          name: 'units',
          label: 'Figures in',
          value: units,
          options: [
            { value: 'us', label: 'gallons, °F, ounces' },
            { value: 'metric', label: 'litres, °C, grams' },
          ],
        })}
        {textField({
          name: 'quietFrom',
          label: 'No weekly mail from',
          type: 'date',
          value: typed?.from ?? wish.quietFrom,
          ...(typed && { fault: typed.fault }),
        })}
        {textField({ name: 'quietUntil', label: 'until', type: 'date', value: typed?.until ?? wish.quietUntil })}
        <button type="submit" class="btn">
          Save my wishes
        </button>
      </form>
      <p class="fine">For holidays: on these days only what cannot wait still comes. Leave both empty for none.</p>
      <p class="gap">
        <a href={`${path}/calendar`}>Pond dates in my own calendar</a>
      </p>
    </section>
  );
}
