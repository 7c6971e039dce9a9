import type { ReadingField } from './reading-fields.js';
import type { Sample } from './reading-words.js';
import { aimWords } from './reading-words.js';
import { shown } from './typed-reading.js';

/** A reading of earlier, with the date to say it by. */
export interface EarlierReading {
  readonly value: number;
  /** E.g. "3 Oct". */
  readonly on: string;
}

/** How many readings back a trend is told. */
export const TREND_READINGS = 4;

/** What stands beside a field: "Aim for 7 to 8.5. Last 7.4 on 3 Oct, before that 7.5, 7.6." */
export function besideField(field: ReadingField, earlier: readonly EarlierReading[], sample: Sample): string {
  const aim = aimWords(field, sample);
  return [aim === '' ? '' : `Aim: ${aim}.`, lastWords(field, earlier)].filter((part) => part !== '').join(' ');
}

function lastWords(field: ReadingField, earlier: readonly EarlierReading[]): string {
  const last = earlier.at(-1);
  if (!last) return '';
  const unit = field.unit && ` ${field.unit}`;
  const before = earlier.slice(-TREND_READINGS, -1).reverse();
  const words = `Last ${shown(field, last.value)}${unit} on ${last.on}`;
  if (before.length === 0) return `${words}.`;
  return `${words}, before that ${before.map((one) => shown(field, one.value)).join(', ')}.`;
}
