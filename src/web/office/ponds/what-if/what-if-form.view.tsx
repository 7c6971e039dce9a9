import type { Species } from '../../../../core/care/pond-facts.js';
import type { UnitSystem } from '../../../../core/units/show.js';
import { showLength } from '../../../../core/units/show.js';
import type { PondRecord } from '../../../../ponds/index.js';
import { type Option, selectField, textField } from '../../../forms/fields.js';
import type { FormFaults } from '../../../forms/form-faults.js';
import { formUnit } from '../form/form-units.js';
import type { TypedPond } from '../form/form-values.js';
import { EQUIPMENT_WORDS, SPECIES_WORDS } from '../form/pond-form-words.js';
import { NEW_FISH, NEW_PUMP, pumpsOf } from './typed-what-if.js';

export interface WhatIfForm {
  readonly pondId: string;
  readonly units: UnitSystem;
  readonly typed: TypedPond;
  readonly faults: FormFaults;
  readonly groups: readonly { readonly name: string; readonly label: string }[];
  readonly pumps: readonly { readonly name: string; readonly label: string }[];
  /** Empty: the place is not asked for. */
  readonly stations: readonly Option[];
}

export function whatIfForm(
  record: PondRecord,
  given: Pick<WhatIfForm, 'units' | 'typed'> & Partial<Pick<WhatIfForm, 'faults' | 'stations'>>,
): WhatIfForm {
  const { units, typed, faults = {}, stations = [] } = given;
  return {
    pondId: record.pond.id,
    units,
    typed,
    faults,
    stations,
    groups: record.stock.map(({ species, lengthCm }, index) => ({
      name: `count.${index}`,
      label: `${SPECIES_WORDS[species]} of ${showLength(lengthCm / 100, units)}, how many`,
    })),
    pumps: pumpsOf(record).map(({ machine, index }) => ({
      name: `flow.${index}`,
      label: `${machine.name || EQUIPMENT_WORDS.pump}, rated flow`,
    })),
  };
}

const NEW_SPECIES: readonly Species[] = ['koi', 'goldfish', 'other-fish', 'slider-turtle'];

/** A question to the calendar: sent by GET, stored nowhere. */
export function whatIfFields(form: WhatIfForm): JSX.Element {
  const { pondId, units, groups, pumps, stations } = form;
  return (
    <form method="get" action={`/ponds/${pondId}/what-if`} class="what-if" novalidate>
      <div class="grid6">
        {groups.map(({ name, label }) => number(form, name, label, '', 'numeric'))}
        {number(form, NEW_FISH.count, 'And more, how many', '', 'numeric')}
        {selectField({
          name: NEW_FISH.species,
          label: 'Of',
          value: form.typed[NEW_FISH.species] ?? 'koi',
          width: 'c2',
          options: NEW_SPECIES.map((value) => ({ value, label: SPECIES_WORDS[value] })),
        })}
        {number(form, NEW_FISH.length, 'Each this long', formUnit('fish-length', units).label)}
        {pumps.map(({ name, label }) => number(form, name, label, formUnit('flow', units).label))}
        {number(form, NEW_PUMP, pumps.length > 0 ? 'One more pump' : 'A pump', formUnit('flow', units).label)}
        {number(form, 'sun', 'Sun at midsummer', 'h', 'decimal', 'Fewer under a shade sail')}
        {number(form, 'warmer', 'All year warmer by', units === 'us' ? '°F' : '°C', 'text', 'A minus for colder')}
        {stations.length > 0
          ? selectField({
              name: 'station',
              label: 'As if it lay at',
              value: form.typed.station ?? '',
              width: 'c4',
              options: stations,
              ...(form.faults.station && { fault: form.faults.station }),
            })
          : ''}
      </div>
      <p class="acts">
        <button type="submit" class="btn first">
          Show both years
        </button>
      </p>
    </form>
  );
}

function number(
  { typed, faults }: WhatIfForm,
  name: string,
  label: string,
  unit: string,
  inputmode: 'decimal' | 'numeric' | 'text' = 'decimal',
  hint?: string,
): JSX.Element {
  const fault = faults[name];
  return textField({
    name,
    label,
    value: typed[name] ?? '',
    width: 'c2',
    inputmode,
    autocomplete: 'off',
    ...(unit && { unit }),
    ...(hint && { hint }),
    ...(fault && { fault }),
  });
}
