import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { build } from 'esbuild';
import type { RoundsProblem } from '../../../src/core/rounds/rounds-problem.js';
import type { searchInThreads } from '../../../src/platform/rounds-search/search-in-threads.js';
import { SharedBest } from '../../../src/platform/rounds-search/shared-best.js';

const FOLDER = path.join(process.cwd(), 'src/platform/rounds-search');
let folder: string;
let search: typeof searchInThreads;

/** A thread can only start from compiled files. */
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'rounds-search-'));
  await writeFile(path.join(folder, 'package.json'), '{"type":"module"}');
  await build({
    entryPoints: ['search-in-threads.ts', 'rounds-search.worker.ts'].map((name) => path.join(FOLDER, name)),
    ...{ outdir: folder, bundle: true, format: 'esm', platform: 'node', logLevel: 'error' },
  });
  const compiled = (await import(pathToFileURL(path.join(folder, 'search-in-threads.js')).href)) as object;
  search = (compiled as { searchInThreads: typeof searchInThreads }).searchInThreads;
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const problem: RoundsProblem = {
  places: 3,
  travel: Int32Array.from([0, 5, 9, 5, 0, 5, 9, 5, 0]),
  crewDays: [
    { id: 'ann', crew: 'ann', day: 0, persons: ['ann'], startPlace: 0, endPlace: 0, hours: { open: 0, close: 99 } },
  ],
  visits: [1, 2].map((place) => ({ id: `v${place}`, place, service: 10, windows: [{ open: 0, close: 99 }] })),
};

describe('a search in threads', () => {
  it('answers at the end of its time with the best plan of all threads', async () => {
    const found = await search(problem, { searchMs: 100 });
    expect([...found.plan.rounds[0]!].sort()).toEqual([0, 1]);
    expect(found.plan.unassigned).toEqual([]);
    expect(found.tookMs).toBeGreaterThanOrEqual(99);
  });

  it('ends early when it is cancelled, with a whole plan', async () => {
    const stop = new AbortController();
    setTimeout(() => stop.abort(), 50);
    const found = await search(problem, { searchMs: 600_000, signal: stop.signal });
    expect(found.plan.rounds[0]).toHaveLength(2);
  });

  it('rejects a problem that cannot be read', async () => {
    await expect(search({ ...problem, places: 4 }, { searchMs: 10 })).rejects.toThrow(/travel/);
  });
});

describe('the best plan in shared memory', () => {
  it('is seen by the others only, and only when it is better', () => {
    const memory = SharedBest.memoryFor(2, 3, 4);
    const [one, two] = [0, 1].map((own) => new SharedBest(memory, 2, own, 3, 4)) as [SharedBest, SharedBest];
    expect(two.better(1000)).toBeUndefined();
    one.offer(12, () => ({ rounds: [[2, 0], [], [3]], unassigned: [1] }));
    expect(two.better(13)).toEqual({ rounds: [[2, 0], [], [3]], unassigned: [] });
    expect(two.better(12)).toBeUndefined();
    expect(one.better(1000)).toBeUndefined();
  });
});
