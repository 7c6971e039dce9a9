import path from 'node:path';
import { z } from 'zod';
import type { Caution } from '../core/care/caution.js';
import { SettingsError } from './settings-faults.js';
import { readYamlRecord } from './yaml-records.js';

const FILE = 'cautions.yaml';
const sentence = z.string().min(10, 'write a whole sentence').max(200, 'write at most 200 characters');

const CautionsSchema = z
  .array(
    z.strictObject({
      id: z.string().regex(/^[a-z][a-z0-9-]*$/, 'write words in lower case joined by hyphens'),
      firstLine: sentence,
      lines: z.array(sentence).max(3, 'write at most three lines').default([]),
      defersTo: sentence,
    }),
  )
  .min(1, 'write at least one caution');

/** Reads `cautions.yaml`. @throws SettingsError naming file, line, field, value and what is allowed. */
export function loadCautions(configDirectory: string): readonly Caution[] {
  const record = readYamlRecord({ path: path.join(configDirectory, FILE), shownAs: `config/${FILE}` }, CautionsSchema);
  const ids = record.value.map((caution) => caution.id);
  const again = ids.findIndex((id, index) => ids.indexOf(id) !== index);
  if (again >= 0) {
    throw new SettingsError([record.fault([again, 'id'], `is "${ids[again]}", which stands there twice. Keep one.`)]);
  }
  return record.value;
}
