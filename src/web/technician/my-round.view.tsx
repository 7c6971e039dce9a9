import type { Actor } from '../../accounts/index.js';
import type { RoundView } from './my-round.view-model.js';
import { phonePage } from './phone.view.js';
import { stopRow, wayIn } from './stop.view.js';

export function myRoundPage(actor: Actor, view: RoundView): string {
  return phonePage({
    title: 'My round',
    actor,
    back: null,
    middle: view.day,
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
        <p class="meta" safe>
          {view.sentence}
        </p>
        {nextStop(view)}
        {stopList('Today', view.stops)}
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
          <a href="/own-calendar">My round in my own calendar</a>
        </p>
      </>
    ),
  });
}

function nextStop({ next }: RoundView): JSX.Element {
  if (next === null) return '';
  return (
    <section class="next" aria-labelledby="next">
      <h2 id="next" safe>
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

function stopList(title: string, stops: RoundView['stops']): JSX.Element {
  if (stops.length === 0) return '';
  return (
    <section>
      <h2 safe>{title}</h2>
      <ol class="stops">{stops.map((stop) => stopRow(stop))}</ol>
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
