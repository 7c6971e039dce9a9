import type { Actor } from '../../../accounts/index.js';
import { formToken, page } from '../../shell/layout.js';
import { emptyList, pager } from '../../shell/list-parts.js';
import type { PlanForm, PlannedPondModel, VisitPlanModel } from './visit-plan.view-model.js';

export function visitPlanPage(actor: Actor, model: VisitPlanModel): string {
  return page({
    title: 'Plan visits',
    actor,
    current: '/visits',
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/visits">Visits</a>
              {model.onePond === null ? '' : '\u00a0 '}
              {model.onePond === null ? (
                ''
              ) : (
                <a href={`/ponds/${model.onePond.id}`} safe>
                  {model.onePond.name}
                </a>
              )}
            </p>
            <h1>Plan visits</h1>
            <p class="lead" safe>
              {model.sentence}
            </p>
          </div>
        </div>
        {model.ponds.length === 0
          ? emptyList({
              title: 'Nothing waits here.',
              sentence:
                'Tasks a technician does appear in this place when their window comes near, already put together into visits.',
            })
          : model.ponds.map((pond) => pondSection(actor, model, pond))}
        {model.pages === null ? '' : pager(model.pages)}
      </>
    ),
  });
}

function pondSection(actor: Actor, model: VisitPlanModel, pond: PlannedPondModel): JSX.Element {
  return (
    <section class="decide plan-pond">
      <div>
        <h2>
          <a href={`/ponds/${pond.id}`} safe>
            {pond.name}
          </a>
        </h2>
        <p class="fine" safe>
          {pond.town}
        </p>
        <p class="fine" safe>
          {pond.proof}
        </p>
      </div>
      <div class="plan-visits">
        {pond.joins.map((join) => (
          <form method="post" action={join.action} class="inline-form">
            {formToken(actor)}
            <input type="hidden" name="taskId" value={join.taskId} />
            <p safe>{join.words}</p>
            <button type="submit" class="btn" aria-label={join.name}>
              Take it along
            </button>
          </form>
        ))}
        {pond.forms.map((form) => visitForm(actor, model, pond, form))}
      </div>
    </section>
  );
}

function visitForm(actor: Actor, model: VisitPlanModel, pond: PlannedPondModel, form: PlanForm): JSX.Element {
  const { faults } = form;
  const id = (name: string) => `${name}-${form.key}`;
  return (
    <form class="plan-visit" method="post" action="/visits" id={`plan-${form.key}`}>
      {formToken(actor)}
      <input type="hidden" name="pondId" value={pond.id} />
      <input type="hidden" name="key" value={form.key} />
      <h3 safe>{form.title}</h3>
      <p class="fine" safe>
        {form.sentence}
      </p>
      {faults[''] === undefined ? (
        ''
      ) : (
        <p class="note act" role="alert" safe>
          {faults['']}
        </p>
      )}
      {form.tasks.length === 0 ? (
        ''
      ) : (
        <ul class="plan-tasks">
          {form.tasks.map((task) => (
            <li>
              <label>
                <input type="checkbox" name="task" value={task.id} checked={task.isTaken} />
                <span>
                  <b safe>{task.title}</b>{' '}
                  <span class={task.isLate ? 'act' : 'q'} safe>
                    {task.window}
                  </span>
                </span>
              </label>
            </li>
          ))}
        </ul>
      )}
      <div class="plan-fields">
        {field(id('plannedOn'), 'plannedOn', 'Day', 'date', form.plannedOn, faults.plannedOn)}
        {field(id('fromTime'), 'fromTime', 'Arrival from', 'time', form.fromTime, faults.fromTime)}
        {field(id('toTime'), 'toTime', 'to', 'time', form.toTime, faults.toTime)}
        <div class="f">
          <label for={id('technicianId')}>Who goes</label>
          <span class={faults.technicianId ? 'inp wrong' : 'inp'}>
            <select id={id('technicianId')} name="technicianId">
              {model.people.map((person) => (
                <option value={person.value} selected={person.value === form.technicianId} safe>
                  {person.label}
                </option>
              ))}
            </select>
          </span>
          {fault(faults.technicianId)}
        </div>
        <div class="f for-technician">
          <label for={id('note')}>For the technician</label>
          <span class="inp">
            <input id={id('note')} name="note" value={form.note} maxlength="4000" autocomplete="off" />
          </span>
          {fault(faults.note)}
        </div>
        <p class="plan-acts">
          <button type="submit" class="btn" name="then" value="plan">
            Plan it
          </button>
          <button type="submit" class="btn" name="then" value="publish">
            Plan and publish
          </button>
        </p>
      </div>
    </form>
  );
}

function field(
  id: string,
  name: string,
  label: string,
  type: string,
  value: string,
  wrong: string | undefined,
): JSX.Element {
  return (
    <div class="f">
      <label for={id} safe>
        {label}
      </label>
      <span class={wrong ? 'inp wrong' : 'inp'}>
        <input id={id} name={name} type={type} value={value} required={type === 'date'} />
      </span>
      {fault(wrong)}
    </div>
  );
}

function fault(sentence: string | undefined): JSX.Element {
  return sentence === undefined ? (
    ''
  ) : (
    <span class="err" safe>
      {sentence}
    </span>
  );
}
