import type { CivilDay } from '../../core/units/civil-day.js';

const WIDTH = 168;
const MIDDLE = WIDTH / 2;
const PX_PER_DAY = 3;
/** Today is drawn while it lies this near to the due day. [days] */
const NEAR_DAYS = 28;

export interface WindowFigures {
  readonly earliest: CivilDay;
  readonly due: CivilDay;
  readonly latest: CivilDay;
  readonly today: CivilDay;
  readonly needsAction: boolean;
}

/**
 * The window of a task, 3 px to the day and centred on its due day, so that a longer bar means more slack. Hidden from
 * assistive technology: the text beside it has the dates.
 */
export function windowBar({ earliest, due, latest, today, needsAction }: WindowFigures): JSX.Element {
  const at = (day: CivilDay) => MIDDLE + (day - due) * PX_PER_DAY;
  const from = Math.max(0, at(earliest));
  const to = Math.min(WIDTH, at(latest));
  return (
    <svg class={needsAction ? 'wbar act' : 'wbar'} viewBox="0 0 168 20" width="168" height="20" aria-hidden="true">
      <path class="base" d="M0 10H168" />
      <path class="span" d={`M${from} 10H${to}`} />
      <path class="end" d={at(earliest) < 0 ? 'M6 5L1 10L6 15' : `M${from} 5v10`} />
      <path class="end" d={at(latest) > WIDTH ? 'M162 5L167 10L162 15' : `M${to} 5v10`} />
      <path class="due" d={`M${MIDDLE} 4l6 6l-6 6l-6-6z`} />
      {Math.abs(today - due) <= NEAR_DAYS ? <path class="nowl" d={`M${at(today)} 0v20`} /> : ''}
    </svg>
  );
}
