import { type Option, selectField } from '../forms/fields.js';
import type { FeedLine } from './feed.view-model.js';
import { ALARM_CHOICES, TASK_CHOICES } from './feed-wish.schema.js';

export interface FeedParts {
  /** Where the forms post to. */
  readonly path: string;
  readonly lines: readonly FeedLine[];
  /** The address just given; it is shown this once. */
  readonly given: string | null;
  readonly said: string | null;
  /** What the calendar may show; none to choose for a homeowner. */
  readonly audiences: readonly Option[];
  readonly token?: JSX.Element | '';
}

/** Getting, seeing and taking back calendar addresses. */
export function feedParts(parts: FeedParts): JSX.Element {
  const { path, lines, given, said, audiences, token = '' } = parts;
  return (
    <>
      {said === null ? (
        ''
      ) : (
        <p class="note" role="status" safe>
          {said}
        </p>
      )}
      {given === null ? '' : givenAddress(given)}
      <section aria-labelledby="new-address">
        <h2 id="new-address">{lines.length === 0 ? 'Get an address' : 'Get another address'}</h2>
        <p class="fine">
          Your calendar reads it by itself every few hours. Whoever knows the address can read it: keep it to yourself,
          and take it back when it has got about.
        </p>
        <form class="grid6 gap" method="post" action={path}>
          {token as 'safe'}
          {audiences.length === 0
            ? selectField({ name: 'tasksAs', label: 'Tasks as', value: 'event', width: 'c3', options: TASK_CHOICES })
            : selectField({
                name: 'audience',
                label: 'What it shows',
                value: audiences[0]?.value ?? '',
                width: 'c3',
                options: audiences,
              })}
          {selectField({ name: 'alarm', label: 'Alarm', value: 'none', width: 'c3', options: ALARM_CHOICES })}
          <p class="c6">
            <button type="submit" class="btn first">
              Get a calendar address
            </button>
          </p>
        </form>
      </section>
      <section aria-labelledby="in-use">
        <h2 id="in-use">Addresses in use</h2>
        {lines.length === 0 ? (
          <p class="empty">
            <b>None yet.</b> Get one above, then add it in your calendar under "subscribe by address".
          </p>
        ) : (
          <ul class="plain-list">
            {lines.map((line) => (
              <li>
                <b safe>{line.what}</b>
                <p class="fine" safe>
                  {line.since}
                </p>
                <form class="inline" method="post" action={`${path}/${line.id}/taking-back`}>
                  {token as 'safe'}
                  <button type="submit" class="btn" aria-label={`Take back: ${line.what}`}>
                    Take this address back
                  </button>
                </form>
              </li>
            ))}
          </ul>
        )}
      </section>
    </>
  );
}

function givenAddress(address: string): JSX.Element {
  return (
    <section class="note" aria-labelledby="given" role="status">
      <h2 id="given">Your calendar address</h2>
      <p>It is shown this once. Copy it into your calendar now.</p>
      <p class="gap">
        <label for="f-address">Address</label>
        <span class="inp">
          <input id="f-address" type="text" readonly value={address} />
        </span>
      </p>
      <p class="gap">
        <a class="btn" href={address.replace(/^https?:/, 'webcal:')}>
          Open in a calendar on this device
        </a>
      </p>
    </section>
  );
}
