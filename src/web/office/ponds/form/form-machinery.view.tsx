import { group, selectField } from '../../../forms/fields.js';
import { type FormFields, fieldsOf, moreButton, saidLine } from './form-water.view.js';
import type { PondFormModel } from './pond-form.view-model.js';
import { EQUIPMENT_OPTIONS, PIPE_OPTIONS } from './pond-form-words.js';

export function machineFields(model: PondFormModel): JSX.Element {
  const field = fieldsOf(model);
  return (
    <fieldset id="machinery">
      <legend>
        Machinery<small>each pump is a circuit of its own</small>
      </legend>
      <div>
        {model.rows.equipment.map((row) => machineRow(row, field))}
        <p class="c6">{moreButton('equipment', 'Add a machine', `${model.action}#machinery`)}</p>
        {saidLine('machinery', model.said.machinery)}
      </div>
    </fieldset>
  );
}

function machineRow(row: number, field: FormFields): JSX.Element {
  const at = (name: string) => `equipment.${row}.${name}`;
  return group(
    { class: 'c6 grid6 row machine', label: `Machine ${row + 1}` },
    <>
      <input type="hidden" name={at('id')} value={field.value(at('id'))} />
      {selectField({ ...field.parts(at('kind'), 'Kind', 'c2'), options: EQUIPMENT_OPTIONS })}
      <div class="c2 m-flow">{field.number(at('flow'), 'Rated flow', 'flow')}</div>
      <div class="c2 m-media">{field.number(at('media'), 'Media', 'volume')}</div>
      <div class="c2 m-power">{field.number(at('power'), 'Power', 'plain', undefined, { unit: 'W' })}</div>
      <div class="c2 m-surface">
        {field.number(at('mediaSurface'), 'Media surface', 'plain', undefined, { unit: 'm²/m³' })}
      </div>
      <div class="c2 m-lamp">
        {field.number(at('lampHours'), 'Rated lamp life', 'plain', undefined, {
          unit: 'h',
          hint: '9,000 h where left empty',
        })}
      </div>
      {pumpLineFields(at, field)}
      <div class="c2 m-any">{field.text(at('installedOn'), 'Installed on', undefined, { type: 'date' })}</div>
      <details class="c6 more m-any">
        <summary>Name, service life, warranty</summary>
        <div class="grid6">
          {field.text(at('name'), 'Name or place', 'c2')}
          {field.number(at('life'), 'Service life', 'years', 'c2')}
          {field.text(at('warrantyUntil'), 'Warranty until', 'c2', { type: 'date' })}
        </div>
      </details>
    </>,
  );
}

/** What a pump pumps through. Left empty, its plate has to do. */
function pumpLineFields(at: (name: string) => string, field: FormFields): JSX.Element {
  const names = ['maxHead', 'lift', 'pipeLength', 'pipeInside', 'elbows', 'checkValves', 'filterHead'];
  const isOpen = names.some((name) => field.value(at(name)) !== '' || 'fault' in field.fault(at(name)));
  return (
    <details class="c6 more m-flow" open={isOpen}>
      <summary>Lift and pipe: what it really moves</summary>
      <div class="grid6">
        {field.number(at('maxHead'), 'Greatest height', 'length', 'c2', { hint: 'On its plate: no flow any more' })}
        {field.number(at('lift'), 'Lift', 'length', 'c2', { hint: 'From the open water to the outlet' })}
        {field.number(at('pipeLength'), 'Length of the pipe', 'length', 'c2')}
        {field.number(at('pipeInside'), 'Inside diameter', 'bore', 'c2')}
        {selectField({ ...field.parts(at('pipeWall'), 'Pipe', 'c2'), options: PIPE_OPTIONS })}
        {field.number(at('elbows'), 'Right-angle bends', 'plain', 'c2')}
        {field.number(at('checkValves'), 'Check valves', 'plain', 'c2')}
        {field.number(at('filterHead'), 'Filter and lamp take', 'length', 'c2', { hint: 'Of head; empty for none' })}
      </div>
    </details>
  );
}
