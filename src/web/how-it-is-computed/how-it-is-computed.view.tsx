import type { Actor } from '../../accounts/index.js';
import type { RuleCard } from '../office/settings/settings.view-model.js';
import { page } from '../shell/layout.js';
import { formulaEntry } from './formula-entry.view.js';
import { ADDRESS, type FieldModel, type HowItIsComputedModel } from './how-it-is-computed.view-model.js';
import { notKnownSection, stationsSection } from './not-known.view.js';

export function howItIsComputedPage(actor: Actor, model: HowItIsComputedModel): string {
  const isNothingFound = model.fields.length + model.notKnown.length + model.rules.length === 0;
  return page({
    title: 'How it is computed',
    actor,
    current: ADDRESS,
    children: (
      <div class="computed">
        <div class="head">
          <div>
            <h1>How it is computed</h1>
            <p class="lead" safe>
              {`Every number the program prints comes from one of ${model.formulaCount} formulas or from a care rule. Each has its range and its source here, and an example worked by the very function the program uses.`}
            </p>
            <p class="fine">Figures on this page are metric, as the program keeps them.</p>
          </div>
        </div>
        {findForm(model)}
        {isNothingFound ? (
          <p class="empty">
            <b>Nothing here has these words.</b>
            Try one word, such as ammonia, ice or evaporation.
          </p>
        ) : (
          contents(model)
        )}
        {model.fields.map((field) => fieldSection(field, model.find))}
        {model.notKnown.length > 0 ? notKnownSection(model) : ''}
        {model.rules.length > 0 ? rulesSection(model.rules) : ''}
        {model.find === '' ? stationsSection(model.stations) : ''}
      </div>
    ),
  });
}

function findForm({ find, found }: HowItIsComputedModel): JSX.Element {
  return (
    <>
      <form class="filters" method="get" action={ADDRESS} aria-label="Find a formula">
        <div class="f">
          <label for="find">Find</label>
          <span class="inp">
            <input id="find" name="find" type="search" value={find} autocomplete="off" />
          </span>
        </div>
        <button type="submit" class="btn">
          Find
        </button>
        {find ? (
          <a class="btn plain" href={ADDRESS}>
            Show all
          </a>
        ) : (
          ''
        )}
      </form>
      {found ? (
        <p class="found" role="status" safe>
          {found}
        </p>
      ) : (
        ''
      )}
    </>
  );
}

function contents({ fields, notKnown, rules, find }: HowItIsComputedModel): JSX.Element {
  return (
    <nav class="contents" aria-label="On this page">
      {fields.map(({ id, title, entries }) => (
        <div>
          <a class="field-link" href={`#${id}`} safe>
            {title}
          </a>
          <ul>
            {entries.map(({ formula }) => (
              <li>
                <a href={`#${formula.id}`} safe>
                  {formula.title}
                </a>
              </li>
            ))}
          </ul>
        </div>
      ))}
      <div>
        <span class="field-link">Beyond formulas</span>
        <ul>
          {notKnown.length > 0 ? (
            <li>
              <a href="#not-known">What is not known</a>
            </li>
          ) : (
            ''
          )}
          {rules.length > 0 ? (
            <li>
              <a href="#rules">The numbers of the care rules</a>
            </li>
          ) : (
            ''
          )}
          {find === '' ? (
            <li>
              <a href="#stations">Where the climate comes from</a>
            </li>
          ) : (
            ''
          )}
        </ul>
      </div>
    </nav>
  );
}

function fieldSection({ id, title, entries }: FieldModel, find: string): JSX.Element {
  return (
    <section id={id} aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`} safe>
        {title}
      </h2>
      {entries.map((entry) => formulaEntry(entry, find))}
    </section>
  );
}

function rulesSection(cards: readonly RuleCard[]): JSX.Element {
  return (
    <section id="rules" aria-labelledby="rules-title">
      <div class="sec">
        <h2 id="rules-title">The numbers of the care rules</h2>
        <span class="fine">As loaded from config/care-rules when the program started.</span>
      </div>
      <section class="scroll" tabindex="0" aria-label="Numbers of the care rules">
        <table class="list numbers">
          <thead>
            <tr>
              <th scope="col">Number, and where it is from</th>
              <th scope="col">Value</th>
              <th scope="col">May be</th>
            </tr>
          </thead>
          {cards.map(ruleRows)}
        </table>
      </section>
    </section>
  );
}

function ruleRows({ id, title, source, parameters }: RuleCard): JSX.Element {
  return (
    <tbody id={`rule-${id}`}>
      <tr class="rule-head">
        <th scope="rowgroup" colspan="3">
          <span safe>{title}</span>
          <small safe>{source}</small>
        </th>
      </tr>
      {parameters.map(({ name, value, range, provenance }) => (
        <tr>
          <th scope="row">
            <span safe>{name}</span>
            <small safe>{provenance}</small>
          </th>
          <td class="num" safe>
            {value}
          </td>
          <td class="num" safe>
            {range}
          </td>
        </tr>
      ))}
    </tbody>
  );
}
