import type { UnitSystem } from '../../../../core/units/show.js';
import { formUnit, type Measure, readNumber } from './form-units.js';
import type { ShownPond, TypedPond } from './form-values.js';

/** The numbers of a form in stored units. What cannot be read is collected as a fault of its field. */
export class TypedNumbers {
  readonly faults: Record<string, string> = {};

  constructor(
    private readonly typed: TypedPond,
    private readonly units: UnitSystem,
    private readonly shown: ShownPond | null,
  ) {}

  /** Null where the field is empty, or where it cannot be read. */
  read(field: string, measure: Measure, label: string): number | null {
    const text = this.typed[field];
    const asShown = this.shown?.stored[field];
    if (asShown !== undefined && this.shown?.typed[field] === text) return asShown;

    const number = readNumber(text);
    if (number === null) return null;
    if (Number.isNaN(number)) {
      this.faults[field] = `${label}: “${text?.trim()}” is not a number. Write it in figures, for example 3.5.`;
      return null;
    }
    return formUnit(measure, this.units).stored(number);
  }
}
