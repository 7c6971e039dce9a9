import type { Actor } from '../../../accounts/index.js';
import { formToken, page } from '../../shell/layout.js';
import type { DecisionGroup, DecisionRow, WeekModel } from './week.view-model.js';

/** Rows shown at once; the others stand in a disclosure beneath. */
const ROWS_SHOWN = 10;

/** @param settledId What was just settled, so that it can be taken back. */
export function weekPage(actor: Actor, model: WeekModel, settledId: string | null): string {
  return page({
    title: 'This week',
    actor,
    current: '/',
    undo: settledId === null ? null : { text: 'Settled.', action: `/homeowner-words/${settledId}/unsettling` },
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb" safe>
              {model.days}
            </p>
            <h1>This week</h1>
            <p class="lead" safe>
              {model.lead}
            </p>
          </div>
          <div class="acts">
            <a class="btn" href="/ponds/new">
              Add a pond
            </a>
            <a class="btn first" href="/visits/plan">
              Plan the visits
            </a>
          </div>
        </div>
        {model.groups.map((one) => group(actor, one))}
      </>
    ),
  });
}

function group(actor: Actor, { title, sentence, rows, empty }: DecisionGroup): JSX.Element {
  const id = `group-${title.toLowerCase().replaceAll(' ', '-')}`;
  const rest = rows.slice(ROWS_SHOWN);
  return (
    <div class="decide">
      <div>
        <h2 id={id} safe>
          {title}
        </h2>
        {rows.length > 0 ? (
          <p class="fine" safe>
            {rows.length > ROWS_SHOWN ? `${sentence} ${rows.length} in all.` : sentence}
          </p>
        ) : (
          ''
        )}
      </div>
      {rows.length === 0 ? (
        <p class="empty">
          <b>Nothing waits here.</b>
          <span safe>{empty}</span>
        </p>
      ) : (
        <div>
          <ul class="rows" aria-labelledby={id}>
            {rows.slice(0, ROWS_SHOWN).map((one) => row(actor, one))}
          </ul>
          {rest.length > 0 ? (
            <details class="why more-rows">
              <summary>
                <u safe>{`${rest.length} more`}</u>
                <span class="vh" safe>
                  {` under ${title}`}
                </span>
              </summary>
              <ul class="rows">{rest.map((one) => row(actor, one))}</ul>
            </details>
          ) : (
            ''
          )}
        </div>
      )}
    </div>
  );
}

function row(actor: Actor, decision: DecisionRow): JSX.Element {
  return (
    <li>
      <div>
        <span class="t" safe>
          {decision.title}
        </span>
        <p class="fine" safe>
          {decision.why}
        </p>
      </div>
      <div class={decision.isLate ? 'by late' : 'by'}>
        <b safe>{decision.by}</b>
        <span safe>{decision.byDetail}</span>
      </div>
      {decision.members ? (
        members(decision, decision.members)
      ) : (
        <div class="row-acts">
          <a class="btn" href={decision.action.href} aria-label={decision.action.name} safe>
            {decision.action.words}
          </a>
          {decision.settle ? (
            <form class="inline" method="post" action={decision.settle.action}>
              {formToken(actor)}
              <button type="submit" class="btn" aria-label={decision.settle.name} safe>
                {decision.settle.words}
              </button>
            </form>
          ) : (
            ''
          )}
        </div>
      )}
    </li>
  );
}

function members({ action }: DecisionRow, ponds: NonNullable<DecisionRow['members']>): JSX.Element {
  return (
    <details class="wave">
      <summary class="btn" aria-label={action.name} safe>
        {action.words}
      </summary>
      <ul>
        {ponds.map((pond) => (
          <li>
            <a href={pond.href} safe>
              {pond.name}
            </a>
            <span class="fine" safe>
              {pond.detail}
            </span>
          </li>
        ))}
      </ul>
    </details>
  );
}
