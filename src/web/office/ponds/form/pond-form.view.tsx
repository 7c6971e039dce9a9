import type { Actor } from '../../../../accounts/index.js';
import { formToken, page } from '../../../shell/layout.js';
import { firstYear } from './first-year.view.js';
import { machineFields } from './form-machinery.view.js';
import { accessFields, agreementFields, contactFields } from './form-people.view.js';
import { fishFields, shapeFields, tapFields, whereFields } from './form-water.view.js';
import type { PondFormModel } from './pond-form.view-model.js';

export function pondFormPage(actor: Actor, model: PondFormModel): string {
  return page({
    title: model.title,
    actor,
    current: '/ponds',
    scripts: ['new-pond'],
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/ponds">Ponds</a>
            </p>
            <h1 safe>{model.title}</h1>
            <p class="lead">In the order you build. What the pond will need through the year appears as you type.</p>
          </div>
          <p class="fine see-year">
            <a href="#first-year">See its year</a>
          </p>
        </div>
        {model.conflict ? conflictNote(model.conflict) : ''}
        {model.faultCount > 0 ? faultNote(model) : ''}
        <div class="form">
          {form(actor, model)}
          <aside class="side" id="first-year" aria-labelledby="first-year-title">
            <h2 id="first-year-title">Its coming twelve months</h2>
            <div id="year" aria-live="polite">
              {firstYear(model.year)}
            </div>
          </aside>
        </div>
      </>
    ),
  });
}

function form(actor: Actor, model: PondFormModel): JSX.Element {
  return (
    <form method="post" action={model.action} id="pond-form" data-preview="/ponds/preview" novalidate>
      {formToken(actor)}
      <input type="hidden" name="id" value={model.typed.id ?? ''} />
      <input type="hidden" name="version" value={model.typed.version ?? ''} />
      {/* The first button of a form is the one Enter presses: saving, not adding a row. */}
      <button type="submit" class="vh" tabindex="-1" safe>
        {model.saveWords}
      </button>
      {whereFields(model)}
      {shapeFields(model)}
      {machineFields(model)}
      {fishFields(model)}
      {tapFields(model)}
      {contactFields(model)}
      {accessFields(model)}
      {agreementFields(model)}
      <p class="acts">
        <button type="submit" class="btn first" safe>
          {model.saveWords}
        </button>
        <button type="submit" class="btn" name="preview" value="yes" formaction={`${model.action}#first-year`}>
          Preview its year
        </button>
        <a class="btn plain" href={model.leaveTo}>
          Leave without saving
        </a>
      </p>
    </form>
  );
}

function faultNote(model: PondFormModel): JSX.Element {
  return (
    <p class="note act gap" role="alert">
      <b safe>{model.faultCount === 1 ? 'One field cannot be used.' : `${model.faultCount} fields cannot be used.`}</b>{' '}
      <span safe>{model.faults[''] ?? 'Nothing was saved, and everything you typed is still here.'}</span>{' '}
      {model.firstFault ? <a href={`#${model.firstFault}`}>Go to the first</a> : ''}
    </p>
  );
}

function conflictNote(conflict: NonNullable<PondFormModel['conflict']>): JSX.Element {
  return (
    <section class="note act" aria-labelledby="conflict-title">
      <h2 id="conflict-title">Somebody else saved this pond while you typed</h2>
      <p safe>{conflict.sentence}</p>
      {conflict.differences.length > 0 ? (
        <section class="scroll gap" tabindex="0" aria-label="Both versions, field by field">
          <table>
            <thead>
              <tr>
                <th scope="col">Field</th>
                <th scope="col">As you typed it</th>
                <th scope="col">As it stands now</th>
              </tr>
            </thead>
            <tbody>
              {conflict.differences.map((difference) => (
                <tr>
                  <th scope="row" safe>
                    {difference.field}
                  </th>
                  <td safe>{difference.yours}</td>
                  <td safe>{difference.theirs}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ) : (
        <p>Both versions say the same.</p>
      )}
    </section>
  );
}
