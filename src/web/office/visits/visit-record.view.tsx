import type { Actor } from '../../../accounts/index.js';
import { page } from '../../shell/layout.js';
import { saidReading } from '../../technician/said-reading.view.js';
import { correction, leavings, trail } from './visit-leavings.view.js';
import type { VisitRecordModel } from './visit-record.view-model.js';
import { publish, stepForm, steps } from './visit-steps.view.js';

export function visitRecordPage(actor: Actor, model: VisitRecordModel, did: string | null): string {
  return page({
    title: `Visit at ${model.pond.name}`,
    actor,
    current: '/visits',
    scripts: ['print-page'],
    undo: did === null ? null : { text: did },
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/visits">Visits</a>
              {'\u00a0 '}
              <a href={`/ponds/${model.pond.id}`} safe>
                {model.pond.name}
              </a>
            </p>
            <h1 safe>{`${model.pond.name}, ${model.stateWord}`}</h1>
            <p class="lead" safe>
              {model.sentence}
            </p>
            <p class="fine" safe>
              {model.pond.address}
            </p>
          </div>
          <div class="acts">
            <button type="button" class="btn" data-print hidden>
              Print
            </button>
            {model.reportHref === null ? (
              ''
            ) : (
              <a class="btn" href={model.reportHref}>
                Report as PDF
              </a>
            )}
            {model.may.publish ? publish(actor, model) : ''}
          </div>
        </div>
        {model.alerts.map((alert) => (
          <p class="note act gap" safe>
            {alert}
          </p>
        ))}
        {model.isFlagged ? settleFlags(actor, model) : ''}
        {wholeFault(model)}
        <div class="record">
          <div>
            {tasks(actor, model)}
            {readings(model)}
            {leavings(actor, model)}
            {closings(model)}
            {correction(actor, model)}
            {trail(model)}
          </div>
          <aside aria-label="This visit">
            {facts(model)}
            {steps(actor, model)}
          </aside>
        </div>
      </>
    ),
  });
}

function settleFlags(actor: Actor, model: VisitRecordModel): JSX.Element {
  return stepForm(
    actor,
    model,
    'flags-settled',
    <p>
      <button type="submit" class="btn">
        I have looked at it
      </button>
    </p>,
  );
}

function wholeFault({ faults }: VisitRecordModel): JSX.Element {
  const sentence = faults?.fields[''];
  return sentence === undefined ? (
    ''
  ) : (
    <p class="note act gap" role="alert" safe>
      {sentence}
    </p>
  );
}

function tasks(actor: Actor, model: VisitRecordModel): JSX.Element {
  return (
    <section>
      <h2>Tasks</h2>
      {model.tasks.length === 0 ? (
        <p class="empty">
          <b>No task is planned.</b>
          Somebody comes, looks and tests the water.
        </p>
      ) : (
        <ul class="record-tasks">
          {model.tasks.map((task) => (
            <li>
              <div>
                <b safe>{task.title}</b>
                {task.quantities.map((quantity) => (
                  <span class="q" safe>
                    {quantity}
                  </span>
                ))}
                {task.remark === '' ? (
                  ''
                ) : (
                  <span class="q" safe>
                    {task.remark}
                  </span>
                )}
              </div>
              <span class="d" safe>
                {task.outcome === '' ? task.window : task.outcome}
              </span>
              {model.may.removeTask ? takeOff(actor, model, task.id, task.title) : ''}
            </li>
          ))}
        </ul>
      )}
      {model.may.addTask && model.addable.length > 0 ? addTask(actor, model) : ''}
    </section>
  );
}

function takeOff(actor: Actor, model: VisitRecordModel, taskId: string, title: string): JSX.Element {
  return stepForm(
    actor,
    model,
    `tasks/${taskId}/removal`,
    <button type="submit" class="btn plain" aria-label={`Take off: ${title}`}>
      Take off
    </button>,
  );
}

function addTask(actor: Actor, model: VisitRecordModel): JSX.Element {
  return stepForm(
    actor,
    model,
    'tasks',
    <div class="inline-form">
      <div class="f">
        <label for="taskId">Take another task along</label>
        <span class="inp">
          <select id="taskId" name="taskId">
            {model.addable.map((task) => (
              <option value={task.value} safe>
                {task.label}
              </option>
            ))}
          </select>
        </span>
      </div>
      <button type="submit" class="btn">
        Add it
      </button>
    </div>,
  );
}

function readings({ readings: rows }: VisitRecordModel): JSX.Element {
  if (rows.length === 0) return '';
  return (
    <section>
      <h2>Readings</h2>
      <dl class="facts stacked">
        {rows.map((reading) => (
          <>
            <dt safe>{`${reading.label}: ${reading.shown}`}</dt>
            <dd>{saidReading(reading.said)}</dd>
          </>
        ))}
      </dl>
    </section>
  );
}

function closings({ closings: versions }: VisitRecordModel): JSX.Element {
  if (versions.length === 0) return '';
  return (
    <section>
      <h2>{versions.length === 1 ? 'Closing' : 'Closings, every version'}</h2>
      {versions.map((closing) => (
        <article class="version">
          <h3 safe>{closing.title}</h3>
          {closing.note === '' ? (
            ''
          ) : (
            <p class="typed" safe>
              {closing.note}
            </p>
          )}
          <ul class="fine">
            {closing.lines.map((line) => (
              <li safe>{line}</li>
            ))}
          </ul>
          {closing.flags.map((flag) => (
            <p class="fine act" safe>
              {flag}
            </p>
          ))}
          {closing.reopened === null ? (
            ''
          ) : (
            <p class="note" safe>
              {closing.reopened}
            </p>
          )}
        </article>
      ))}
    </section>
  );
}

function facts({ facts: rows }: VisitRecordModel): JSX.Element {
  return (
    <dl class="facts stacked">
      {rows.map((fact) => (
        <>
          <dt safe>{fact.term}</dt>
          <dd safe>{fact.words}</dd>
        </>
      ))}
    </dl>
  );
}
