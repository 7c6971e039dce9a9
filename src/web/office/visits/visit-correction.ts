import { taskTitle } from '../../../core/care/explain.js';
import { InvalidValueError } from '../../../core/errors.js';
import type { CorrectedRecord, VisitHistory } from '../../../visits/index.js';
import type { ReadingField } from '../../technician/reading-fields.js';
import { shown, typedReading } from '../../technician/typed-reading.js';

/** What stands in the fields of the office's correction, from the record as it is. */
export interface CorrectionForm {
  readonly tasks: readonly {
    readonly id: string;
    readonly title: string;
    readonly outcome: string;
    readonly sharePct: string;
    readonly remark: string;
  }[];
  readonly readings: readonly {
    readonly id: string;
    readonly label: string;
    readonly unit: string;
    readonly value: string;
  }[];
  readonly note: string;
  readonly homeowner: string;
  readonly because: string;
}

type Typed = Readonly<Record<string, string>>;

/** The record as a form, with what was typed where it comes back with faults. */
export function correctionForm(history: VisitHistory, fields: readonly ReadingField[], typed: Typed): CorrectionForm {
  const { merged } = history;
  const present = merged.homeownerPresent;
  return {
    tasks: merged.tasks.map(({ careTaskId: id, outcome, doneShare, remarks }) => ({
      id,
      title: titleOf(history, id),
      outcome: typed[`outcome:${id}`] ?? outcome,
      sharePct: typed[`share:${id}`] ?? (doneShare === null ? '' : String(Math.round(doneShare * 100))),
      remark: typed[`remark:${id}`] ?? remarks.join('. '),
    })),
    readings: history.readings.flatMap(({ id, quantity, value }) => {
      const field = fields.find((one) => one.quantity === quantity);
      if (!field) return [];
      return [{ id, label: field.label, unit: field.unit, value: typed[`reading:${id}`] ?? shown(field, value) }];
    }),
    note: typed.note ?? merged.notes.map(({ note }) => note).join('\n\n'),
    homeowner: typed.homeowner ?? (present === null ? '' : present ? 'yes' : 'no'),
    because: typed.because ?? '',
  };
}

/** The corrected record from what was typed; a reading that shows the same figure stays as it was measured. */
export function correctedRecord(history: VisitHistory, fields: readonly ReadingField[], typed: Typed): CorrectedRecord {
  const { merged } = history;
  return {
    because: typed.because ?? '',
    note: (typed.note ?? '').trim(),
    homeownerPresent: typed.homeowner === 'yes' ? true : typed.homeowner === 'no' ? false : null,
    tasks: merged.tasks.map(({ careTaskId, actuals, doses, serials, ...task }) => {
      const said = typed[`outcome:${careTaskId}`] ?? task.outcome;
      const outcome = said === 'done' || said === 'partly' ? said : 'not-done';
      const doneShare = outcome === 'partly' ? Number(typed[`share:${careTaskId}`]) / 100 : null;
      const remark = (typed[`remark:${careTaskId}`] ?? '').trim();
      return { careTaskId, outcome, doneShare, remark, actuals, doses, serials };
    }),
    readings: history.readings.map((reading) => {
      const { id, quantity, value, takenAt } = reading;
      return { id, quantity, value: correctedValue(reading, fields, typed[`reading:${id}`]) ?? value, takenAt };
    }),
  };
}

function correctedValue(
  { quantity, value }: VisitHistory['readings'][number],
  fields: readonly ReadingField[],
  text: string | undefined,
): number | null {
  const field = fields.find((one) => one.quantity === quantity);
  if (!field || text === undefined || text.trim() === shown(field, value)) return null;
  const reading = typedReading(field, text);
  if (reading.kind === 'wrong') throw new InvalidValueError(field.label, text, reading.sentence);
  if (reading.kind === 'none') {
    throw new InvalidValueError(field.label, text, 'A reading is corrected, not taken away: write what it should be.');
  }
  return reading.value;
}

function titleOf(history: VisitHistory, taskId: string): string {
  const care = history.tasks.find(({ onVisit }) => onVisit.careTaskId === taskId)?.care;
  return care ? taskTitle(care.task.planned, care.rule) : 'A task that is not on the visit any more';
}
