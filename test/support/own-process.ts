import { type ChildProcess, spawn } from 'node:child_process';
import path from 'node:path';
import { build } from 'esbuild';

/**
 * Prepares TypeScript for a process of its own, for tests of what several processes do to one database.
 * Services may be built by hand in it; the framework's injection does not work there.
 * @param source module text; its imports are relative to `test/support/`
 */
export async function ownProcess(source: string): Promise<OwnProcess> {
  const result = await build({
    stdin: { contents: source, resolveDir: path.resolve('test/support'), loader: 'ts' },
    bundle: true,
    write: false,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    target: 'node20',
    tsconfigRaw: { compilerOptions: { experimentalDecorators: true, useDefineForClassFields: false } },
  });
  return new OwnProcess(result.outputFiles[0]!.text);
}

export class OwnProcess {
  constructor(private readonly script: string) {}

  start(...parameters: string[]): { child: ChildProcess; lines: () => string[]; ended: Promise<number | null> } {
    // Read from standard input, so that packages are looked for from the root of the repository.
    const child = spawn(process.execPath, ['--input-type=module', '-', ...parameters], { stdio: 'pipe' });
    child.stdin.on('error', () => undefined).end(this.script); // a process that was killed reads no more
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
