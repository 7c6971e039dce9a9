import type { Actor } from '../../../accounts/index.js';
import { formToken, page } from '../../shell/layout.js';
import { choices, emptyList, pager } from '../../shell/list-parts.js';
import type { CallLine, MessageLine, MessagesModel } from './messages.view-model.js';

export function messagesPage(actor: Actor, model: MessagesModel): string {
  return page({
    title: 'Messages',
    actor,
    current: '/messages',
    children: (
      <>
        <div class="head">
          <div>
            <h1>Messages</h1>
            <p class="lead" safe>
              {model.sentence}
            </p>
          </div>
          <div class="acts">
            <a class="btn" href="/messages/preview">
              Preview a homeowner's mail
            </a>
            <a class="btn" href="/messages/calls" safe>
              {model.callList}
            </a>
          </div>
        </div>
        {heldNote(model.held)}
        {model.progress ? progressBar(model.progress) : ''}
        {filters(model)}
        {model.empty ? emptyList(model.empty) : table(model.rows)}
        {model.pages ? pager(model.pages) : ''}
        {holdForm(actor, model.holdAct)}
      </>
    ),
  });
}

function heldNote(held: readonly string[]): JSX.Element | '' {
  if (held.length === 0) return '';
  return (
    <div class="note act">
      {held.map((words) => (
        <p safe>{words}</p>
      ))}
    </div>
  );
}

function progressBar({ done, total, words }: NonNullable<MessagesModel['progress']>): JSX.Element {
  return (
    <div class="prog gap">
      <progress max={String(total)} value={String(done)} aria-label="Mails that have left">
        {words as 'safe'}
      </progress>
      <p class="fine">
        <span safe>{words}</span> <a href="/messages">Look again</a>
      </p>
    </div>
  );
}

/** The switch for all mail of the company; what waits meanwhile and is still of use leaves when it is released. */
function holdForm(actor: Actor, act: MessagesModel['holdAct']): JSX.Element | '' {
  if (act === null) return '';
  return (
    <form class="gap hold-mail" method="post" action={`/messages/${act}`}>
      {formToken(actor)}
      <p class="fine">
        {act === 'hold'
          ? 'Holding mail stops all of it, sign-in links too, until you let it go again. Weekly mails missed by more than three days are left out.'
          : 'Mail that is still of use leaves when you let it go; what came too late runs out of time and is listed.'}
      </p>
      <button type="submit" class="btn">
        {act === 'hold' ? 'Hold all mail' : 'Let mail go again'}
      </button>
    </form>
  );
}

function filters(model: MessagesModel): JSX.Element {
  return (
    <form class="filters" method="get" action="/messages" aria-label="Search messages">
      <input type="hidden" name="view" value={model.view} />
      <div class="f">
        <label for="search">Search</label>
        <span class="inp">
          <input id="search" name="search" type="search" value={model.search} placeholder="Name, address, subject" />
        </span>
      </div>
      <div class="f">
        <label for="kind">Kind</label>
        <span class="inp">
          <select id="kind" name="kind">
            {model.kinds.map(({ value, label }) => (
              <option value={value} selected={value === model.kind} safe>
                {label}
              </option>
            ))}
          </select>
        </span>
      </div>
      <button type="submit" class="btn">
        Search
      </button>
      <p class="fine states">Mails {choices(model.views)}</p>
    </form>
  );
}

function table(rows: readonly MessageLine[]): JSX.Element {
  return (
    <section class="scroll" tabindex="0" aria-label="Messages">
      <table class="list mails told">
        <thead>
          <tr>
            <th scope="col">Mail</th>
            <th scope="col">State</th>
            <th scope="col">To</th>
            <th scope="col">Kind</th>
            <th scope="col">Written</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((mail) => (
            <tr>
              <th scope="row">
                <a href={mail.href} safe>
                  {mail.subject}
                </a>
              </th>
              <td>
                <span class={mail.needsAction ? 'look' : undefined} safe>
                  {mail.needsAction ? `▲ ${mail.state}` : mail.state}
                </span>
                {mail.detail === '' ? (
                  ''
                ) : (
                  <small class="q" safe>
                    {mail.detail}
                  </small>
                )}
              </td>
              <td class="wide">
                <span safe>{mail.toName}</span>
                <small class="q" safe>
                  {mail.toAddress}
                </small>
              </td>
              <td safe>{mail.kind}</td>
              <td class="num" safe>
                {mail.when}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

export function callListPage(actor: Actor, rows: readonly CallLine[]): string {
  return page({
    title: 'To call',
    actor,
    current: '/messages',
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/messages">Messages</a>
            </p>
            <h1>To call</h1>
            <p class="lead">These homeowners get no mail. What they have to do is told by phone.</p>
          </div>
        </div>
        {rows.length === 0 ? (
          emptyList({
            title: 'Nobody has to be called.',
            sentence: 'Homeowners without an address, who stopped mail, or whose address refuses it stand here.',
          })
        ) : (
          <section class="scroll" tabindex="0" aria-label="Homeowners to call">
            <table class="list told">
              <thead>
                <tr>
                  <th scope="col">Homeowner</th>
                  <th scope="col">Phone</th>
                  <th scope="col">Pond</th>
                  <th scope="col">To be told this week</th>
                  <th scope="col">Why by phone</th>
                </tr>
              </thead>
              <tbody>
                {rows.map((row) => (
                  <tr>
                    <th scope="row" safe>
                      {row.name}
                    </th>
                    <td class="num" safe>
                      {row.phone}
                    </td>
                    <td>
                      <a href={row.pondHref} safe>
                        {row.pondName}
                      </a>
                    </td>
                    <td class="wide" safe>
                      {row.toTell}
                    </td>
                    <td>
                      <span safe>{row.because}</span>
                      {row.detail === '' ? (
                        ''
                      ) : (
                        <small class="q" safe>
                          {row.detail}
                        </small>
                      )}
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        )}
      </>
    ),
  });
}
