import { lineOf, type SaidReading } from './reading-words.js';

/** What a reading means: one line in order, or a block with what to do. The script of the page builds the same. */
export function saidReading(said: SaidReading | null): JSX.Element {
  if (said === null) return '';
  if (said.form === 'line') {
    return (
      <span class="verdict">
        <svg viewBox="0 0 14 14" aria-hidden="true">
          <path d="M2 7.5l3.4 3.6L12 3.4" />
        </svg>
        <span safe>{lineOf(said)}</span>
      </span>
    );
  }
  return (
    <div class={`result ${said.level}`}>
      <span class="lvl">
        <svg viewBox="0 0 14 14" aria-hidden="true">
          <path d="M7 1.5L13 12.5H1z" />
        </svg>
        <span safe>{said.levelWord}</span>
      </span>
      <span class="big" safe>
        {said.headline}
      </span>
      <p safe>{said.limit}</p>
      <p safe>{said.actions.join(' ')}</p>
    </div>
  );
}
