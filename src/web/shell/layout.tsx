import type { Actor } from '../../accounts/index.js';
import { assetUrl } from './assets.js';

type Children = JSX.Element | JSX.Element[] | string | false | null | undefined | Children[];

export interface PageOptions {
  readonly title: string;
  readonly actor?: Actor | null;
  /** Address of the navigation entry that is this page's. */
  readonly current?: string;
  /** Names of bundled scripts, without `.js`. */
  readonly scripts?: readonly string[];
  /** What the last action did, with the address that undoes it. */
  readonly undo?: {
    readonly text: string;
    readonly action?: string;
    readonly fields?: Readonly<Record<string, string>>;
  } | null;
  readonly children: Children;
}

const OFFICE_PAGES = [
  ['/', 'This week'],
  ['/ponds', 'Ponds'],
  ['/visits', 'Visits'],
  ['/messages', 'Messages'],
  ['/settings', 'Settings'],
] as const;
const TECHNICIAN_PAGES = [['/my-round', 'My round']] as const;

/** A whole page for the office, with mast and navigation. Text is escaped by `safe`; children are markup. */
export function page(options: PageOptions): string {
  const { title, actor, children } = options;
  return htmlDocument({
    title,
    scripts: options.scripts ?? [],
    body: (
      <>
        <a class="skip" href="#content">
          Skip to the content
        </a>
        {mast(actor ?? null, options.current)}
        {actor?.isDemo ? (
          <aside class="demo" aria-label="Demo">
            Demo. All people and firms are invented.
          </aside>
        ) : (
          ''
        )}
        <main class="page" id="content" tabindex="-1">
          {children as 'safe'}
        </main>
        {actor && actor.role !== 'homeowner' ? foot(options.current) : ''}
        {options.undo ? undoBar(options.undo, actor?.formToken ?? '') : ''}
      </>
    ),
  });
}

/** The bare document: used by `page`, by the phone page and by pages behind a link. */
export function htmlDocument(options: {
  title: string;
  scripts?: readonly string[];
  bodyClass?: string;
  body: Children;
  manifest?: string;
}): string {
  const sans = assetUrl('atkinson-hyperlegible-next-latin-wght-normal.woff2').split('?')[0] as string;
  return ('<!doctype html>' +
  (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <title safe>{`${options.title} · Tarnkeep`}</title>
        <link rel="preload" href={sans} as="font" type="font/woff2" crossorigin="anonymous" />
        <link rel="stylesheet" href={assetUrl('tarnkeep.css')} />
        <link rel="icon" href={assetUrl('mark.svg')} type="image/svg+xml" />
        {options.manifest ? <link rel="manifest" href={options.manifest} /> : ''}
        {(options.scripts ?? []).map((name) => (
          <script src={assetUrl(`${name}.js`)} defer />
        ))}
      </head>
      <body class={options.bodyClass}>{options.body as 'safe'}</body>
    </html>
  )) as string;
}

/** Hidden field that ties a form to the session; every form that posts carries it. */
export function formToken(actor: Pick<Actor, 'formToken'>): JSX.Element {
  return <input type="hidden" name="_token" value={actor.formToken} />;
}

function mast(actor: Actor | null, current: string | undefined): JSX.Element {
  const pages = actor === null ? [] : actor.role === 'technician' ? TECHNICIAN_PAGES : OFFICE_PAGES;
  const links = pages.map(([href, label]) => (
    <a href={href} aria-current={href === current ? 'page' : undefined}>
      {label}
    </a>
  ));
  return (
    <header class="mast">
      <div>
        <a class="word" href="/">
          {wordMark()}
          Tarnkeep
        </a>
        <nav aria-label="Main">{links}</nav>
        {actor ? (
          <div class="who">
            <b safe>{actor.name}</b>
            <span safe>{actor.companyName ?? ''}</span> {signOutForm(actor)}
          </div>
        ) : (
          ''
        )}
        {actor ? (
          <details>
            <summary>Menu</summary>
            <nav aria-label="Menu" class="menu">
              {links}
              {signOutForm(actor)}
            </nav>
          </details>
        ) : (
          ''
        )}
      </div>
    </header>
  );
}

/** Where every number of the page can be looked up; out of the way of the work above. */
function foot(current: string | undefined): JSX.Element {
  return (
    <footer class="site-foot">
      <a href="/how-it-is-computed" aria-current={current === '/how-it-is-computed' ? 'page' : undefined}>
        How it is computed
      </a>
    </footer>
  );
}

function signOutForm(actor: Actor): JSX.Element {
  return (
    <form class="inline" method="post" action="/sign-out">
      {formToken(actor)}
      <button type="submit" class="linklike">
        Sign out
      </button>
    </form>
  );
}

function wordMark(): JSX.Element {
  return (
    <svg viewBox="0 0 26 26" aria-hidden="true">
      <circle cx="13" cy="13" r="11" />
      <path class="f" d="M4.2 15.5q2.9-2 5.8 0t5.9 0t5.9 0A9.2 9.2 0 0 1 4.2 15.5z" />
      <path d="M13 13L20.5 8" />
    </svg>
  );
}

function undoBar(undo: NonNullable<PageOptions['undo']>, token: string): JSX.Element {
  return (
    <div class="undo" role="status">
      <span safe>{undo.text}</span>
      {undo.action ? (
        <form class="inline" method="post" action={undo.action}>
          <input type="hidden" name="_token" value={token} />
          {Object.entries(undo.fields ?? {}).map(([name, value]) => (
            <input type="hidden" name={name} value={value} />
          ))}
          <button type="submit" class="btn">
            Undo
          </button>
        </form>
      ) : (
        ''
      )}
    </div>
  );
}
