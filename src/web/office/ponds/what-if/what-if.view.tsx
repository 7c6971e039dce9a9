import type { Actor } from '../../../../accounts/index.js';
import { page } from '../../../shell/layout.js';
import type { FigureRow, TaskRow, WhatIfResult } from './what-if.view-model.js';
import { type WhatIfForm, whatIfFields } from './what-if-form.view.js';

export interface WhatIfPage {
  readonly pondName: string;
  readonly form: WhatIfForm;
  /** Null while nothing is asked, or where it cannot be answered. */
  readonly result: WhatIfResult | null;
}

export function whatIfPage(actor: Actor, { pondName, form, result }: WhatIfPage): string {
  const back = `/ponds/${form.pondId}`;
  const faults = Object.keys(form.faults).length;
  return page({
    title: `What if: ${pondName}`,
    actor,
    current: '/ponds',
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/ponds">Ponds</a> /{' '}
              <a href={back} safe>
                {pondName}
              </a>
            </p>
            <h1>What if …?</h1>
            <p class="lead" safe>
              {result?.lead ?? 'Change what you like and see both years side by side.'}
            </p>
            <p class="fine">Nothing is stored. Leave the page, and all is as it was.</p>
          </div>
          <div class="acts">
            <a class="btn" href={back}>
              Back to the pond as it is
            </a>
          </div>
        </div>
        {faults > 0 ? (
          <p class="note act gap" role="alert">
            <b safe>{faults === 1 ? 'Something cannot be used.' : `${faults} fields cannot be used.`}</b>{' '}
            <span safe>{form.faults[''] ?? 'Everything you typed is still here.'}</span>
          </p>
        ) : (
          ''
        )}
        <section class="gap" aria-label="The question">
          {whatIfFields(form)}
        </section>
        {result ? answer(result) : ''}
      </>
    ),
  });
}

function answer(result: WhatIfResult): JSX.Element {
  return (
    <>
      <section aria-labelledby="loads-title">
        <h2 id="loads-title">Loads and water</h2>
        {result.newFindings.map((finding) => (
          <p class="said act" safe>
            {finding}
          </p>
        ))}
        {result.settled.map((finding) => (
          <p class="said">
            <b>Settled:</b> <span safe>{finding}</span>
          </p>
        ))}
        <table class="list told compare">
          <thead>
            <tr>
              <th scope="col">In the coming year</th>
              <th scope="col">As it stands</th>
              <th scope="col">Changed</th>
            </tr>
          </thead>
          <tbody>{result.figures.map(figureLine)}</tbody>
        </table>
        <p class="fine" safe>
          {result.note}
        </p>
      </section>
      <section aria-labelledby="tasks-title">
        <h2 id="tasks-title">Care</h2>
        {result.tasks.length === 0 ? (
          <p class="empty">
            <b>No task changes.</b>The calendar would be the same.
          </p>
        ) : (
          <table class="list told compare">
            <thead>
              <tr>
                <th scope="col">Task</th>
                <th scope="col">As it stands</th>
                <th scope="col">Changed</th>
                <th scope="col">Difference</th>
              </tr>
            </thead>
            <tbody>{result.tasks.map(taskLine)}</tbody>
          </table>
        )}
        <p class="fine">What is not listed stays as it is. Amounts are those of the next time.</p>
      </section>
    </>
  );
}

function figureLine({ name, before, after, isChanged }: FigureRow): JSX.Element {
  return (
    <tr>
      <th scope="row" safe>
        {name}
      </th>
      <td data-label="As it stands:" safe>
        {before}
      </td>
      <td data-label="Changed:">{isChanged ? <b safe>{after}</b> : <span class="q">the same</span>}</td>
    </tr>
  );
}

function taskLine({ title, before, after, words, isAtHome }: TaskRow): JSX.Element {
  return (
    <tr>
      <th scope="row">
        <span safe>{title}</span>
        <small class="q">{isAtHome ? 'homeowner' : 'technician'}</small>
      </th>
      <td data-label="As it stands:" safe>
        {before}
      </td>
      <td data-label="Changed:" safe>
        {after}
      </td>
      <td data-label="Difference:">
        <b safe>{words}</b>
      </td>
    </tr>
  );
}
