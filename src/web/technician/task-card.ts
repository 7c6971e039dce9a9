import type { Caution } from '../../core/care/caution.js';
import type { ChemicalDose } from './chemical-dose.js';

/** A task as a person doing it needs it: words are final, nothing is left to work out. */
export interface TaskCard {
  readonly taskId: string;
  readonly title: string;
  readonly minutes: number;
  readonly people: 1 | 2;
  /** Each with what it was computed for, e.g. "62 g of thiosulfate, for 530 gal of new water". */
  readonly quantities: readonly string[];
  readonly steps: readonly string[];
  readonly cautions: readonly Caution[];
  /** What to bring. */
  readonly parts: readonly string[];
  readonly skills: readonly string[];
  /** Why now, in a sentence. */
  readonly why: string;
  /** E.g. "between 6 and 16 Oct". */
  readonly window: string;
  readonly isLate: boolean;
  /** Done or cancelled by somebody else already. */
  readonly isFinished: boolean;
  /** What the closing may teach besides "done", with the planned figure. */
  readonly actuals: readonly ActualField[];
  /** Hands go near machines that must be without power. */
  readonly needsPowerOff: boolean;
  /** What is fitted with a serial number, if the task fits something. */
  readonly serialOf: 'lamp' | 'media' | null;
  /** Products to measure out, each with the water it is for. */
  readonly chemicals: readonly ChemicalDose[];
}

/** A figure a technician may correct when what was done is not what was planned. */
export interface ActualField {
  readonly name: 'mediaShareRinsed' | 'changedL' | 'stockedKg';
  readonly label: string;
  readonly unit: string;
  /** As planned, in the shown unit. */
  readonly planned: string;
  /** Stored value of one shown unit. */
  readonly perUnit: number;
  /** What may be typed, in the stored unit. */
  readonly min: number;
  readonly max: number;
}
