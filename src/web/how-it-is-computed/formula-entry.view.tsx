import type { FormulaInput } from '../../core/formulas/formula.js';
import { selectField, textField } from '../forms/fields.js';
import { ADDRESS, type EntryModel, type SymbolLine } from './how-it-is-computed.view-model.js';
import { fieldName, rangeWords } from './worked-example.js';

/** With more fields than this the example stands below the text, in three columns. */
const FIELDS_BESIDE = 6;

/** One formula: its equations, symbols and limits on the left, its worked example on the right. */
export function formulaEntry(entry: EntryModel, find: string): JSX.Element {
  const { formula } = entry;
  const titleId = `${formula.id}-title`;
  return (
    <article
      class={formula.inputs.length > FIELDS_BESIDE ? 'formula many' : 'formula'}
      id={formula.id}
      aria-labelledby={titleId}
    >
      <h3 id={titleId} safe>
        {formula.title}
      </h3>
      <div class="said-of">
        <p safe>{formula.usedFor}</p>
        <ul class="equations" aria-label="Equations">
          {formula.equations.map((equation) => (
            <li safe>{equation}</li>
          ))}
        </ul>
        {symbolTable(entry)}
        <dl class="facts stacked">
          <dt>Holds</dt>
          <dd safe>{formula.validity}</dd>
          <dt>Source</dt>
          <dd safe>{formula.source}</dd>
          {formula.caution ? (
            <>
              <dt>Mind</dt>
              <dd safe>{formula.caution}</dd>
            </>
          ) : (
            ''
          )}
        </dl>
      </div>
      {example(entry, find)}
    </article>
  );
}

function symbolTable({ formula, symbols }: EntryModel): JSX.Element {
  return (
    <table class="symbols">
      <caption class="vh" safe>
        {`Symbols of: ${formula.title}`}
      </caption>
      <thead>
        <tr>
          <th scope="col">Symbol</th>
          <th scope="col">Is</th>
          <th scope="col">Unit</th>
          <th scope="col">Range or value</th>
        </tr>
      </thead>
      <tbody>{symbols.map(symbolRow)}</tbody>
    </table>
  );
}

function symbolRow({ symbol, meaning, unit, holds }: SymbolLine): JSX.Element {
  return (
    <tr>
      <th scope="row" safe>
        {symbol}
      </th>
      <td safe>{meaning}</td>
      <td safe>{unit}</td>
      <td safe>{holds}</td>
    </tr>
  );
}

function example(entry: EntryModel, find: string): JSX.Element {
  const { formula, example: worked } = entry;
  return (
    <form class="example" method="get" action={`${ADDRESS}#${formula.id}`}>
      <h4>Worked example</h4>
      {find ? <input type="hidden" name="find" value={find} /> : ''}
      {formula.inputs.map((input) => inputField(entry, input))}
      <p class="acts">
        <button type="submit" class="btn" aria-label={`Work it out: ${formula.title}`}>
          Work it out
        </button>
        {worked.isTyped ? (
          <a class="btn plain" href={`${ADDRESS}${find ? `?find=${encodeURIComponent(find)}` : ''}#${formula.id}`}>
            Back to the example
          </a>
        ) : (
          ''
        )}
      </p>
      {result(entry)}
    </form>
  );
}

function inputField({ formula, example: { typed, faults } }: EntryModel, input: FormulaInput): JSX.Element {
  const parts = {
    name: fieldName(formula, input),
    label: input.symbol ? `${input.symbol}: ${input.meaning}` : input.meaning,
    value: typed[input.name] ?? '',
    ...(faults[input.name] && { fault: faults[input.name] as string }),
  };
  if (input.kind === 'choice') return selectField({ ...parts, options: input.choices });
  return textField({
    ...parts,
    ...(input.unit !== '' && { unit: input.unit }),
    inputmode: input.min < 0 ? 'text' : 'decimal',
    autocomplete: 'off',
    hint: rangeWords({ ...input, unit: '' }),
  });
}

function result({ formula, example: { faults, outputs }, outputs: shown }: EntryModel): JSX.Element {
  if (outputs !== null) {
    return (
      <dl class="worked" aria-label={`Result of: ${formula.title}`}>
        {shown.map(({ symbol, meaning, value }) => (
          <div>
            <dt>
              <b safe>{symbol}</b> <span safe>{meaning}</span>
            </dt>
            <dd class="amount" safe>
              {value}
            </dd>
          </div>
        ))}
      </dl>
    );
  }
  return (
    <p class="note act" role="alert" safe>
      {faults[''] ?? 'Nothing is worked out until every figure can be used. What you typed is kept.'}
    </p>
  );
}
