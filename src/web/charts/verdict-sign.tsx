import type { ReadingLevel } from '../../core/water/reading-verdict.js';

/** A verdict in a sign and in words, never one without the other, and never a word without its limit. */
export function verdictSign(level: ReadingLevel, words: string): JSX.Element {
  const inOrder = level === 'in-order';
  return (
    <span class={inOrder ? 'verdict' : level === 'watch' ? 'verdict watch' : `verdict watch ${level}`}>
      <svg viewBox="0 0 14 14" aria-hidden="true">
        {inOrder ? <path d="M2 7.5l3.4 3.6L12 3.4" /> : <path d="M7 1.5L13 12.5H1z" />}
      </svg>
      <span safe>{words}</span>
    </span>
  );
}
