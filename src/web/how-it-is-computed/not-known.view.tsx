import type { HowItIsComputedModel, NotKnownLine, StationsModel } from './how-it-is-computed.view-model.js';

/** The named numbers no source settles, and whose part of a forecast's band is whose. */
export function notKnownSection({ notKnown, bandParts, find }: HowItIsComputedModel): JSX.Element {
  return (
    <section id="not-known" aria-labelledby="not-known-title">
      <h2 id="not-known-title">What is not known</h2>
      <p>
        These numbers no book settles for a garden pond. Each is named, has a range, and says what would settle it for
        one pond. Until then they are part of the band.
      </p>
      <ul class="unknowns">{notKnown.map(notKnownRow)}</ul>
      {find === '' ? (
        <>
          <h3 class="gap">Whose part of the band is whose</h3>
          <dl class="facts stacked">
            {bandParts.map(({ title, words }) => (
              <>
                <dt safe>{title}</dt>
                <dd safe>{words}</dd>
              </>
            ))}
          </dl>
        </>
      ) : (
        ''
      )}
    </section>
  );
}

function notKnownRow(line: NotKnownLine): JSX.Element {
  return (
    <li id={line.id}>
      <div>
        <h3 safe>{line.title}</h3>
        <p class="fine" safe>
          {line.why}
        </p>
      </div>
      <dl>
        <dt>Reckoned with</dt>
        <dd>
          <b safe>{line.used}</b>
        </dd>
        <dt>May be</dt>
        <dd safe>{line.range}</dd>
      </dl>
      <dl>
        <dt>Learned from</dt>
        <dd safe>{line.learnedFrom}</dd>
        <dt>Source</dt>
        <dd safe>{line.source}</dd>
      </dl>
    </li>
  );
}

/** Sources, licences and gaps of the station table. */
export function stationsSection({ sentence, origins, gaps }: StationsModel): JSX.Element {
  return (
    <section id="stations" aria-labelledby="stations-title">
      <h2 id="stations-title">Where the climate comes from</h2>
      <p safe>{sentence}</p>
      <dl class="facts stacked origins gap">
        {origins.map(({ source, address, licence, attribution, changes }) => (
          <>
            <dt>
              <a href={address} rel="noreferrer" safe>
                {source}
              </a>
            </dt>
            <dd safe>{`${attribution}. Licence: ${licence}. ${changes}`}</dd>
          </>
        ))}
        <dt>Gaps</dt>
        <dd safe>{gaps.join(' ')}</dd>
      </dl>
    </section>
  );
}
