import { isDeepStrictEqual } from 'node:util';
import type { PondId } from '../../platform/ids.js';
import { type PondInput, readPondInput } from '../pond-input.schema.js';
import type { PondRecord } from '../pond-record.js';
import { pondInputOf } from '../pond-rows.js';
import { inputOfDraft } from './draft-input.js';
import { originOf, type PondDraft } from './gather-ponds.js';
import type { ImportFaults } from './import-faults.js';

/** What an import will write once all of it has passed. */
export interface ImportPlan {
  readonly added: { readonly input: PondInput }[];
  /** With the version that was looked at: a pond changed since then stops the import. */
  readonly changed: { readonly pondId: PondId; readonly version: number; readonly input: PondInput }[];
}

/** Checks one draft and puts it into the plan; a pond that would not change is left out. */
export function checkDraft(
  draft: PondDraft,
  standing: PondRecord | null,
  known: { readonly hasStation: (id: string) => boolean; readonly plan: ImportPlan; readonly faults: ImportFaults },
): void {
  const fault = (key: string, allowed: string) => {
    const { column, cell } = originOf('pond', draft.pond, key);
    known.faults.add({ line: draft.pond.line, field: column, value: cell, allowed });
  };
  if (standing?.pond.state === 'archived') {
    fault('ref', `${standing.pond.name} has this reference and is archived. Restore it first, or use another.`);
    return;
  }
  const drafted = inputOfDraft(draft, standing, known.faults);
  if (!drafted) return;
  const input = standing ? { ...drafted, ref: standing.pond.ref ?? null } : drafted;
  if (input.stationId !== null && !known.hasStation(input.stationId)) {
    fault('stationId', 'Not one of the bundled climate stations. Leave it empty to take the nearest.');
  } else if (!standing) {
    known.plan.added.push({ input });
  } else if (!isDeepStrictEqual(input, readPondInput(pondInputOf(standing)))) {
    known.plan.changed.push({ pondId: standing.pond.id, version: standing.pond.version, input });
  }
}
