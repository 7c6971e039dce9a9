import { type ChildProcess, spawn } from 'node:child_process';
import { mkdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { build } from 'esbuild';

const ROOT = path.resolve(import.meta.dirname ?? path.dirname(new URL(import.meta.url).pathname), '../..');

/**
 * Starts TypeScript in a process of its own, for tests of what several processes do to one database.
 * @param name file name of the bundle, one for each spec
 * @param source module text; its imports are relative to `test/support/`
 */
export async function ownProcess(name: string, source: string): Promise<ProcessOfOurs> {
  // Beneath node_modules, so that packages left out of the bundle are found.
  const folder = path.join(ROOT, 'node_modules/.cache/tarnkeep-test');
  await mkdir(folder, { recursive: true });
  const result = await build({
    stdin: { contents: source, resolveDir: path.join(ROOT, 'test/support'), loader: 'ts' },
    bundle: true,
    write: false,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    target: 'node20',
    tsconfigRaw: { compilerOptions: { experimentalDecorators: true, useDefineForClassFields: false } },
  });
  const file = path.join(folder, `${name}-${process.pid}.mjs`);
  await writeFile(file, result.outputFiles[0]!.text);
  return new ProcessOfOurs(file);
}

export class ProcessOfOurs {
  constructor(private readonly file: string) {}

  start(...parameters: string[]): { child: ChildProcess; lines: () => string[]; ended: Promise<number | null> } {
    const child = spawn(process.execPath, [this.file, ...parameters], { stdio: ['ignore', 'pipe', 'pipe'] });
    let output = '';
    let faults = '';
    child.stdout.on('data', (piece: Buffer) => {
      output += piece.toString();
    });
    child.stderr.on('data', (piece: Buffer) => {
      faults += piece.toString();
    });
    const ended = new Promise<number | null>((done, fail) => {
      child.once('error', fail);
      child.once('close', (code, signal) => {
        if (code !== 0 && signal === null) fail(new Error(`the process ended with ${code}: ${faults}`));
        else done(code);
      });
    });
    // Only whole lines: the last may be cut off when the process is killed.
    return { child, lines: () => output.split('\n').slice(0, -1), ended };
  }
}
