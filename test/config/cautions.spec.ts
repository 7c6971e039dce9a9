import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { loadCautions } from '../../src/config/cautions.js';
import { CONFIG_DIRECTORY } from '../support/shipped-rules.js';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'cautions-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function loadText(text: string) {
  writeFileSync(path.join(folder, 'cautions.yaml'), text);
  return loadCautions(folder);
}

const CAUTION = `- id: ice
  firstLine: Stay off the ice, whatever its thickness.
  lines: [Work from the bank only.]
  defersTo: The local rescue service goes before this.
`;

describe('the shipped cautions', () => {
  it('say first what to do, in at most three further lines, and whose word goes before', () => {
    for (const caution of loadCautions(CONFIG_DIRECTORY)) {
      expect(caution.firstLine).toMatch(/\.$/);
      expect(caution.lines.length).toBeLessThanOrEqual(3);
      expect(caution.defersTo).toMatch(/before this/);
    }
  });

  it('call hard-wiring a licensed electrician’s work', () => {
    const caution = loadCautions(CONFIG_DIRECTORY).find((one) => one.id === 'hard-wiring');
    expect(caution?.lines.join(' ')).toMatch(/licensed electrician's work under local code/);
  });

  it('never call ice safe', () => {
    expect(JSON.stringify(loadCautions(CONFIG_DIRECTORY))).not.toMatch(/safe to walk|thick enough/i);
  });
});

describe('loadCautions', () => {
  it('reads a caution', () => {
    expect(loadText(CAUTION)).toMatchObject([{ id: 'ice', lines: ['Work from the bank only.'] }]);
  });

  it('refuses a fourth line, naming file, line and field', () => {
    const text = CAUTION.replace(
      '[Work from the bank only.]',
      '[Line number one., Line number two., Line number three., Line number four.]',
    );
    expect(() => loadText(text)).toThrow(/config\/cautions\.yaml, line 3: 0\.lines .* at most three lines/);
  });

  it('refuses two of one id', () => {
    expect(() => loadText(CAUTION + CAUTION)).toThrow(
      /config\/cautions\.yaml, line 5: 1\.id is "ice", which stands there twice/,
    );
  });

  it('refuses a caution that defers to nobody', () => {
    expect(() => loadText(CAUTION.replace(/ {2}defersTo.*\n/, ''))).toThrow(/0\.defersTo is missing/);
  });

  it('says which file is missing', () => {
    expect(() => loadCautions(folder)).toThrow(/config\/cautions\.yaml cannot be read \(ENOENT\)/);
  });
});
