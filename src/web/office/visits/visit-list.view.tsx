import type { Actor } from '../../../accounts/index.js';
import { page } from '../../shell/layout.js';
import { choices, emptyList, pager } from '../../shell/list-parts.js';
import type { VisitLine, VisitListModel } from './visit-list.view-model.js';

export function visitListPage(actor: Actor, model: VisitListModel): string {
  return page({
    title: 'Visits',
    actor,
    current: '/visits',
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href={model.before}>Week before</a>
              {'\u00a0 '}
              <span safe>{model.week}</span>
              {'\u00a0 '}
              <a href={model.after}>Week after</a>
              {model.thisWeek === null ? '' : '\u00a0 '}
              {model.thisWeek === null ? '' : <a href={model.thisWeek}>This week</a>}
            </p>
            <h1>Visits</h1>
            <p class="lead" safe>
              {model.sentence}
            </p>
            <p class="fine">
              <a href="/visits/statement">Hours and parts of a month</a>
              {'\u00a0 '}
              <a href={model.exports.csv}>This list as CSV</a>
              {'\u00a0 '}
              <a href={model.exports.json}>as JSON</a>
              {'\u00a0 '}
              <a href="/own-calendar">Visits in your own calendar</a>
            </p>
          </div>
          <div class="acts">
            <a class="btn first" href="/visits/plan">
              Plan visits
            </a>
          </div>
        </div>
        {filters(model)}
        {model.empty === null ? table(model) : emptyList(model.empty)}
        {model.pages === null ? '' : pager(model.pages)}
      </>
    ),
  });
}

function filters(model: VisitListModel): JSX.Element {
  return (
    <form class="filters" method="get" action="/visits" aria-label="Filter visits">
      {Object.entries(model.kept).map(([name, value]) => (
        <input type="hidden" name={name} value={value} />
      ))}
      <div class="f">
        <label for="search">Search</label>
        <span class="inp">
          <input id="search" name="search" type="search" value={model.search} placeholder="Pond or town" />
        </span>
      </div>
      <div class="f day">
        <label for="from">From</label>
        <span class="inp">
          <input id="from" name="from" type="date" value={model.from} />
        </span>
      </div>
      <div class="f day">
        <label for="to">to</label>
        <span class="inp">
          <input id="to" name="to" type="date" value={model.to} />
        </span>
      </div>
      <button type="submit" class="btn">
        Search
      </button>
      <p class="fine states">
        <span class="choices">Visits {choices(model.states)}</span>
        <span class="choices">of {choices(model.people)}</span>
      </p>
    </form>
  );
}

function table(model: VisitListModel): JSX.Element {
  return (
    <section class="scroll" tabindex="0" aria-label="Visits of the week">
      <table class="list visits told">
        <thead>
          <tr>
            <th scope="col">Told</th>
            <th scope="col">Pond</th>
            <th scope="col">To do</th>
            <th scope="col">Who</th>
            <th scope="col">State</th>
          </tr>
        </thead>
        {model.days.map((day) => (
          <tbody>
            <tr class="day">
              <th scope="rowgroup" colspan="5">
                <span safe>{day.title}</span>
                {day.isToday ? <span class="q"> today</span> : ''}
              </th>
            </tr>
            {day.rows.map(line)}
          </tbody>
        ))}
      </table>
    </section>
  );
}

function line(visit: VisitLine): JSX.Element {
  return (
    <tr>
      <td class="num" safe>
        {visit.told}
      </td>
      <th scope="row">
        <a href={visit.href} safe>
          {visit.pondName}
        </a>
        <small class="q" safe>
          {visit.town}
        </small>
      </th>
      <td class="wide">
        <span safe>{visit.tasks}</span>
        <small class="q" safe>
          {visit.minutes}
        </small>
      </td>
      <td class={visit.isUnassigned ? 'act' : undefined} safe>
        {visit.who}
      </td>
      <td>
        <span safe>{visit.stateWord}</span>
        {visit.isOutsideWindow ? <small class="act">outside a window</small> : ''}
        {visit.isFlagged ? <small class="act">look at the closing</small> : ''}
      </td>
    </tr>
  );
}
