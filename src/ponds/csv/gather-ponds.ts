import { type CsvColumn, type CsvSection, columnsOf } from './csv-columns.js';
import type { ImportFaults } from './import-faults.js';
import { readCell } from './read-cell.js';
import type { CsvRow } from './read-table.js';

/** What one line says in one section, by key, in stored units. */
export interface SectionCells {
  readonly line: number;
  readonly values: Readonly<Record<string, unknown>>;
  /** The cell and the column behind each key, for telling what is at fault. */
  readonly origin: ReadonlyMap<string, { readonly column: string; readonly cell: string }>;
}

/** All lines of one pond. */
export interface PondDraft {
  readonly ref: string;
  readonly line: number;
  pond: SectionCells;
  readonly contacts: SectionCells[];
  readonly equipment: SectionCells[];
  readonly stock: SectionCells[];
  readonly agreement: SectionCells[];
}

const PART_OF: Readonly<Record<Exclude<CsvSection, 'pond'>, 'contacts' | 'equipment' | 'stock' | 'agreement'>> = {
  contact: 'contacts',
  equipment: 'equipment',
  stock: 'stock',
  agreement: 'agreement',
};

/** Puts the lines of a file together by `pond_ref`. */
export class PondDrafts {
  private readonly byRef = new Map<string, PondDraft>();

  constructor(private readonly faults: ImportFaults) {}

  add(row: CsvRow): void {
    const sections = this.sectionsOf(row);
    const ref = sections.get('pond')?.values.ref;
    if (typeof ref !== 'string') {
      const allowed = 'Each line needs the reference of its pond.';
      this.faults.add({ line: row.line, field: 'pond_ref', value: '', allowed });
      return;
    }
    const draft = this.draftFor(ref, row.line, sections.get('pond') as SectionCells);
    for (const [section, part] of Object.entries(PART_OF)) {
      const cells = sections.get(section as CsvSection);
      if (cells) draft[part].push(cells);
    }
  }

  all(): PondDraft[] {
    return [...this.byRef.values()];
  }

  private draftFor(ref: string, line: number, pond: SectionCells): PondDraft {
    const known = this.byRef.get(ref);
    if (!known) {
      const draft = { ref, line, pond, contacts: [], equipment: [], stock: [], agreement: [] };
      this.byRef.set(ref, draft);
      return draft;
    }
    for (const [key, value] of Object.entries(pond.values)) {
      if (JSON.stringify(known.pond.values[key]) === JSON.stringify(value)) continue;
      const { column, cell } = pond.origin.get(key) as { column: string; cell: string };
      const allowed = `Line ${known.line} says otherwise of the same pond. Leave the cell empty here, or make them equal.`;
      this.faults.add({ line, field: column, value: cell, allowed });
    }
    return known;
  }

  private sectionsOf(row: CsvRow): Map<CsvSection, SectionCells> {
    const sections = new Map<
      CsvSection,
      { line: number; values: Record<string, unknown>; origin: Map<string, { column: string; cell: string }> }
    >();
    for (const [column, cell] of row.cells) {
      let section = sections.get(column.section);
      if (!section) {
        section = { line: row.line, values: {}, origin: new Map() };
        sections.set(column.section, section);
      }
      const twin = section.origin.get(column.key);
      if (twin) {
        const allowed = `${twin.column} is filled as well. Fill one of the two.`;
        this.faults.add({ line: row.line, field: column.name, value: cell, allowed });
        continue;
      }
      section.origin.set(column.key, { column: column.name, cell });
      this.take(column, cell, row.line, section.values);
    }
    return sections;
  }

  private take(column: CsvColumn, cell: string, line: number, values: Record<string, unknown>): void {
    const reading = readCell(column, cell);
    if ('value' in reading) values[column.key] = reading.value;
    else this.faults.add({ line, field: column.name, value: cell, allowed: reading.allowed });
  }
}

/** Column and cell behind a key of a section; where the file has none, the first column that would fill it. */
export function originOf(
  section: CsvSection,
  cells: SectionCells,
  key: string,
): { readonly column: string; readonly cell: string } {
  return cells.origin.get(key) ?? { column: columnsOf(section, key)[0]?.name ?? key, cell: '' };
}
