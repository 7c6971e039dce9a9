import type { Actor } from '../../accounts/index.js';
import { assetUrl } from '../shell/assets.js';
import { formToken, htmlDocument } from '../shell/layout.js';

type Children = JSX.Element | JSX.Element[] | string;

export const BACK_TO_ROUND = { href: '/my-round', text: 'My round' } as const;

/** The frame of a page beside a pond: one column, a bar on top, what is pressed at the bottom. */
export function phonePage(parts: {
  readonly title: string;
  readonly actor: Actor;
  /** Bar: where to go back to, or what this is. */
  readonly back: { readonly href: string; readonly text: string } | null;
  readonly middle: string;
  /** At the right of the bar: what is not sent yet. The script keeps it up to date. */
  readonly status?: string;
  readonly foot?: Children;
  readonly scripts?: readonly string[];
  readonly children: Children;
}): string {
  const { title, actor, back, middle, status } = parts;
  return htmlDocument({
    title,
    scripts: parts.scripts ?? [],
    manifest: assetUrl('phone.webmanifest'),
    bodyClass: parts.foot ? 'with-foot' : '',
    body: (
      <>
        <a class="skip" href="#content">
          Skip to the content
        </a>
        <div class="phone" data-owner={`${actor.companyId}:${actor.personId}`} data-name={actor.name}>
          <header class="bar">
            {back ? (
              <a href={back.href} safe>
                {back.text}
              </a>
            ) : (
              <b>Tarnkeep</b>
            )}
            <span safe>{middle}</span>
            <span id="sent" safe>
              {status ?? ''}
            </span>
          </header>
          <main id="content" tabindex="-1">
            {actor.isDemo ? <p class="demo">Demo. All people and firms are invented.</p> : ''}
            {/* What the phone itself has to say: no room left, not sent yet, another person's closings. */}
            <div id="phone-says" role="status" />
            {parts.children as 'safe'}
          </main>
        </div>
        {parts.foot ? (parts.foot as 'safe') : ''}
      </>
    ),
  });
}

/** At the end of the round: leaving this phone. */
export function signOut(actor: Actor): JSX.Element {
  return (
    <form class="inline sign-out" method="post" action="/sign-out">
      {formToken(actor)}
      <button type="submit" class="linklike">
        Sign out
      </button>
    </form>
  );
}

/** The triangle of a caution. */
export function cautionSign(): JSX.Element {
  return (
    <svg viewBox="0 0 28 28" aria-hidden="true">
      <path class="o" d="M14 3L26 24.5H2z" />
      <path class="x" d="M14 10.5v6.5M14 21v.2" />
    </svg>
  );
}

/** What is wrong with a field, under it. */
export function fieldFault(sentence: string | undefined): JSX.Element {
  return sentence === undefined ? (
    ''
  ) : (
    <span class="err" safe>
      {sentence}
    </span>
  );
}
