/** A warning shown before the steps of every task that can hurt someone. */
export interface Caution {
  readonly id: string;
  /** Says what to do. */
  readonly firstLine: string;
  /** At most three. */
  readonly lines: readonly string[];
  /** Whose word goes before ours: local code, the product's label, licensed practice. */
  readonly defersTo: string;
}
