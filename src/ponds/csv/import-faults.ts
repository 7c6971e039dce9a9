import type { ImportFault } from '../import-report.js';

const LISTED_FAULTS = 200;
const LONGEST_VALUE = 80;

/** Gathers what is wrong with a file, the first faults word by word and the rest by number. */
export class ImportFaults {
  private readonly listed: ImportFault[] = [];
  private further = 0;

  /** A cell is named once, with the first that was found of it. */
  add(fault: ImportFault): void {
    if (this.listed.some(({ line, field }) => line === fault.line && field === fault.field)) return;
    if (this.listed.length >= LISTED_FAULTS) this.further += 1;
    else this.listed.push({ ...fault, value: shortened(fault.value) });
  }

  get isEmpty(): boolean {
    return this.listed.length === 0;
  }

  /** In order of line, then of discovery. */
  report(): { faults: ImportFault[]; furtherFaults: number } {
    return { faults: this.listed.toSorted((a, b) => a.line - b.line), furtherFaults: this.further };
  }
}

function shortened(value: string): string {
  return value.length > LONGEST_VALUE ? `${value.slice(0, LONGEST_VALUE)}…` : value;
}
