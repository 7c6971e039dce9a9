import type { StopView } from './stop.view-model.js';

/** How to get there and in: two buttons, access, hazards, and the gate code for whoever presses. */
export function wayIn(stop: StopView): JSX.Element {
  return (
    <>
      <p class="meta" safe>
        {[stop.address, stop.told, stop.access].filter((part) => part !== '').join('. ')}
      </p>
      {stop.hazards === '' ? (
        ''
      ) : (
        <p class="hazard">
          <b>Mind: </b>
          <span safe>{stop.hazards}</span>
        </p>
      )}
      {stop.officeNote === '' ? (
        ''
      ) : (
        <p class="note">
          <b>From the office: </b>
          <span safe>{stop.officeNote}</span>
        </p>
      )}
      {gateCode(stop)}
      <div class="two">
        <a class="btn" href={stop.directionsHref}>
          Directions
        </a>
        {stop.call ? (
          <a class="btn" href={stop.call.href} aria-label={`Call ${stop.call.name}, ${stop.call.shown}`}>
            Call
          </a>
        ) : (
          <span class="fine none">No phone number is kept for this pond.</span>
        )}
      </div>
    </>
  );
}

function gateCode(stop: StopView): JSX.Element {
  if (stop.gateCode === null && !stop.isGatePlace) return '';
  return (
    <details class="gate" hidden={stop.gateCode === null} data-gate={stop.visitId}>
      <summary>Show the gate code</summary>
      <p class="code" safe>
        {stop.gateCode ?? ''}
      </p>
    </details>
  );
}

/** A stop in a list: number, pond, when, and its state in a word. */
export function stopRow(stop: StopView, options: { readonly withDay?: boolean } = {}): JSX.Element {
  const when = [options.withDay ? stop.day : '', stop.told, stop.minutes].filter((part) => part !== '').join(', ');
  return (
    <li
      class={stop.isOpen ? '' : 'done'}
      data-visit={stop.visitId}
      data-minutes={stop.isOpen ? String(stop.minutesCount) : ''}
    >
      <a href={stop.href}>
        <span class="no">{stop.number}</span>
        <span>
          <span class="t" safe>
            {stop.pondName}
          </span>
          <span class="q" safe>
            {when}
          </span>
          <span class="q" safe>
            {stop.cancelledBecause ?? stop.tasks.join('; ')}
          </span>
        </span>
        <span class="s" safe>
          {stop.stateWord}
        </span>
      </a>
    </li>
  );
}
