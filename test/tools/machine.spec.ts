import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';

/** The tools stand alone, as in a checkout whose install has failed. */
let bare: string;
beforeAll(() => {
  bare = mkdtempSync(path.join(tmpdir(), 'tarnkeep-bare-'));
  cpSync('src/tools', path.join(bare, 'tools'), { recursive: true });
});
afterAll(() => rmSync(bare, { recursive: true }));

function runTool(folder: string, tool: string, environment: NodeJS.ProcessEnv = process.env) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [path.join(folder, tool)], { env: environment });
  return { status, stdout: stdout.toString(), stderr: stderr.toString() };
}

describe('the tools that run before anything is built', () => {
  it.each(['check-machine.mjs', 'keep-native.mjs'])('say nothing where all is there (%s)', (tool) => {
    expect(runTool('src/tools', tool)).toEqual({ status: 0, stdout: '', stderr: '' });
  });

  it.each(['check-machine.mjs', 'keep-native.mjs'])(
    'name every missing build tool in one sentence with its command (%s)',
    (tool) => {
      const { status, stderr } = runTool(path.join(bare, 'tools'), tool, { PATH: '' });
      expect(status).toBe(1);
      expect(stderr).toBe(
        'The SQLite binding could not be built because Python 3, make, a C++ compiler (g++) are missing: ' +
          'run `apt-get update && apt-get install -y python3 make g++` as root, then `npm ci` again.\n',
      );
    },
  );

  it('name the command that builds the binding or shows why not, where the build tools are there', () => {
    const tools = path.join(bare, 'bin');
    mkdirSync(tools);
    for (const name of ['python3', 'make', 'g++'])
      writeFileSync(path.join(tools, name), '#!/bin/sh\n', { mode: 0o755 });
    const { status, stderr } = runTool(path.join(bare, 'tools'), 'check-machine.mjs', { PATH: tools });
    expect(status).toBe(1);
    expect(stderr).toBe(
      'The SQLite binding cannot be loaded (it was not built): run `npm ci --foreground-scripts --ignore-scripts=false`, ' +
        'which builds it or shows why it cannot be built.\n',
    );
  });
});
