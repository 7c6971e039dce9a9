/** The form's fields as typed, by name. Rows carry their number: `stock.0.length`. */
export type TypedPond = Readonly<Record<string, string>>;

/** A record as its form shows it, with the stored value behind every number that is shown. */
export interface ShownPond {
  readonly typed: TypedPond;
  readonly stored: Readonly<Record<string, number>>;
}
