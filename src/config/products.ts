import path from 'node:path';
import { z } from 'zod';
import type { DechlorinatorStrength } from '../core/care/care-plan.js';
import { SettingsError } from './settings-faults.js';
import { readYamlRecord } from './yaml-records.js';

const FILE = 'products/dechlorinators.yaml';

const DechlorinatorsSchema = z.strictObject({
  default: z.string(),
  products: z
    .array(
      z.strictObject({
        id: z.string().regex(/^[a-z][a-z0-9-]*$/, 'write words in lower case joined by hyphens'),
        name: z.string().min(3, 'write what is on the label'),
        productMgPerMgChlorine: z.number().min(0.1, 'allowed is 0.1 to 100').max(100, 'allowed is 0.1 to 100'),
        bindsAmmonia: z.boolean(),
        provenance: z.enum(['published source', 'common practice', 'from memory', 'derived']),
        source: z.string().min(5, 'say where the figure is from'),
        note: z.string().optional(),
      }),
    )
    .min(1, 'write at least one product'),
});

/** The dechlorinators a company can choose from, by label strength, and the one used where nothing was chosen. */
export interface Dechlorinators {
  readonly products: readonly DechlorinatorStrength[];
  readonly preset: DechlorinatorStrength;
}

/** Reads `products/dechlorinators.yaml`. @throws SettingsError naming file, line, field, value and what is allowed. */
export function loadDechlorinators(configDirectory: string): Dechlorinators {
  const record = readYamlRecord(
    { path: path.join(configDirectory, FILE), shownAs: `config/${FILE}` },
    DechlorinatorsSchema,
  );
  const { products, default: presetId } = record.value;
  const ids = products.map((product) => product.id);
  const again = ids.findIndex((id, index) => ids.indexOf(id) !== index);
  if (again >= 0) {
    throw new SettingsError([
      record.fault(['products', again, 'id'], `is "${ids[again]}", which stands there twice. Keep one.`),
    ]);
  }
  const strengths = products.map(({ id, name, productMgPerMgChlorine, bindsAmmonia, source }) => ({
    id,
    name,
    productMgPerMgChlorine,
    bindsAmmonia,
    source,
  }));
  const preset = strengths.find((product) => product.id === presetId);
  if (!preset) {
    throw new SettingsError([
      record.fault(['default'], `is "${presetId}", which is no product of the list: ${ids.join(', ')}.`),
    ]);
  }
  return { products: strengths, preset };
}
