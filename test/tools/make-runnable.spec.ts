import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';

describe('make-runnable', () => {
  it('lets a compiled command be run, as often as it is built', () => {
    const directory = mkdtempSync(path.join(tmpdir(), 'tarnkeep-tools-'));
    try {
      const command = path.join(directory, 'cli.js');
      writeFileSync(command, '#!/usr/bin/env node\nprocess.stdout.write("runs");\n', { mode: 0o644 });
      expect(() => execFileSync(command)).toThrow(/EACCES/);
      execFileSync(process.execPath, ['src/tools/make-runnable.mjs', command]);
      expect(statSync(command).mode & 0o111).toBe(0o111);
      expect(execFileSync(command, { encoding: 'utf8' })).toBe('runs');
    } finally {
      rmSync(directory, { recursive: true });
    }
  });
});
