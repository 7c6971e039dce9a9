import type { Actor } from '../../../accounts/index.js';
import { formToken } from '../../shell/layout.js';
import type { VisitRecordModel } from './visit-record.view-model.js';

/** A form of one step on the visit; it names the version it was looking at. */
export function stepForm(actor: Actor, model: VisitRecordModel, act: string, children: JSX.Element): JSX.Element {
  return (
    <form method="post" action={`/visits/${model.id}/${act}`} class="stack">
      {formToken(actor)}
      <input type="hidden" name="version" value={String(model.version)} />
      {children as 'safe'}
    </form>
  );
}

export function publish(actor: Actor, model: VisitRecordModel): JSX.Element {
  return stepForm(
    actor,
    model,
    'publish',
    <button type="submit" class="btn first">
      Publish the visit
    </button>,
  );
}

/** Give, move, cancel, reopen: what the state allows. */
export function steps(actor: Actor, model: VisitRecordModel): JSX.Element {
  return (
    <div class="steps">
      {model.may.assign ? assign(actor, model) : ''}
      {model.may.move ? move(actor, model) : ''}
      {model.may.cancel ? reason(actor, model, 'cancel', 'Cancel this visit', 'Why', 'Cancel the visit') : ''}
      {model.may.reopen
        ? reason(actor, model, 'reopen', 'Open it again', 'Why. Both versions are kept', 'Open it again')
        : ''}
    </div>
  );
}

function assign(actor: Actor, model: VisitRecordModel): JSX.Element {
  return stepForm(
    actor,
    model,
    'assign',
    <div class="inline-form">
      <div class="f">
        <label for="technicianId">Who goes</label>
        <span class="inp">
          <select id="technicianId" name="technicianId">
            {model.people.map((person) => (
              <option value={person.value} selected={person.value === model.technicianId} safe>
                {person.label}
              </option>
            ))}
          </select>
        </span>
        {fault(model, 'assign', 'technicianId')}
      </div>
      <button type="submit" class="btn">
        Give it
      </button>
    </div>,
  );
}

function move(actor: Actor, model: VisitRecordModel): JSX.Element {
  const input = (name: 'plannedOn' | 'fromTime' | 'toTime', label: string, type: string) => (
    <div class="f">
      <label for={name} safe>
        {label}
      </label>
      <span class="inp">
        <input id={name} name={name} type={type} value={model[name]} required={type === 'date'} />
      </span>
      {fault(model, 'move', name)}
    </div>
  );
  return stepForm(
    actor,
    model,
    'move',
    <>
      <div class="times">
        {input('plannedOn', 'Day', 'date')}
        {input('fromTime', 'Arrival from', 'time')}
        {input('toTime', 'to', 'time')}
      </div>
      <p>
        <button type="submit" class="btn">
          Move it
        </button>
      </p>
    </>,
  );
}

function reason(
  actor: Actor,
  model: VisitRecordModel,
  act: 'cancel' | 'reopen',
  title: string,
  label: string,
  words: string,
): JSX.Element {
  const id = `why-${act}`;
  return (
    <details class="why" open={model.faults?.form === act}>
      <summary>
        <u safe>{title}</u>
      </summary>
      {stepForm(
        actor,
        model,
        act,
        <>
          <div class="f">
            <label for={id} safe>
              {label}
            </label>
            <span class="inp">
              <input id={id} name="why" value={model.typed.why ?? ''} required maxlength="500" autocomplete="off" />
            </span>
            {fault(model, act, 'why')}
          </div>
          <p>
            <button type="submit" class="btn" safe>
              {words}
            </button>
          </p>
        </>,
      )}
    </details>
  );
}

function fault({ faults }: VisitRecordModel, form: string, name: string): JSX.Element {
  const sentence = faults?.form === form ? faults.fields[name] : undefined;
  return sentence === undefined ? (
    ''
  ) : (
    <span class="err" safe>
      {sentence}
    </span>
  );
}
