import type { PondRecord } from '../pond-record.js';
import { contactInputOf } from '../pond-rows.js';
import { waterInputOf } from '../water-input.schema.js';
import { numberField, textField } from './csv-cell.js';
import { type CsvColumn, type CsvSection, EXPORTED_COLUMNS } from './csv-columns.js';
import { cellsOfWater } from './water-cells.js';

type Cells = Readonly<Record<string, unknown>>;

export const EXPORT_HEAD: string = EXPORTED_COLUMNS.map(({ name }) => name).join(',');

/**
 * A pond as lines of the file: the first carries the pond and the first of its people, machines, stock and agreement
 * terms; further lines carry the rest. Importing them again changes nothing. People who left are not written.
 */
export function exportRows(record: PondRecord): string[] {
  const parts: Readonly<Record<Exclude<CsvSection, 'pond'>, readonly Cells[]>> = {
    contact: record.contacts.filter(({ endedOn }) => endedOn === null).map(contactInputOf),
    equipment: record.equipment.map(({ rated, ...machine }) => ({ ...machine, ...rated, ...rated.line })),
    stock: record.stock.map(({ species, headCount, lengthCm }) => ({ species, count: headCount, lengthCm })),
    agreement: record.agreement.map(({ ruleId, doneBy, fromOn, untilOn }) => ({
      ruleId,
      doneBy,
      from: fromOn,
      until: untilOn,
    })),
  };
  const pond = pondCells(record);
  const lines = Math.max(1, ...Object.values(parts).map((part) => part.length));
  return Array.from({ length: lines }, (_, i) =>
    EXPORTED_COLUMNS.map((column) => {
      if (column.section !== 'pond') return field(column, parts[column.section][i] ?? {});
      return i === 0 || column.key === 'ref' ? field(column, pond) : '';
    }).join(','),
  );
}

function pondCells({ pond }: PondRecord): Cells {
  return {
    ...pond,
    // A pond that never had a reference is exported under its id, and the import gives it that as its reference.
    ref: pond.ref ?? pond.id,
    stockedOn: pond.stockedOn ?? 'not-yet',
    tapTotalChlorineMgPerL: pond.tapTotalChlorineMgPerL,
    surfaceAreaM2: undefined,
    maxDepthM: undefined,
    meanDepthM: undefined,
    volumeL: undefined,
    volumeMethod: undefined,
    ...cellsOfWater(waterInputOf(pond)),
    volumeInUseL: pond.volumeL,
  };
}

function field(column: CsvColumn, cells: Cells): string {
  const value = cells[column.key];
  if (value === undefined || value === null || value === '') return '';
  switch (column.form) {
    case 'number':
      return numberField(value as number);
    case 'yes-no':
      return value ? 'yes' : 'no';
    case 'word-list':
      return textField((value as string[]).join('; '));
    case 'levels':
      return textField(
        (value as { areaM2: number; heightM: number }[]).map((one) => `${one.areaM2}x${one.heightM}`).join('; '),
      );
    case 'contours':
      return textField(
        (value as { depthM: number; areaM2: number }[]).map((one) => `${one.depthM}:${one.areaM2}`).join('; '),
      );
    default:
      return textField(String(value));
  }
}
