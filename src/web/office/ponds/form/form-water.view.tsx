import { choiceField, fieldId, group, selectField, textField } from '../../../forms/fields.js';
import { formUnit, type Measure } from './form-units.js';
import type { PondFormModel } from './pond-form.view-model.js';
import { PLANT_OPTIONS, SHAPE_OPTIONS, SPECIES_OPTIONS, TAP_OPTIONS, WIND_OPTIONS } from './pond-form-words.js';
import type { SaidLine } from './said-lines.js';

type Width = 'c2' | 'c3' | 'c4' | 'c6';

export function whereFields(model: PondFormModel): JSX.Element {
  const field = fieldsOf(model);
  return (
    <fieldset id="where">
      <legend>Where</legend>
      <div>
        {field.text('name', 'Name', 'c4', { required: true })}
        {field.text('ref', 'Your reference', 'c2')}
        {field.text('street', 'Street', 'c4')}
        {field.text('town', 'Town', 'c2')}
        {field.text('region', 'State or region', 'c2')}
        {field.text('postalCode', 'Postal code', 'c2')}
        {field.text('country', 'Country', 'c2', { hint: 'Two letters, such as US' })}
        {field.number('latitude', 'Latitude', 'plain', 'c2', { required: true, hint: 'North positive, 43.07' })}
        {field.number('longitude', 'Longitude', 'plain', 'c2', { required: true, hint: 'East positive, −89.40' })}
        {field.number('elevation', 'Elevation', 'elevation', 'c2', { required: true })}
        {field.text('commissionedOn', 'Filled on', 'c2', { type: 'date', hint: 'Empty for a pond taken over' })}
        {field.text('careSince', 'In your care since', 'c2', { type: 'date' })}
        {field.number('directSunHours', 'Direct sun in June', 'plain', 'c2', { unit: 'h a day' })}
        {choiceField({
          name: 'windShelter',
          label: 'Wind over the water',
          kind: 'radio',
          chosen: [model.typed.windShelter || 'suburban'],
          options: WIND_OPTIONS,
        })}
        <div class="f c6">
          <span class="lab-t">Around it</span>
          <div class="choice">
            {field.box('treesNear', 'Trees within 50 ft (15 m)')}
            {field.box('waterfall', 'Waterfall or stream')}
          </div>
        </div>
        <details class="c6 more">
          <summary>Climate, time zone: set by hand</summary>
          <div class="grid6">
            {selectField({ ...field.parts('stationId', 'Climate station', 'c4'), options: model.stations })}
            {field.text('hardinessZone', 'Hardiness zone', 'c2', { hint: 'Such as 5b' })}
            {field.text('koeppen', 'Climate class', 'c2', { hint: 'Such as Dfa' })}
            {field.text('timeZone', 'Time zone', 'c4', { hint: 'Empty: it follows from the coordinates' })}
          </div>
        </details>
        {saidLine('where', model.said.where)}
      </div>
    </fieldset>
  );
}

export function shapeFields(model: PondFormModel): JSX.Element {
  const field = fieldsOf(model);
  return (
    <fieldset id="shape">
      <legend>
        Shape<small>or enter the metered fill alone</small>
      </legend>
      <div class="shape">
        {choiceField({
          name: 'shapeKind',
          label: 'Outline',
          kind: 'radio',
          chosen: [model.typed.shapeKind || 'ellipse'],
          options: SHAPE_OPTIONS,
          ...field.fault('shapeKind'),
        })}
        <div class="c2 of-sides">{field.number('length', 'Longest length', 'length')}</div>
        <div class="c2 of-sides">{field.number('width', 'Widest width', 'length')}</div>
        <div class="c2 of-kidney">{field.number('otherWidth', 'Width of the other lobe', 'length')}</div>
        <div class="c2 of-circle">{field.number('diameter', 'Diameter', 'length')}</div>
        <div class="c2 of-area">{field.number('area', 'Surface area', 'area')}</div>
        <div class="c6 of-shape">
          {choiceField({
            name: 'depthKind',
            label: 'Depth is known as',
            kind: 'radio',
            chosen: [model.typed.depthKind || 'average'],
            ...field.fault('depthKind'),
            options: [
              { value: 'average', label: 'Mean and deepest' },
              { value: 'bowl', label: 'Deepest of a bowl' },
              { value: 'vertical', label: 'Straight walls' },
              { value: 'levels', label: 'By shelves' },
              { value: 'contours', label: 'By depth lines' },
            ],
          })}
        </div>
        <div class="c2 of-depth">{field.number('maxDepth', 'Deepest', 'length')}</div>
        <div class="c2 of-mean">{field.number('meanDepth', 'Mean depth', 'length')}</div>
        <div class="c2 of-shape">
          {field.number('rockShare', 'Rocks and pots', 'percent', undefined, { hint: '5 % where left empty' })}
        </div>
        <div class="c6 of-levels grid6">
          {model.rows.levels.map((row) => (
            <>
              <div class="c3">{field.number(`level.${row}.area`, `Level ${row + 1}, area`, 'area')}</div>
              <div class="c3">{field.number(`level.${row}.height`, 'its height', 'length')}</div>
            </>
          ))}
          <p class="fine c6">From the water line down: the area open in each level, and how high the level is.</p>
        </div>
        <div class="c6 of-contours grid6">
          {model.rows.contours.map((row) => (
            <>
              <div class="c3">{field.number(`contour.${row}.depth`, `Line ${row + 1}, depth`, 'length')}</div>
              <div class="c3">{field.number(`contour.${row}.area`, 'area inside it', 'area')}</div>
            </>
          ))}
          <p class="fine c6">
            From the highest line down, best evenly spaced: how deep it lies, and the area inside it. The last one is
            the floor, or 0 at the deepest point.
          </p>
        </div>
        <div class="c3">{field.number('measuredVolume', 'Measured volume', 'volume')}</div>
        <div class="c3">
          {selectField({
            ...field.parts('measuredBy', 'Measured by', 'c6'),
            options: [
              { value: 'metered', label: 'Water meter at the fill' },
              { value: 'salt-test', label: 'Salt test' },
            ],
          })}
        </div>
        {saltTestFields(field)}
        {saidLine('shape', model.said.shape)}
      </div>
    </fieldset>
  );
}

/** A salt test: with what was weighed in and read, volume and error are worked out. */
function saltTestFields(field: FormFields): JSX.Element {
  const reading = { unit: 'g/L' };
  return (
    <div class="c6 of-salt grid6">
      {field.number('saltMass', 'Salt put in', 'mass', 'c2')}
      {field.number('saltBefore', 'Salinity before', 'plain', 'c2', reading)}
      {field.number('saltAfter', 'Salinity after', 'plain', 'c2', reading)}
      {field.number('measuredSigma', 'Or its error', 'plain', 'c2', { unit: '%', hint: '8 % where left empty' })}
      <p class="fine c6">
        Dissolve it, let it mix for two turnovers or a night, and read at three places. With salt and both readings the
        volume above is worked out. Not with turtles, zeolite or plants that salt harms.
      </p>
    </div>
  );
}

export function fishFields(model: PondFormModel): JSX.Element {
  const field = fieldsOf(model);
  return (
    <fieldset id="fish">
      <legend>
        Fish<small>and turtles and plants</small>
      </legend>
      <div>
        {model.rows.stock.map((row) =>
          group(
            { class: 'c6 grid6 row', label: `Stock ${row + 1}` },
            <>
              {selectField({ ...field.parts(`stock.${row}.species`, 'Kind', 'c2'), options: SPECIES_OPTIONS })}
              {field.number(`stock.${row}.count`, 'Count', 'plain', 'c2')}
              {field.number(`stock.${row}.length`, 'Mean length', 'fish-length', 'c2')}
            </>,
          ),
        )}
        <p class="c6">{moreButton('stock', 'Add a kind', `${model.action}#fish`)}</p>
        <div class="c6 choice">{field.box('runningIn', 'Still running in: no fish or turtle in it yet')}</div>
        {field.text('stockedOn', 'Livestock released on', 'c3', { type: 'date' })}
        {choiceField({
          name: 'plants',
          label: 'Plants',
          kind: 'checkbox',
          chosen: (model.typed.plants ?? '').split(','),
          options: PLANT_OPTIONS,
        })}
        {saidLine('fish', model.said.fish)}
      </div>
    </fieldset>
  );
}

export function tapFields(model: PondFormModel): JSX.Element {
  const field = fieldsOf(model);
  return (
    <fieldset id="tap">
      <legend>Tap water</legend>
      <div>
        {selectField({ ...field.parts('tapSource', 'Treated with', 'c3'), options: TAP_OPTIONS })}
        {field.number('tapChlorine', 'Total chlorine', 'plain', 'c3', { unit: 'mg/L' })}
        {saidLine('tap', model.said.tap)}
      </div>
    </fieldset>
  );
}

export function saidLine(place: string, line: SaidLine | null): JSX.Element {
  return (
    <div class="c6" id={`said-${place}`} aria-live="polite">
      {line ? saidText(line) : ''}
    </div>
  );
}

export function saidText(line: SaidLine): JSX.Element {
  return (
    <p class={line.tone === 'act' ? 'said act' : 'said'}>
      <b safe>{line.lead}</b> <span safe>{line.text}</span>
    </p>
  );
}

export function moreButton(list: string, words: string, to: string): JSX.Element {
  return (
    <button type="submit" class="btn" name="more" value={list} formaction={to} safe>
      {words}
    </button>
  );
}

interface More {
  readonly unit?: string;
  readonly hint?: string;
  readonly required?: boolean;
  readonly type?: 'text' | 'date' | 'email' | 'tel';
}
export type FormFields = ReturnType<typeof fieldsOf>;

/** Fields of this form, filled with what was typed and with its faults. */
export function fieldsOf({ typed, faults, units }: PondFormModel) {
  const value = (name: string) => typed[name] ?? '';
  const fault = (name: string) => (faults[name] ? { fault: faults[name] } : {});
  const parts = (name: string, label: string, width?: Width) => ({
    name,
    label,
    value: value(name),
    ...(width && { width }),
    ...fault(name),
  });
  return {
    value,
    fault,
    parts,
    text: (name: string, label: string, width?: Width, more: More = {}) =>
      textField({ ...parts(name, label, width), ...more }),
    number: (name: string, label: string, measure: Measure, width?: Width, more: More = {}) => {
      const unit = more.unit ?? formUnit(measure, units).label;
      return textField({
        ...parts(name, label, width),
        ...more,
        ...(unit && { unit }),
        inputmode: measure === 'plain' && !unit ? 'text' : 'decimal',
      });
    },
    box: (name: string, label: string) => (
      <label>
        <input type="checkbox" id={fieldId(name)} name={name} value="yes" checked={value(name) === 'yes'} />
        <span safe>{label}</span>
      </label>
    ),
  };
}
