import { yearWheel } from '../../../charts/year-wheel.js';
import type { PondPageModel } from './pond-page.view-model.js';

/** The year wheel with its legend and words. */
export function yearFigure(year: NonNullable<PondPageModel['year']>): JSX.Element {
  return (
    <figure>
      {yearWheel(year.wheel)}
      <figcaption>
        {legend(year.feed.length > 0, (year.wheel.later ?? []).length > 0)}
        <div class="words">
          <h2>The year in words</h2>
          <p safe>{year.words.join(' ')}</p>
        </div>
      </figcaption>
    </figure>
  );
}

function legend(hasFish: boolean, hasLater: boolean): JSX.Element {
  return (
    <div class="legend">
      <span>
        <svg viewBox="0 0 22 14" aria-hidden="true">
          <rect x="4" y="1" width="12" height="12" rx="2" fill="none" stroke="currentColor" stroke-width="2" />
        </svg>
        outside: technician
      </span>
      <span>
        <svg viewBox="0 0 22 14" aria-hidden="true">
          <circle cx="10" cy="7" r="6" fill="none" stroke="currentColor" stroke-width="2" />
        </svg>
        inside: homeowner
      </span>
      <span>
        <svg viewBox="0 0 22 14" aria-hidden="true">
          <path class="win" d="M0 7h22" />
        </svg>
        window
      </span>
      {hasLater ? (
        <span>
          <svg viewBox="0 0 22 14" aria-hidden="true">
            <circle class="later-dot" cx="10" cy="7" r="2.4" />
          </svg>
          later, as expected today
        </span>
      ) : (
        ''
      )}
      {hasFish ? (
        <>
          <span>
            <svg viewBox="0 0 22 14" aria-hidden="true">
              <path class="fd2" d="M0 7h22" />
            </svg>
            staple feed
          </span>
          <span>
            <svg viewBox="0 0 22 14" aria-hidden="true">
              <path class="fd1" d="M0 5h22M0 9h22" />
            </svg>
            light feed
          </span>
        </>
      ) : (
        ''
      )}
    </div>
  );
}

/** Stands in its place until the pond has been planned. */
export function notPlanned(): JSX.Element {
  return (
    <p class="empty">
      <b>Not planned yet.</b>The year appears here with the next planning, at the latest tonight.
    </p>
  );
}
