import type { Actor } from '../../accounts/index.js';
import type { RoundView } from './my-round.view-model.js';
import { phonePage, signOut } from './phone.view.js';
import { stopRow, wayIn } from './stop.view.js';

export function myRoundPage(actor: Actor, view: RoundView): string {
  return phonePage({
    title: 'My round',
    actor,
    back: null,
    middle: view.day,
    scripts: ['round'],
    children: (
      <>
        {view.said === null ? (
          ''
        ) : (
          <p class="note gap" role="status" safe>
            {view.said}
          </p>
        )}
        <h1 safe>{view.title}</h1>
        <p class="meta" id="round-sentence" data-stops={String(view.stops.length)} safe>
          {view.sentence}
        </p>
        <div id="just-closed" role="status" />
        {view.open.map(nextStop)}
        <section id="outbox" aria-labelledby="outbox-title" hidden />
        {stopList('Today', view.stops, 'today')}
        {view.stops.length === 0 && view.nextDays.length === 0 && view.leftOpen.length === 0 ? (
          <p class="empty gap">
            <b>Nothing waits here.</b>
            Visits the office publishes with your name appear in this place, today's first.
          </p>
        ) : (
          ''
        )}
        {view.leftOpen.length > 0 ? (
          <section>
            <h2>Not closed yet</h2>
            <ol class="stops">{view.leftOpen.map((stop) => stopRow(stop, { withDay: true }))}</ol>
          </section>
        ) : (
          ''
        )}
        {load(view)}
        {view.nextDays.map((day) => stopList(day.title, day.stops))}
        <p class="meta gap">
          <a href="/own-calendar">My round in my own calendar</a>, <a href="/check-in">check-in when working alone</a>
        </p>
        <p class="meta">
          <a href="/how-it-is-computed">How it is computed</a>
        </p>
        <p class="meta" id="kept">
          Opened with script in a safe connection (HTTPS), today and tomorrow stay on this phone and open without
          signal.
        </p>
        {signOut(actor)}
      </>
    ),
  });
}

/** Only the first is shown; the script shows the following one when the phone has closed it. */
function nextStop(next: RoundView['open'][number], i: number): JSX.Element {
  const id = `next-${next.number}`;
  return (
    <section class="next" aria-labelledby={id} data-visit={next.visitId} hidden={i > 0}>
      <h2 id={id} safe>
        {`Next: ${next.pondName}`}
      </h2>
      {wayIn(next)}
      <p>
        <a class="btn first" href={next.href} safe>
          {`Open the visit, ${next.minutes}`}
        </a>
      </p>
    </section>
  );
}

function stopList(title: string, stops: RoundView['stops'], id?: string): JSX.Element {
  if (stops.length === 0) return '';
  return (
    <section>
      <h2 safe>{title}</h2>
      <ol class="stops" id={id}>
        {stops.map((stop) => stopRow(stop))}
      </ol>
    </section>
  );
}

function load({ load: parts }: RoundView): JSX.Element {
  if (parts.length === 0) return '';
  return (
    <section>
      <h2>To load</h2>
      <ul class="load">
        {parts.map((part) => (
          <li safe>{part}</li>
        ))}
      </ul>
    </section>
  );
}
