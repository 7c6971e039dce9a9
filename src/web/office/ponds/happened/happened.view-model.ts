import type { CareEvent, CareRule } from '../../../../core/care/care-rule.js';
import type { Caution } from '../../../../core/care/caution.js';
import type { FormFaults } from '../../../forms/form-faults.js';

/** What the office writes down by hand; everything else is told by the record, a test or the forecast. */
export const RECORDED_BY_HAND = [
  'power-failure',
  'fish-added',
  'algaecide-asked',
  'algaecide-applied',
  'large-water-change',
  'full-clean-out',
] as const satisfies readonly CareEvent[];
export type RecordedByHand = (typeof RECORDED_BY_HAND)[number];

const WORDS: Readonly<Record<RecordedByHand, { readonly title: string; readonly note: string }>> = {
  'power-failure': { title: 'The pumps stood still', note: 'From when to when, and how the fish behaved' },
  'fish-added': { title: 'Fish came in', note: 'How many, of what kind, from where, and any sign of sickness' },
  'algaecide-asked': { title: 'An algaecide was asked for', note: 'Who asked, and what was tried before' },
  'algaecide-applied': { title: 'An algaecide was used', note: 'Number of the label, licence, amount by the label' },
  'large-water-change': { title: 'Much water was changed', note: 'How much, and with what water' },
  'full-clean-out': { title: 'The pond was cleaned out', note: 'What was done with the filter and the fish' },
};
/** Cautions of acts that no rule answers with a task of its own. */
const ALSO: Partial<Readonly<Record<RecordedByHand, readonly string[]>>> = {
  'algaecide-applied': ['pesticide', 'oxygen-first'],
};

export interface HappenedModel {
  readonly pondId: string;
  readonly pondName: string;
  readonly kinds: readonly { readonly kind: RecordedByHand; readonly title: string }[];
  /** Null until a kind is chosen. */
  readonly chosen: {
    readonly kind: RecordedByHand;
    readonly title: string;
    readonly noteHint: string;
    readonly cautions: readonly Caution[];
    /** Titles of what the calendar then asks for. */
    readonly follows: readonly string[];
  } | null;
  readonly on: string;
  readonly note: string;
  readonly id: string;
  readonly faults: FormFaults;
}

export function isRecordedByHand(kind: unknown): kind is RecordedByHand {
  return (RECORDED_BY_HAND as readonly unknown[]).includes(kind);
}

/** The cautions of the work an event calls for come before anything is typed. */
export function happenedModel(said: {
  readonly pond: { readonly id: string; readonly name: string };
  readonly rules: readonly CareRule[];
  readonly cautions: readonly Caution[];
  readonly kind: RecordedByHand | null;
  readonly typed: { readonly on: string; readonly note: string; readonly id: string };
  readonly faults: FormFaults;
}): HappenedModel {
  const { pond, kind, typed } = said;
  return {
    pondId: pond.id,
    pondName: pond.name,
    kinds: RECORDED_BY_HAND.map((one) => ({ kind: one, title: WORDS[one].title })),
    chosen: kind === null ? null : chosenKind(kind, said.rules, said.cautions),
    ...typed,
    faults: said.faults,
  };
}

function chosenKind(kind: RecordedByHand, rules: readonly CareRule[], cautions: readonly Caution[]) {
  const answering = rules.filter(({ anyOf }) =>
    anyOf.some((trigger) => trigger.kind === 'event' && trigger.event === kind),
  );
  const ids = new Set([...answering.flatMap((rule) => rule.cautions), ...(ALSO[kind] ?? [])]);
  return {
    kind,
    title: WORDS[kind].title,
    noteHint: WORDS[kind].note,
    cautions: [...ids].flatMap((id) => cautions.find((caution) => caution.id === id) ?? []),
    follows: answering.map(({ title }) => title),
  };
}
