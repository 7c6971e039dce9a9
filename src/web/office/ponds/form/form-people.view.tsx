import { areaField, group, selectField } from '../../../forms/fields.js';
import { fieldsOf, moreButton } from './form-water.view.js';
import type { PondFormModel } from './pond-form.view-model.js';
import { ROLE_OPTIONS } from './pond-form-words.js';

export function contactFields(model: PondFormModel): JSX.Element {
  const field = fieldsOf(model);
  return (
    <fieldset id="people">
      <legend>
        People<small>without an email they go on the call list</small>
      </legend>
      <div>
        {model.rows.contacts.map((row) => {
          const at = (name: string) => `contacts.${row}.${name}`;
          return group(
            { class: 'c6 grid6 row', label: `Contact ${row + 1}` },
            <>
              {['id', 'language', 'digestWeekday', 'digestHour', 'startedOn'].map((name) =>
                field.value(at(name)) ? <input type="hidden" name={at(name)} value={field.value(at(name))} /> : '',
              )}
              {field.text(at('name'), 'Name', 'c4')}
              {selectField({ ...field.parts(at('role'), 'Role', 'c2'), options: ROLE_OPTIONS })}
              {field.text(at('email'), 'Email', 'c4', { type: 'email' })}
              {field.text(at('phone'), 'Phone', 'c2', { type: 'tel' })}
              {selectField({
                ...field.parts(at('units'), 'Reads', 'c3'),
                options: [
                  { value: '', label: 'The company’s units' },
                  { value: 'us', label: 'US gallons, °F' },
                  { value: 'metric', label: 'Litres, °C' },
                ],
              })}
              {selectField({
                ...field.parts(at('mail'), 'Reminders by mail', 'c3'),
                options: [
                  { value: 'yes', label: 'Yes' },
                  { value: 'no', label: 'No, call instead' },
                ],
              })}
            </>,
          );
        })}
        <p class="c6">{moreButton('contacts', 'Add a person', `${model.action}#people`)}</p>
      </div>
    </fieldset>
  );
}

export function accessFields(model: PondFormModel): JSX.Element {
  const field = fieldsOf(model);
  return (
    <fieldset id="access">
      <legend>
        Access<small>shown to the technician</small>
      </legend>
      <div>
        {areaField({ ...field.parts('accessNotes', 'How to get in', 'c6'), rows: 2 })}
        {field.text('gateCode', 'Gate code', 'c2')}
        {areaField({
          ...field.parts('hazards', 'Hazards', 'c4'),
          rows: 2,
          hint: 'Dog, steep bank, deep vault, overhead line',
        })}
      </div>
    </fieldset>
  );
}

export function agreementFields(model: PondFormModel): JSX.Element {
  const field = fieldsOf(model);
  return (
    <fieldset id="agreement">
      <legend>
        Care agreement<small>who does what</small>
      </legend>
      <div>
        <p class="c6 fine" safe>
          {model.agreementIntro}
        </p>
        <details class="c6 more" open={model.rules.some(({ id }) => field.value(`agreement.${id}.doneBy`) !== '')}>
          <summary>Differs for single tasks</summary>
          {model.rules.map(({ id, title }) =>
            group(
              { class: 'grid6 row', label: title },
              <>
                {selectField({
                  ...field.parts(`agreement.${id}.doneBy`, title, 'c2'),
                  options: [
                    { value: '', label: 'As usual' },
                    { value: 'company', label: 'Our crew' },
                    { value: 'homeowner', label: 'Homeowner' },
                  ],
                })}
                {field.text(`agreement.${id}.from`, 'From', 'c2', { type: 'date' })}
                {field.text(`agreement.${id}.until`, 'Until', 'c2', { type: 'date' })}
              </>,
            ),
          )}
        </details>
      </div>
    </fieldset>
  );
}
