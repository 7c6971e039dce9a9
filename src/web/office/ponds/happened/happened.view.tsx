import type { Actor } from '../../../../accounts/index.js';
import type { Caution } from '../../../../core/care/caution.js';
import { areaField, textField } from '../../../forms/fields.js';
import { formToken, page } from '../../../shell/layout.js';
import type { HappenedModel } from './happened.view-model.js';

export function happenedPage(actor: Actor, model: HappenedModel): string {
  return page({
    title: `Something happened at ${model.pondName}`,
    actor,
    current: '/ponds',
    undo: null,
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
            <h1 safe>{model.chosen?.title ?? 'Something happened'}</h1>
            <p class="lead">The calendar of the pond is worked out anew at once.</p>
          </div>
        </div>
        {model.chosen ? eventForm(actor, model, model.chosen) : kindList(model)}
      </>
    ),
  });
}

function kindList({ kinds, pondId }: HappenedModel): JSX.Element {
  return (
    <ul>
      {kinds.map(({ kind, title }) => (
        <li>
          <a href={`/ponds/${pondId}/happened?kind=${kind}`} safe>
            {title}
          </a>
        </li>
      ))}
    </ul>
  );
}

function eventForm(actor: Actor, model: HappenedModel, chosen: NonNullable<HappenedModel['chosen']>): JSX.Element {
  const { faults } = model;
  return (
    <>
      {chosen.cautions.map(cautionBox)}
      {chosen.follows.length > 0 ? <p class="fine gap" safe>{`It calls for: ${chosen.follows.join('; ')}.`}</p> : ''}
      <form method="post" action={`/ponds/${model.pondId}/happened`} class="grid6 gap">
        {formToken(actor)}
        <input type="hidden" name="id" value={model.id} />
        <input type="hidden" name="kind" value={chosen.kind} />
        {textField({
          name: 'on',
          label: 'Day',
          value: model.on,
          width: 'c3',
          type: 'date',
          required: true,
          hint: 'In the pond’s own time zone',
          ...(faults.on && { fault: faults.on }),
        })}
        {areaField({
          name: 'note',
          label: 'Note',
          value: model.note,
          width: 'c6',
          hint: chosen.noteHint,
          ...(faults.note && { fault: faults.note }),
        })}
        <p class="c6">
          <button type="submit" class="btn first">
            Write it down
          </button>{' '}
          <a href={`/ponds/${model.pondId}/happened`}>It was something else</a>
        </p>
      </form>
    </>
  );
}

function cautionBox({ firstLine, lines, defersTo }: Caution): JSX.Element {
  return (
    <div class="caution">
      <svg viewBox="0 0 28 28" aria-hidden="true">
        <path class="o" d="M14 3L26 25H2z" />
        <path class="x" d="M14 11v7M14 21.5v.5" />
      </svg>
      <b safe>{firstLine}</b>
      <span safe>{[...lines, defersTo].join(' ')}</span>
    </div>
  );
}
