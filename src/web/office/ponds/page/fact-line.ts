/** A line of a list of facts: what it is about, its value, and what stands behind that. */
export interface FactLine {
  readonly name: string;
  readonly detail: string;
  readonly value: string;
}
