import type { Choice, EmptyList, ListPages } from './list-pages.js';

/** Links to choose one of several lists by; the one that is shown is marked. */
export function choices(list: readonly Choice[]): JSX.Element {
  return (
    <>
      {list.map(({ words, href, isCurrent }) => (
        <>
          <a href={href} aria-current={isCurrent ? 'true' : undefined} safe>
            {words}
          </a>{' '}
        </>
      ))}
    </>
  );
}

/** In place of a table without rows. */
export function emptyList({ title, sentence }: EmptyList): JSX.Element {
  return (
    <p class="empty">
      <b safe>{title}</b>
      <span safe>{sentence}</span>
    </p>
  );
}

/** Steps from page to page of a long list. */
export function pager({ words, previous, next }: ListPages): JSX.Element {
  return (
    <nav class="pager" aria-label="Pages">
      {step(previous, 'prev', 'Previous')}
      <span class="q" safe>
        {words}
      </span>
      {step(next, 'next', 'Next')}
    </nav>
  );
}

function step(href: string | null, rel: string, words: string): JSX.Element {
  if (href === null) return '';
  return (
    <a class="btn" href={href} rel={rel} safe>
      {words}
    </a>
  );
}
