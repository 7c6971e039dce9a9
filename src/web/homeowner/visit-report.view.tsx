import { type Homeowner, longDay, type SpokenVisit } from '../../reminders/index.js';
import { verdictSign } from '../charts/verdict-sign.js';
import { linkPage } from './link-page.js';

export interface ReportLinks {
  /** The homeowner's own page, where there is one. */
  readonly backTo: string | null;
  /** Addresses of the photos; a smaller one with `?size=thumb`. */
  readonly photos: readonly string[];
  readonly pdf: string | null;
}

/** What was done on a visit, as a page. */
export function visitReportPage(homeowner: Homeowner, visit: SpokenVisit, links: ReportLinks): string {
  const { backTo, pdf } = links;
  const who = visit.technicianName === null ? '' : `, by ${visit.technicianName}`;
  return linkPage({
    title: `Visit on ${longDay(visit.day)}`,
    crumb: `${homeowner.company.name}, ${visit.pondName}`,
    isDemo: homeowner.company.isDemo,
    heading: `${visit.isCorrected ? 'Corrected report of the' : 'Report of the'} visit on ${longDay(visit.day)}`,
    lead: `${visit.pondName}, ${visit.town}${who}.`,
    children: (
      <>
        {doneSection(visit)}
        {readingSection(visit)}
        {visit.note === '' ? '' : noteSection(visit.note)}
        {visit.watch.length === 0 ? '' : watchSection(visit.watch)}
        {links.photos.length === 0 ? '' : photoSection(links.photos)}
        {pdf === null ? (
          ''
        ) : (
          <p class="gap">
            <a href={pdf}>This report as a PDF</a>
          </p>
        )}
        {backTo === null ? (
          ''
        ) : (
          <p class="gap">
            <a class="btn" href={backTo}>
              Back to my pond
            </a>
          </p>
        )}
      </>
    ),
  });
}

function doneSection({ done }: SpokenVisit): JSX.Element | '' {
  if (done.length === 0) return '';
  return (
    <section>
      <h2>What was done</h2>
      <dl class="facts">
        {done.map(({ title, outcome, remark }) => (
          <>
            <dt>
              <span safe>{title}</span>
              {remark === '' ? '' : <small safe>{remark}</small>}
            </dt>
            <dd safe>{outcome}</dd>
          </>
        ))}
      </dl>
    </section>
  );
}

function readingSection({ readings }: SpokenVisit): JSX.Element | '' {
  if (readings.length === 0) return '';
  return (
    <section>
      <h2>What was measured</h2>
      <dl class="facts">
        {readings.map(({ name, value, level, meaning }) => (
          <>
            <dt safe>{name}</dt>
            <dd>
              <span safe>{value}</span>
              <br />
              {verdictSign(level === 'not-judged' ? 'in-order' : level, meaning)}
            </dd>
          </>
        ))}
      </dl>
    </section>
  );
}

function noteSection(note: string): JSX.Element {
  return (
    <section>
      <h2>Note</h2>
      {note.split('\n').map((line) => (
        <p safe>{line}</p>
      ))}
    </section>
  );
}

function watchSection(watch: readonly string[]): JSX.Element {
  return (
    <section>
      <h2>What to watch</h2>
      {watch.map((line) => (
        <p class="note act" safe>
          {line}
        </p>
      ))}
    </section>
  );
}

function photoSection(photos: readonly string[]): JSX.Element {
  return (
    <section>
      <h2>Photos</h2>
      <ul class="photo-strip">
        {photos.map((href, i) => (
          <li>
            <a href={href}>
              <img
                src={`${href}?size=thumb`}
                alt={`${i + 1} of ${photos.length}, taken on this visit`}
                loading="lazy"
              />
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}
