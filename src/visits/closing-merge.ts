import type { ClosingRecord, FittedSerial, GivenDose, NotedFollowUp, TaskOutcome, UsedPart } from './closing-record.js';

/** One closing as far as merging needs it. */
export interface StandingClosing {
  readonly id: string;
  readonly closedBy: string;
  readonly record: ClosingRecord;
}

export interface MergedTask {
  readonly careTaskId: string;
  readonly outcome: TaskOutcome;
  readonly doneShare: number | null;
  readonly remarks: readonly string[];
  readonly actuals: Readonly<Record<string, number>>;
  readonly doses: readonly GivenDose[];
  readonly serials: readonly FittedSerial[];
}

/** What several closings of one visit say together. */
export interface MergedRecord {
  /** Each with who wrote it, in order of receipt. */
  readonly notes: readonly { readonly closedBy: string; readonly note: string }[];
  readonly homeownerPresent: boolean | null;
  readonly tasks: readonly MergedTask[];
  readonly readings: ClosingRecord['readings'];
  readonly parts: readonly UsedPart[];
  readonly followUps: readonly NotedFollowUp[];
  readonly arrivedAt: string | null;
  readonly leftAt: string | null;
  /** Where no rule can tell which word holds. The first stands until the office decides. */
  readonly conflicts: readonly ClosingConflict[];
}

export interface ClosingConflict {
  readonly field: 'homeowner-present' | 'done-share' | 'actual';
  readonly careTaskId: string | null;
  /** Name of the actual figure. */
  readonly name: string | null;
  readonly said: readonly { readonly closingId: string; readonly closedBy: string; readonly value: number | boolean }[];
}

type Said<T> = { readonly closing: StandingClosing; readonly value: T };

/**
 * Puts the closings of one visit together field by field, in order of receipt. Readings, parts, follow-ups, doses and
 * serials are the union; notes and remarks are appended; a task ticked by anybody is done, and done or partly goes
 * before not done. Two words that cannot both be right and between which nothing decides are a conflict: the first
 * stands, and both are given. The same closing given twice changes nothing.
 */
export function mergedClosings(closings: readonly StandingClosing[]): MergedRecord {
  const conflicts: ClosingConflict[] = [];
  const taskIds = unique(closings.flatMap(({ record }) => record.tasks.map(({ careTaskId }) => careTaskId)));
  const instants = (field: 'arrivedAt' | 'leftAt') =>
    closings
      .flatMap(({ record }) => record[field] ?? [])
      .map((at) => new Date(at).toISOString())
      .sort();
  return {
    notes: uniqueBy(
      closings
        .map(({ closedBy, record }) => ({ closedBy, note: record.note.trim() }))
        .filter(({ note }) => note !== ''),
      ({ closedBy, note }) => `${closedBy}\n${note}`,
    ),
    homeownerPresent: agreed(
      closings.flatMap((closing) => saidBy(closing, closing.record.homeownerPresent)),
      { field: 'homeowner-present', careTaskId: null, name: null },
      conflicts,
    ),
    tasks: taskIds.map((careTaskId) => mergedTask(careTaskId, closings, conflicts)),
    readings: uniqueBy(
      closings.flatMap(({ record }) => record.readings),
      ({ id }) => id,
    ),
    parts: uniqueBy(
      closings.flatMap(({ record }) => record.parts ?? []),
      ({ id }) => id,
    ),
    followUps: uniqueBy(
      closings.flatMap(({ record }) => record.followUps ?? []),
      ({ id }) => id,
    ),
    arrivedAt: instants('arrivedAt').at(0) ?? null,
    leftAt: instants('leftAt').at(-1) ?? null,
    conflicts,
  };
}

function mergedTask(
  careTaskId: string,
  closings: readonly StandingClosing[],
  conflicts: ClosingConflict[],
): MergedTask {
  const said = closings.flatMap((closing) =>
    closing.record.tasks.filter((task) => task.careTaskId === careTaskId).map((task) => ({ closing, value: task })),
  );
  const outcomes = said.map(({ value }) => value.outcome);
  const outcome = outcomes.includes('done') ? 'done' : outcomes.includes('partly') ? 'partly' : 'not-done';
  const shares = said.flatMap(({ closing, value }) =>
    value.outcome === 'partly' && value.doneShare !== null ? [{ closing, value: value.doneShare }] : [],
  );
  const names = unique(said.flatMap(({ value }) => Object.keys(value.actuals)));
  // What was not done has no actual state worth a question.
  const acted = said.filter(({ value }) => value.outcome !== 'not-done');
  return {
    careTaskId,
    outcome,
    doneShare: outcome === 'partly' ? agreed(shares, { field: 'done-share', careTaskId, name: null }, conflicts) : null,
    remarks: unique(said.map(({ value }) => value.remark.trim()).filter((remark) => remark !== '')),
    actuals: Object.fromEntries(
      names.flatMap((name) => {
        const values = acted.flatMap(({ closing, value }) => saidBy(closing, value.actuals[name]));
        const value = agreed(values, { field: 'actual', careTaskId, name }, conflicts);
        return value === null ? [] : [[name, value]];
      }),
    ),
    doses: uniqueBy(
      said.flatMap(({ value }) => numbered(value.doses ?? [])),
      ({ key }) => key,
    ).map(({ dose }) => dose),
    serials: uniqueBy(
      said.flatMap(({ value }) => value.serials ?? []),
      ({ of, serial }) => `${of}\n${serial}`,
    ),
  };
}

/** The same dose given twice on one visit is two; told by two closings it is one. */
function numbered(doses: readonly GivenDose[]): { key: string; dose: GivenDose }[] {
  const keys = doses.map(({ product, amountG, lot, waterL }) => JSON.stringify([product, amountG, lot, waterL]));
  return doses.map((dose, i) => ({
    dose,
    key: `${keys[i]} ${keys.slice(0, i).filter((key) => key === keys[i]).length}`,
  }));
}

function saidBy<T>(closing: StandingClosing, value: T | null | undefined): Said<T>[] {
  return value === null || value === undefined ? [] : [{ closing, value }];
}

/** The first word; where a later one is another, the conflict is noted. */
function agreed<T extends number | boolean>(
  said: readonly Said<T>[],
  about: Pick<ClosingConflict, 'field' | 'careTaskId' | 'name'>,
  conflicts: ClosingConflict[],
): T | null {
  const different = uniqueBy(said, ({ value }) => String(value));
  if (different.length > 1) {
    conflicts.push({
      ...about,
      said: different.map(({ closing, value }) => ({ closingId: closing.id, closedBy: closing.closedBy, value })),
    });
  }
  return different[0]?.value ?? null;
}

function unique<T>(values: readonly T[]): T[] {
  return [...new Set(values)];
}

function uniqueBy<T>(values: readonly T[], keyOf: (value: T) => string): T[] {
  const seen = new Map<string, T>();
  for (const value of values) if (!seen.has(keyOf(value))) seen.set(keyOf(value), value);
  return [...seen.values()];
}
