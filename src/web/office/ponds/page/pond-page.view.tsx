import type { Actor } from '../../../../accounts/index.js';
import { forecastTable } from '../../../charts/forecast-table.js';
import { verdictSign } from '../../../charts/verdict-sign.js';
import { waterForecast } from '../../../charts/water-forecast.js';
import { page } from '../../../shell/layout.js';
import { whatIfFields } from '../what-if/what-if-form.view.js';
import { bandTable } from './band.view.js';
import { careCalendar } from './calendar.view.js';
import { dawn } from './dawn.view.js';
import type { FactLine } from './fact-line.js';
import { machinery } from './machinery.view.js';
import { pondActs, readingForm } from './pond-acts.view.js';
import type { PondPageModel, VisitLine } from './pond-page.view-model.js';
import type { ReadingLine } from './readings.view-model.js';
import { notPlanned, yearFigure } from './year-figure.view.js';

export interface Undo {
  readonly text: string;
  readonly action?: string;
  readonly fields?: Readonly<Record<string, string>>;
}

export function pondPage(actor: Actor, model: PondPageModel, undo: Undo | null): string {
  return page({
    title: model.name,
    actor,
    current: '/ponds',
    undo,
    scripts: ['read-out', 'why-not'],
    children: (
      <>
        {head(model)}
        {model.findings.map((finding) => (
          <p class="note act gap" safe>
            {finding}
          </p>
        ))}
        <section class="twin gap">
          <div class="wheelbox">
            {model.year ? yearFigure(model.year) : notPlanned()}
            {model.dawn ? dawn(model.dawn) : ''}
            {lastReadings(model.readings)}
            {model.isArchived ? '' : readingForm(actor, model)}
          </div>
          <div>{careCalendar(actor, model)}</div>
        </section>
        {model.year ? forecast(model.year) : ''}
        {model.year && !model.isArchived ? whatIf(model) : ''}
        <section class="cols3">
          {machinery(model)}
          {visits(model)}
          <div>
            <h2>Fish and plants</h2>
            {factList(model.stock)}
          </div>
        </section>
        <section class="cols3">
          <div>
            <h2>People</h2>
            {model.contacts.length > 0 ? (
              factList(model.contacts)
            ) : (
              <p class="q">Nobody is entered. A homeowner with an email gets the reminders.</p>
            )}
          </div>
          <div>
            <h2>Water and access</h2>
            {factList(model.leakTest ? [...model.access, model.leakTest] : model.access)}
            {model.isArchived ? '' : leakTestLink(model)}
          </div>
          <div>
            <h2>Care agreement</h2>
            {factList(model.agreement)}
          </div>
        </section>
        {pondActs(actor, model)}
      </>
    ),
  });
}

function head(model: PondPageModel): JSX.Element {
  return (
    <div class="head">
      <div>
        <p class="crumb">
          <a href="/ponds">Ponds</a>
        </p>
        <h1 safe>{model.name}</h1>
        <p class="lead" safe>
          {model.lead}
        </p>
        <p class="fine" safe>
          {model.facts}
        </p>
      </div>
      <div class="acts">
        {model.isArchived ? (
          ''
        ) : (
          <>
            <a class="btn" href="#enter-reading">
              Enter a reading
            </a>
            <a class="btn" href={`/ponds/${model.id}/happened`}>
              Something happened
            </a>
            <a class="btn" href={`/ponds/${model.id}/handover-pack.pdf`}>
              Handover pack
            </a>
            <a class="btn" href={`/ponds/${model.id}/edit`}>
              Change the record
            </a>
            <a class="btn first" href={`/visits/plan?pond=${model.id}`}>
              Plan a visit
            </a>
          </>
        )}
      </div>
    </div>
  );
}

function lastReadings(readings: readonly ReadingLine[]): JSX.Element {
  return (
    <div class="words">
      <h2>Last readings</h2>
      {readings.length === 0 ? (
        <p>None yet. One thermometer reading already corrects the forecast of this pond.</p>
      ) : (
        <dl class="facts">
          {readings.map((reading) => (
            <>
              <dt>
                <span safe>{reading.name}</span>
                <small safe>{reading.taken}</small>
              </dt>
              <dd>
                <span safe>{reading.value}</span>
                {reading.level ? (
                  <>
                    <br />
                    {verdictSign(reading.level, reading.verdict)}
                  </>
                ) : (
                  ''
                )}
              </dd>
            </>
          ))}
        </dl>
      )}
    </div>
  );
}

function whatIf(model: PondPageModel): JSX.Element {
  return (
    <section aria-labelledby="what-if-title" id="what-if">
      <div class="sec">
        <h2 id="what-if-title">What if …?</h2>
        <span class="fine">
          More fish, a bigger pump, shade, another climate: both years side by side, and nothing is stored.
        </span>
      </div>
      {whatIfFields(model.whatIf)}
      <p class="fine gap">
        <a href={`/ponds/${model.id}/what-if`}>As if it lay somewhere else</a>
      </p>
    </section>
  );
}

function forecast(year: NonNullable<PondPageModel['year']>): JSX.Element {
  return (
    <section aria-labelledby="forecast-title">
      <div class="sec">
        <h2 id="forecast-title">Water forecast</h2>
        <span class="fine" safe>
          {year.basis}
        </span>
      </div>
      {waterForecast(year.forecast)}
      {forecastTable({ ...year.forecast, feed: year.feed })}
      {year.band ? bandTable(year.band) : ''}
      <details class="why">
        <summary>
          <u>How it is computed</u>
        </summary>
        <div class="box">
          {year.method.map((sentence) => (
            <p safe>{sentence}</p>
          ))}
        </div>
      </details>
    </section>
  );
}

function leakTestLink(model: PondPageModel): JSX.Element {
  return (
    <p class="gap">
      <a class="btn" href={`/ponds/${model.id}/leak-test`}>
        {model.leakTest ? 'Go on testing for a leak' : 'Test for a leak'}
      </a>
    </p>
  );
}

function visits(model: PondPageModel): JSX.Element {
  return (
    <div>
      <h2>Visits</h2>
      {model.visits.length === 0 ? <p class="q">No visit yet.</p> : <dl class="facts">{model.visits.map(visitRow)}</dl>}
    </div>
  );
}

function visitRow(visit: VisitLine): JSX.Element {
  return (
    <>
      <dt>
        <a href={visit.href} safe>
          {visit.title}
        </a>
        <small safe>{visit.detail}</small>
      </dt>
      <dd safe>{visit.state}</dd>
    </>
  );
}

function factList(lines: readonly FactLine[]): JSX.Element {
  return (
    <dl class="facts">
      {lines.map((line) => (
        <>
          <dt>
            <span safe>{line.name}</span>
            {line.detail ? <small safe>{line.detail}</small> : ''}
          </dt>
          <dd safe>{line.value}</dd>
        </>
      ))}
    </dl>
  );
}
