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
    case 'contours':
      return readContours(trimmed);
  }
}

function readLevels(cell: string): CellReading {
  const levels = readPairs(cell, /\s*x\s*/);
  return levels
    ? { value: levels.map(([areaM2, heightM]) => ({ areaM2, heightM })) }
    : { allowed: 'Levels from the water line down, area in m2 x height in m, for example 12x0.3; 8.2x0.6.' };
}

function readContours(cell: string): CellReading {
  const contours = readPairs(cell, /\s*:\s*/);
  return contours
    ? { value: contours.map(([depthM, areaM2]) => ({ depthM, areaM2 })) }
    : { allowed: 'Contours from the highest down, depth in m : area in m2, for example 0.3:15; 0.6:9.' };
}

function readPairs(cell: string, between: RegExp): [number, number][] | null {
  const pairs = cell
    .split(WORDS_BETWEEN)
    .filter(Boolean)
    .map((pair) => pair.split(between));
  if (!pairs.every((pair) => pair.length === 2 && pair.every((figure) => NUMBER.test(figure)))) return null;
  return pairs.map(([first, second]) => [Number(first), Number(second)]);
}
