/** What an import found, line by line. With one fault nothing is imported. */
export interface ImportReport {
  readonly faults: readonly ImportFault[];
  /** More faults than are listed. */
  readonly furtherFaults: number;
  readonly pondsAdded: number;
  readonly pondsChanged: number;
  readonly contactsAdded: number;
}

export interface ImportFault {
  /** Line of the file, the head row being 1. */
  readonly line: number;
  readonly field: string;
  readonly value: string;
  /** What is allowed, as a sentence. */
  readonly allowed: string;
}
