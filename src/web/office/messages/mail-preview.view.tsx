import type { Actor } from '../../../accounts/index.js';
import { page } from '../../shell/layout.js';
import { emptyList } from '../../shell/list-parts.js';

export interface PreviewListModel {
  readonly search: string;
  readonly total: number;
  readonly rows: readonly { readonly href: string; readonly name: string; readonly ponds: string }[];
}

export interface MailPreviewModel {
  readonly name: string;
  /** Null: there is nothing to tell this week. */
  readonly subject: string | null;
  readonly plainText: string;
  readonly frame: string;
}

export function previewListPage(actor: Actor, { search, total, rows }: PreviewListModel): string {
  const more = total > rows.length ? ` The first ${rows.length} are shown: search for others.` : '';
  return page({
    title: "Preview a homeowner's mail",
    actor,
    current: '/messages',
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/messages">Messages</a>
            </p>
            <h1>Preview a homeowner's mail</h1>
            <p class="lead" safe>
              {`The weekly mail as it would be now. Nothing is written or sent.${more}`}
            </p>
          </div>
        </div>
        <form class="filters" method="get" action="/messages/preview" aria-label="Search homeowners">
          <div class="f">
            <label for="search">Search</label>
            <span class="inp">
              <input id="search" name="search" type="search" value={search} placeholder="Name, address, pond" />
            </span>
          </div>
          <button type="submit" class="btn">
            Search
          </button>
        </form>
        {rows.length === 0
          ? emptyList({
              title: 'No homeowner with an email address matches.',
              sentence: 'Homeowners without one stand on the call list.',
            })
          : list(rows)}
      </>
    ),
  });
}

function list(rows: PreviewListModel['rows']): JSX.Element {
  return (
    <section class="scroll" tabindex="0" aria-label="Homeowners">
      <table class="list told">
        <thead>
          <tr>
            <th scope="col">Homeowner</th>
            <th scope="col">Ponds</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ href, name, ponds }) => (
            <tr>
              <th scope="row">
                <a href={href} safe>
                  {name}
                </a>
              </th>
              <td class="wide" safe>
                {ponds}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

export function mailPreviewPage(actor: Actor, { name, subject, plainText, frame }: MailPreviewModel): string {
  return page({
    title: `Mail to ${name}`,
    actor,
    current: '/messages',
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/messages/preview">Preview a homeowner's mail</a>
            </p>
            <h1 safe>{subject ?? `No mail to ${name} this week`}</h1>
            <p class="lead" safe>
              {subject === null
                ? 'There is nothing to do and nothing to tell, so none would be written.'
                : `The weekly mail to ${name}, as it would be now. Its links open nothing.`}
            </p>
          </div>
        </div>
        {subject === null ? '' : mailParts(frame, plainText)}
      </>
    ),
  });
}

function mailParts(frame: string, plainText: string): JSX.Element {
  return (
    <>
      <section>
        <h2>As the homeowner sees it</h2>
        <iframe class="mail-frame" title="The mail as its homeowner sees it" src={frame} sandbox=""></iframe>
      </section>
      <section>
        <h2>In plain text</h2>
        <pre class="mail-text" tabindex="0" safe>
          {plainText}
        </pre>
      </section>
    </>
  );
}
