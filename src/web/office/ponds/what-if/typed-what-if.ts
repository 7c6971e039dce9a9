import type { WhatIf } from '../../../../care-calendar/index.js';
import type { Station } from '../../../../core/climate/station.js';
import type { UnitSystem } from '../../../../core/units/show.js';
import {
  PondInputRefusedError,
  type PondInputTyped,
  type PondRecord,
  pondInputOf,
  readPondInput,
} from '../../../../ponds/index.js';
import type { FormFaults } from '../../../forms/form-faults.js';
import { shownInField } from '../form/form-units.js';
import type { TypedPond } from '../form/form-values.js';
import { TypedNumbers } from '../form/typed-numbers.js';

/** How much warmer or colder may be asked. [°C] */
export const WARMER_RANGE_C = { min: -10, max: 10 } as const;
const DEGREES_F_PER_C = 1.8;
/** Fields of what is not on the record yet. */
export const NEW_FISH = { species: 'species.new', count: 'count.new', length: 'length.new' } as const;
export const NEW_PUMP = 'flow.new';

export interface ReadWhatIf {
  /** Null where something cannot be used. */
  readonly whatIf: WhatIf | null;
  readonly faults: FormFaults;
}

/** The pumps of a record, in its order, each with its place in the register. */
export function pumpsOf({ equipment }: Pick<PondRecord, 'equipment'>) {
  return equipment.map((machine, index) => ({ machine, index })).filter(({ machine }) => machine.kind === 'pump');
}

/** The fields of the question as the record answers them: nothing is changed yet. */
export function shownWhatIf(record: PondRecord, units: UnitSystem): TypedPond {
  return {
    ...Object.fromEntries(record.stock.map(({ headCount }, index) => [`count.${index}`, String(headCount)])),
    ...Object.fromEntries(
      pumpsOf(record).map(({ machine, index }) => [
        `flow.${index}`,
        machine.rated.flowLPerH === undefined ? '' : shownInField(machine.rated.flowLPerH, 'flow', units),
      ]),
    ),
    [NEW_FISH.species]: 'koi',
    sun: shownInField(record.pond.directSunHours, 'plain', units),
  };
}

/** Whether something is asked at all: a field that stands as it is asks nothing. */
export function isAsked(typed: TypedPond, record: PondRecord, units: UnitSystem): boolean {
  const shown = shownWhatIf(record, units);
  return Object.entries(typed).some(
    ([name, value]) => name !== NEW_FISH.species && value.trim() !== '' && value.trim() !== (shown[name] ?? ''),
  );
}

/** The record as it would be. A field left empty changes nothing; a group of none leaves the pond. */
export function readWhatIf(
  typed: TypedPond,
  record: PondRecord,
  given: { readonly units: UnitSystem; readonly stationOf: (id: string) => Station | undefined },
): ReadWhatIf {
  const { units } = given;
  const shown = shownWhatIf(record, units);
  const standing = pondInputOf(record);
  const stored = Object.fromEntries(
    pumpsOf(record).flatMap(({ machine, index }) =>
      machine.rated.flowLPerH === undefined ? [] : [[`flow.${index}`, machine.rated.flowLPerH]],
    ),
  );
  const numbers = new TypedNumbers(typed, units, { typed: shown, stored });
  const fieldOf = new Map<string, string>();
  const stock = stockOf(typed, standing, numbers, fieldOf);
  const equipment = equipmentOf(typed, standing, numbers, fieldOf);
  const sunHours = numbers.read('sun', 'plain', 'Sun') ?? standing.directSunHours;
  fieldOf.set('directSunHours', 'sun');
  const warmer = numbers.read('warmer', 'plain', 'Warmer') ?? 0;
  const warmerC = units === 'us' ? warmer / DEGREES_F_PER_C : warmer;
  const place = placeOf(typed, given.stationOf);
  const faults: Record<string, string> = { ...numbers.faults, ...place.faults };
  if (warmerC < WARMER_RANGE_C.min || warmerC > WARMER_RANGE_C.max) faults.warmer = warmerFault(units);
  try {
    const input = readPondInput({
      ...standing,
      stock,
      equipment,
      ...(sunHours !== undefined && { directSunHours: sunHours }),
      ...place.at,
    });
    return Object.keys(faults).length > 0 ? { whatIf: null, faults } : { whatIf: { input, warmerC }, faults };
  } catch (error) {
    if (!(error instanceof PondInputRefusedError)) throw error;
    for (const { field, allowed } of error.faults) faults[fieldOf.get(field) ?? ''] ??= sentence(allowed);
    return { whatIf: null, faults };
  }
}

function stockOf(typed: TypedPond, standing: PondInputTyped, numbers: TypedNumbers, fieldOf: Map<string, string>) {
  const stock: NonNullable<PondInputTyped['stock']> = [];
  for (const [index, group] of (standing.stock ?? []).entries()) {
    const count = numbers.read(`count.${index}`, 'plain', 'How many') ?? group.count;
    if (count === 0) continue;
    fieldOf.set(`stock.${stock.length}.count`, `count.${index}`);
    stock.push({ ...group, count });
  }
  const count = numbers.read(NEW_FISH.count, 'plain', 'How many');
  const lengthCm = numbers.read(NEW_FISH.length, 'fish-length', 'Length');
  if (count === null || count === 0) return stock;
  fieldOf.set(`stock.${stock.length}.count`, NEW_FISH.count);
  fieldOf.set(`stock.${stock.length}.lengthCm`, NEW_FISH.length);
  fieldOf.set(`stock.${stock.length}.species`, NEW_FISH.species);
  const species = (typed[NEW_FISH.species] ?? 'koi') as 'koi';
  return [...stock, { species, count, lengthCm: lengthCm ?? Number.NaN }];
}

function equipmentOf(
  typed: TypedPond,
  standing: ReturnType<typeof pondInputOf>,
  numbers: TypedNumbers,
  fieldOf: Map<string, string>,
): NonNullable<PondInputTyped['equipment']> {
  const equipment = standing.equipment.map((machine, index) => {
    const name = `flow.${index}`;
    const flowLPerH = machine.kind === 'pump' && typed[name] ? numbers.read(name, 'flow', 'Flow') : null;
    fieldOf.set(`equipment.${index}.rated.flowLPerH`, name);
    return flowLPerH === null ? machine : { ...machine, rated: { ...machine.rated, flowLPerH } };
  });
  const flowLPerH = numbers.read(NEW_PUMP, 'flow', 'Flow');
  if (flowLPerH === null || flowLPerH === 0) return equipment;
  fieldOf.set(`equipment.${equipment.length}.rated.flowLPerH`, NEW_PUMP);
  return [...equipment, { kind: 'pump', name: 'One more pump', rated: { flowLPerH } }];
}

/** As if the pond lay at the station; what a person knows better of the old place does not hold there. */
function placeOf(
  { station: id }: TypedPond,
  stationOf: (id: string) => Station | undefined,
): { readonly at: Partial<PondInputTyped>; readonly faults: Record<string, string> } {
  if (!id) return { at: {}, faults: {} };
  const station = stationOf(id);
  if (!station) return { at: {}, faults: { station: 'There is no such station. Choose one of the list.' } };
  const { latitude, longitude, elevationM } = station;
  return {
    at: { latitude, longitude, elevationM, stationId: station.id, hardinessZone: null, koeppen: null },
    faults: {},
  };
}

function warmerFault(units: UnitSystem): string {
  const { min, max } = WARMER_RANGE_C;
  const by = units === 'us' ? DEGREES_F_PER_C : 1;
  return `Warmer: ${min * by} to ${max * by} ${units === 'us' ? '°F' : '°C'}.`;
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
