/** Something that needs a decision: what, why, since or until when, and the one act. */
export interface DecisionRow {
  readonly title: string;
  readonly why: string;
  readonly by: string;
  readonly byDetail: string;
  readonly isLate: boolean;
  readonly action: { readonly words: string; readonly href: string; readonly name: string };
  /** A second, smaller act that settles the row where it stands. */
  readonly settle?: { readonly action: string; readonly words: string; readonly name: string };
  /** The same work on several ponds, each with its own way in; the action then opens this list. */
  readonly members?: readonly { readonly name: string; readonly detail: string; readonly href: string }[];
}
