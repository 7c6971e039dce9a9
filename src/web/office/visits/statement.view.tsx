import type { Actor } from '../../../accounts/index.js';
import { textField } from '../../forms/fields.js';
import { formToken, page } from '../../shell/layout.js';
import type { ShelfLine, StatementModel } from './statement.view-model.js';

export function statementPage(actor: Actor, model: StatementModel, did: string | null): string {
  return page({
    title: `Hours and parts, ${model.title}`,
    actor,
    current: '/visits',
    undo: did === null ? null : { text: did },
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/visits">Visits</a>
              {'\u00a0 '}
              <a href={model.before}>Month before</a>
              {'\u00a0 '}
              <a href={model.after}>Month after</a>
            </p>
            <h1 safe>{`Hours and parts, ${model.title}`}</h1>
            <p class="lead" safe>
              {model.sentence}
            </p>
          </div>
          <div class="acts">
            <a class="btn" href={model.csv}>
              CSV for the accounts
            </a>
          </div>
        </div>
        {model.visits.length === 0 ? '' : sums(model)}
        {model.visits.length === 0 ? '' : visits(model)}
        {shelf(actor, model)}
      </>
    ),
  });
}

function sums(model: StatementModel): JSX.Element {
  return (
    <div class="record">
      <section aria-labelledby="hours-title">
        <h2 id="hours-title">Hours</h2>
        <dl class="facts">
          {model.people.map(({ name, visits: count, hours }) => (
            <>
              <dt safe>{name}</dt>
              <dd safe>{`${hours}, ${count === '1' ? 'one visit' : `${count} visits`}`}</dd>
            </>
          ))}
        </dl>
      </section>
      <section aria-labelledby="parts-title">
        <h2 id="parts-title">Parts and products</h2>
        {model.parts.length === 0 ? <p class="q">None were used.</p> : ''}
        <dl class="facts">
          {model.parts.map(({ name, amount }) => (
            <>
              <dt safe>{name}</dt>
              <dd safe>{amount}</dd>
            </>
          ))}
        </dl>
      </section>
    </div>
  );
}

function visits(model: StatementModel): JSX.Element {
  return (
    <section class="scroll gap" tabindex="0" aria-label="Closed visits of the month">
      <table class="list visits">
        <thead>
          <tr>
            <th scope="col">Day</th>
            <th scope="col">Pond</th>
            <th scope="col">Who</th>
            <th scope="col">On site</th>
            <th scope="col">Used</th>
          </tr>
        </thead>
        <tbody>
          {model.visits.map((visit) => (
            <tr>
              <td class="num" safe>
                {visit.day}
              </td>
              <th scope="row">
                <a href={visit.href} safe>
                  {visit.pond}
                </a>
              </th>
              <td safe>{visit.who}</td>
              <td>
                <span safe>{visit.time}</span>
                {visit.isPlannedTime ? <small class="q">as planned</small> : ''}
              </td>
              <td class="wide" safe>
                {visit.parts}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function shelf(actor: Actor, model: StatementModel): JSX.Element {
  const field = (name: string) => ({
    name,
    value: model.typed[name] ?? '',
    ...(model.faults[name] && { fault: model.faults[name] }),
  });
  return (
    <section id="shelf" aria-labelledby="shelf-title">
      <div class="sec">
        <h2 id="shelf-title">The shelf</h2>
        <span class="fine">
          What technicians choose from when they close a visit. A closed visit takes from what is counted.
        </span>
      </div>
      {model.shelf.length === 0 ? (
        <p class="empty">
          <b>The shelf is empty.</b>
          Put the lamps, media and products on it that your crew carries.
        </p>
      ) : (
        <ul class="rows people">{model.shelf.map((line) => shelfRow(actor, line))}</ul>
      )}
      <form method="post" action="/visits/statement/shelf#shelf" class="settings">
        {formToken(actor)}
        <fieldset>
          <legend>
            Add a part<small>or a product</small>
          </legend>
          <div>
            {textField({ ...field('name'), label: 'Name', width: 'c6', required: true, autocomplete: 'off' })}
            {textField({ ...field('unit'), label: 'Counted in', width: 'c3', required: true, hint: 'piece, g, L, m' })}
            {textField({ ...field('partRef'), label: 'Your number for it', width: 'c3' })}
            {textField({ ...field('onHand'), label: 'There now', width: 'c3', hint: 'Empty where nobody counts.' })}
            {textField({ ...field('leadDays'), label: 'Days to get it', width: 'c3' })}
            <p class="c6">
              <button type="submit" class="btn">
                Put it on the shelf
              </button>
            </p>
          </div>
        </fieldset>
      </form>
    </section>
  );
}

function shelfRow(actor: Actor, line: ShelfLine): JSX.Element {
  const kept = { name: line.name, partRef: line.partRef, unit: line.unit, leadDays: line.leadDays };
  return (
    <li>
      <div>
        <span class="t" safe>
          {line.name}
        </span>
        <p class={line.isOut ? 'fine act' : 'fine'} safe>
          {[line.partRef, line.words].filter(Boolean).join(', ')}
        </p>
      </div>
      <form method="post" action={`/visits/statement/shelf/${line.id}#shelf`} class="inline-form">
        {formToken(actor)}
        {Object.entries(kept).map(([name, value]) => (
          <input type="hidden" name={name} value={value} />
        ))}
        <div class="f">
          <label for={`on-hand-${line.id}`} safe>{`There now, ${line.unit}`}</label>
          <span class="inp">
            <input id={`on-hand-${line.id}`} name="onHand" inputmode="decimal" value={line.onHand} autocomplete="off" />
          </span>
        </div>
        <button type="submit" class="btn" name="then" value="save" aria-label={`Save the count of ${line.name}`}>
          Save
        </button>
        <button
          type="submit"
          class="btn plain"
          name="then"
          value="take-off"
          aria-label={`Take ${line.name} off the shelf`}
        >
          Take off
        </button>
      </form>
      <span />
    </li>
  );
}
