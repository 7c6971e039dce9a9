import { unguarded } from './csv-cell.js';
import type { CsvColumn } from './csv-columns.js';

export type CellReading = { readonly value: unknown } | { readonly allowed: string };

const NUMBER = /^-?\d+(\.\d+)?(e[+-]?\d+)?$/i;
const WORDS_BETWEEN = /\s*;\s*/;

/** Reads one cell that is not empty; what cannot be read gives a sentence on what is allowed. */
export function readCell(column: CsvColumn, cell: string): CellReading {
  const trimmed = cell.trim();
  switch (column.form) {
    case 'text':
      return { value: unguarded(trimmed) };
    case 'number':
      return NUMBER.test(trimmed)
        ? { value: Number(trimmed) * column.perUnit }
        : { allowed: 'A number with a point and without thousands separators or unit, for example 2310 or 0.75.' };
    case 'yes-no':
      return trimmed === 'yes' || trimmed === 'no' ? { value: trimmed === 'yes' } : { allowed: 'yes or no.' };
    case 'word-list':
      return { value: trimmed.split(WORDS_BETWEEN).filter(Boolean) };
    case 'date-or-not-yet':
      return { value: trimmed === 'not-yet' ? null : trimmed };
    case 'levels':
      return readLevels(trimmed);
  }
}

function readLevels(cell: string): CellReading {
  const levels = cell
    .split(WORDS_BETWEEN)
    .filter(Boolean)
    .map((level) => level.split(/\s*x\s*/));
  if (!levels.every((level) => level.length === 2 && level.every((figure) => NUMBER.test(figure)))) {
    return { allowed: 'Levels from the water line down, area in m2 x height in m, for example 12x0.3; 8.2x0.6.' };
  }
  return { value: levels.map(([areaM2, heightM]) => ({ areaM2: Number(areaM2), heightM: Number(heightM) })) };
}
