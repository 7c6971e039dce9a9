import type { Actor } from '../../../accounts/index.js';
import { page } from '../../shell/layout.js';
import { choices, emptyList, pager } from '../../shell/list-parts.js';
import type { PondColumn, PondLine, PondListModel } from './pond-list.view-model.js';

export function pondListPage(actor: Actor, model: PondListModel, undo: { text: string } | null): string {
  return page({
    title: 'Ponds',
    actor,
    current: '/ponds',
    undo,
    children: (
      <>
        <div class="head">
          <div>
            <h1>Ponds</h1>
            <p class="lead" safe>
              {model.sentence}
            </p>
          </div>
          <div class="acts">
            <a class="btn" href="/ponds/import">
              Import a list
            </a>
            <a class="btn" href="/ponds/export.csv" download="ponds.csv">
              Export as CSV
            </a>
            <a class="btn first" href="/ponds/new">
              Add a pond
            </a>
          </div>
        </div>
        <form class="filters" method="get" action="/ponds" aria-label="Search ponds">
          {Object.entries(model.kept).map(([name, value]) => (
            <input type="hidden" name={name} value={value} />
          ))}
          <div class="f">
            <label for="search">Search</label>
            <span class="inp">
              <input
                id="search"
                name="search"
                type="search"
                value={model.search}
                placeholder="Name, street, town, homeowner"
              />
            </span>
          </div>
          <button type="submit" class="btn">
            Search
          </button>
          <p class="fine states">Ponds {choices(model.states)}</p>
        </form>
        {model.empty ? emptyList(model.empty) : table(model)}
        {model.pages ? pager(model.pages) : ''}
      </>
    ),
  });
}

function table(model: PondListModel): JSX.Element {
  return (
    <section class="scroll" tabindex="0" aria-label="Ponds">
      <table class="list told">
        <thead>
          <tr>{model.columns.map(head)}</tr>
        </thead>
        <tbody>{model.rows.map(line)}</tbody>
      </table>
    </section>
  );
}

function head({ words, href, sorted, isNumber }: PondColumn): JSX.Element {
  return (
    <th scope="col" class={isNumber ? 'r' : undefined} aria-sort={sorted ?? undefined}>
      {href ? (
        <a href={href}>
          <span safe>{words}</span>
          {sorted ? <span aria-hidden="true">{sorted === 'ascending' ? ' ↑' : ' ↓'}</span> : ''}
        </a>
      ) : (
        <span safe>{words}</span>
      )}
    </th>
  );
}

function line(pond: PondLine): JSX.Element {
  return (
    <tr>
      <th scope="row">
        <a href={pond.href} safe>
          {pond.name}
        </a>
        {pond.isArchived ? <span class="q"> archived</span> : ''}
        {pond.ref ? (
          <small class="q" safe>
            {pond.ref}
          </small>
        ) : (
          ''
        )}
      </th>
      <td safe>{pond.contact}</td>
      <td safe>{pond.town}</td>
      <td class="r num" safe>
        {pond.volume}
      </td>
      <td safe>{pond.winter}</td>
      <td class="num" safe>
        {pond.careSince}
      </td>
    </tr>
  );
}
