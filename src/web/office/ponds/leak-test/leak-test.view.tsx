import type { Actor } from '../../../../accounts/index.js';
import { verdictSign } from '../../../charts/verdict-sign.js';
import { choiceField, group, textField } from '../../../forms/fields.js';
import { formToken, page } from '../../../shell/layout.js';
import { formUnit, type Measure } from '../form/form-units.js';
import type { FactLine } from '../page/fact-line.js';
import type { LeakTestModel, LeakVerdictModel } from './leak-test.view-model.js';

export function leakTestPage(actor: Actor, model: LeakTestModel): string {
  return page({
    title: `Leak test of ${model.pondName}`,
    actor,
    current: '/ponds',
    undo: model.isKept ? { text: 'The test is kept. Go on with it by adding a level.' } : null,
    children: (
      <>
        <div class="head">
          <div>
            <p class="crumb">
              <a href="/ponds">Ponds</a> /{' '}
              <a href={`/ponds/${model.pondId}`} safe>
                {model.pondName}
              </a>
            </p>
            <h1>Leak test</h1>
            <p class="lead" safe>
              {model.advice}
            </p>
          </div>
        </div>
        {model.faultCount > 0 ? faultNote(model) : ''}
        <div class="form">
          {levelsForm(actor, model)}
          <aside class="side" id="verdict" aria-labelledby="verdict-title">
            <h2 id="verdict-title">What it says</h2>
            {model.verdict ? verdictBlock(model.verdict) : nothingYet()}
            {model.earlier.length > 0 ? earlierTests(model) : ''}
          </aside>
        </div>
      </>
    ),
  });
}

function levelsForm(actor: Actor, model: LeakTestModel): JSX.Element {
  const action = `/ponds/${model.pondId}/leak-test`;
  return (
    <form method="post" action={`${action}#verdict`} novalidate>
      {formToken(actor)}
      <input type="hidden" name="id" value={model.typed.id ?? ''} />
      {/* The first button of a form is the one Enter presses: it only works the test out. */}
      <button type="submit" class="vh" tabindex="-1" name="look" value="yes">
        Work it out
      </button>
      <fieldset id="levels">
        <legend>
          Levels<small>two or more, some days apart</small>
        </legend>
        <div>
          <p class="c6 fine">
            Make a mark on something that does not move, at the water line or above it. Read on calm water, at about the
            same hour; measure down to the water, and write a minus where it stands above the mark.
          </p>
          {model.rows.map((row) => levelRow(row, model))}
          <p class="c6">
            <button type="submit" class="btn" name="more" value="level" formaction={`${action}#levels`}>
              Add a level
            </button>
          </p>
        </div>
      </fieldset>
      <fieldset id="conditions">
        <legend>
          Conditions<small>over the whole test</small>
        </legend>
        <div>
          {choiceField({
            name: 'pumps',
            label: 'Pumps',
            kind: 'radio',
            chosen: [model.typed.pumps || 'on'],
            options: [
              { value: 'on', label: 'Ran all the time' },
              { value: 'off', label: 'Were off' },
            ],
          })}
          {number(model, 'bucket', 'A bucket in the pond fell by', 'level', 'c3', 'Empty without a bucket')}
          <div class="f c6 choice">
            <label>
              <input type="checkbox" id="f-spray" name="spray" value="yes" checked={model.typed.spray === 'yes'} />
              <span>Spray visibly leaves the basin</span>
            </label>
          </div>
        </div>
      </fieldset>
      <p class="acts">
        <button type="submit" class="btn" name="look" value="yes">
          Work it out
        </button>
        <button type="submit" class="btn first" formaction={action}>
          Keep this test
        </button>
        <a class="btn plain" href={`${action}?new=1`}>
          Start a new one
        </a>
      </p>
    </form>
  );
}

function levelRow(row: number, model: LeakTestModel): JSX.Element {
  const at = (name: string) => `level.${row}.${name}`;
  const time = at('at');
  const fault = model.faults[time];
  return group(
    { class: 'c6 grid6 row', label: `Level ${row + 1}` },
    <>
      {textField({
        name: time,
        label: row === 0 ? 'First level, taken' : 'Taken',
        value: model.typed[time] ?? '',
        width: 'c3',
        type: 'datetime-local',
        ...(fault && { fault }),
      })}
      {number(
        model,
        at('below'),
        'Water below the mark',
        'level',
        'c3',
        model.units === 'us' && row === 0 ? 'Such as 1 3/8' : undefined,
      )}
      {row === 0 ? (
        ''
      ) : (
        <>
          {number(model, at('rain'), 'Rain since the one above', 'level', 'c3', 'Empty for none')}
          {number(model, at('added'), 'Water added since', 'volume', 'c3', 'Empty for none')}
        </>
      )}
    </>,
  );
}

function number(
  model: LeakTestModel,
  name: string,
  label: string,
  measure: Measure,
  width: 'c3',
  hint?: string,
): JSX.Element {
  const fault = model.faults[name];
  return textField({
    name,
    label,
    value: model.typed[name] ?? '',
    width,
    unit: formUnit(measure, model.units).label,
    inputmode: measure === 'level' ? 'text' : 'decimal',
    ...(hint && { hint }),
    ...(fault && { fault }),
  });
}

function verdictBlock(verdict: LeakVerdictModel): JSX.Element {
  return (
    <div role="status" class="leak">
      <p>{verdictSign(verdict.level, verdict.words)}</p>
      <p safe>{verdict.certainty}</p>
      <p class={verdict.level === 'in-order' ? 'said' : 'said act'}>
        <b>Next.</b> <span safe>{verdict.next}</span>
      </p>
      {facts(verdict.sums)}
      <p class="fine">
        The error counts the ruler, the weather of these days against an average year, shelter and the waterfall.{' '}
        <a href="/how-it-is-computed#leak-verdict">How it is computed</a>
      </p>
    </div>
  );
}

function nothingYet(): JSX.Element {
  return (
    <p class="q">
      With two levels the verdict stands here: how much is lost without a reason, how certain that is, and what to do
      next.
    </p>
  );
}

function earlierTests(model: LeakTestModel): JSX.Element {
  return (
    <section aria-labelledby="earlier-title">
      <h3 id="earlier-title">Kept tests</h3>
      {facts(model.earlier)}
    </section>
  );
}

function facts(lines: readonly FactLine[]): JSX.Element {
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

function faultNote(model: LeakTestModel): JSX.Element {
  return (
    <p class="note act gap" role="alert">
      <b safe>{model.faultCount === 1 ? 'Something cannot be used.' : `${model.faultCount} fields cannot be used.`}</b>{' '}
      <span safe>{model.faults[''] ?? 'Nothing was kept, and everything you typed is still here.'}</span>{' '}
      {model.firstFault ? <a href={`#${model.firstFault}`}>Go to the first</a> : ''}
    </p>
  );
}
