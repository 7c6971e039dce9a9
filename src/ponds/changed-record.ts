import type { PondInput } from './pond-input.schema.js';
import type { PondRecord } from './pond-record.js';
import { unsavedRecord } from './pond-rows.js';

/**
 * A record as it would be with what was typed, stored nowhere. Machines named by their id stay the same machines, so
 * that what is planned for them keeps its name; contacts and the state stay.
 */
export function changedRecord(
  record: PondRecord,
  input: PondInput,
  given: { readonly today: string; readonly instant: string },
): PondRecord {
  const { pond } = record;
  const changed = unsavedRecord(pond.companyId, input, { pondId: pond.id, ...given });
  return {
    ...changed,
    pond: { ...pond, ...changed.pond, state: pond.state, version: pond.version },
    equipment: changed.equipment.map((machine, index) => ({
      ...machine,
      id: input.equipment[index]?.id ?? machine.id,
    })),
    contacts: record.contacts,
  };
}
