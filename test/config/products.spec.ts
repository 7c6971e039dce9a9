import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { loadDechlorinators } from '../../src/config/products.js';
import { CONFIG_DIRECTORY } from '../support/shipped-rules.js';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'products-'));
  mkdirSync(path.join(folder, 'products'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function loadText(text: string) {
  writeFileSync(path.join(folder, 'products/dechlorinators.yaml'), text);
  return loadDechlorinators(folder);
}

const PRODUCT = `default: crystals
products:
  - { id: crystals, name: Crystals, productMgPerMgChlorine: 7, bindsAmmonia: false, provenance: derived, source: the label }
`;

describe('the shipped dechlorinators', () => {
  it('have thiosulfate crystals at 7.0 and anhydrous at 4.5 mg per mg', () => {
    // Ruling 20.
    const { products, preset } = loadDechlorinators(CONFIG_DIRECTORY);
    const strengths = Object.fromEntries(products.map((one) => [one.id, one.productMgPerMgChlorine]));
    expect(preset.id).toBe('thiosulfate-crystals');
    expect(strengths).toMatchObject({ 'thiosulfate-crystals': 7, 'thiosulfate-anhydrous': 4.5 });
  });

  it('are not weaker than the field guide of the water works', () => {
    // AWWA, Disinfection of Pipelines and Storage Facilities Field Guide, table 7-2, mg per mg of chlorine (published
    // source, read at what-when-how.com).
    const fieldGuide = {
      'thiosulfate-anhydrous': 1.9,
      'sodium-sulfite': 1.96,
      'ascorbic-acid': 2.5,
      'sodium-ascorbate': 2.8,
    };
    const { products } = loadDechlorinators(CONFIG_DIRECTORY);
    for (const [id, atLeast] of Object.entries(fieldGuide)) {
      expect(products.find((one) => one.id === id)?.productMgPerMgChlorine).toBeGreaterThanOrEqual(atLeast);
    }
  });
});

describe('loadDechlorinators', () => {
  it('reads a product', () => {
    expect(loadText(PRODUCT).preset).toMatchObject({ id: 'crystals', productMgPerMgChlorine: 7 });
  });

  it('refuses a strength out of range with the range', () => {
    expect(() => loadText(PRODUCT.replace('Chlorine: 7', 'Chlorine: 700'))).toThrow(
      /config\/products\/dechlorinators\.yaml, line 3: products\.0\.productMgPerMgChlorine is 700: allowed is 0\.1 to 100/,
    );
  });

  it('refuses a preset that is not in the list', () => {
    expect(() => loadText(PRODUCT.replace('default: crystals', 'default: powder'))).toThrow(
      /line 1: default is "powder", which is no product of the list: crystals/,
    );
  });

  it('refuses two of one id', () => {
    expect(() => loadText(PRODUCT + PRODUCT.split('\n')[2])).toThrow(/line 4: products\.1\.id is "crystals"/);
  });
});
