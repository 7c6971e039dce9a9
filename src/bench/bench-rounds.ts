/**
 * `npm run bench:rounds -- [--instance FILE] [--seconds S] [--seed N] [--convention trunc1|double] [--routes OUT.json]`:
 * least distance on routing instances with time windows. One instance prints one JSON line; without `--instance` the
 * development set is run and a table printed (`--seconds 1,5,30 --seeds 1,2,3 --only C101,R104 --data DIR --json`).
 */
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { InvalidValueError } from '../core/errors.js';
import { knownDistance } from './rounds/known-distances.js';
import { DEVELOPMENT_SET, type Run, setTable, summaryOf } from './rounds/set-table.js';
import { solveInstance } from './rounds/solve-instance.js';
import type { Convention } from './rounds/vrptw-problem.js';
import { readVrptw } from './rounds/vrptw-text.js';

const { values } = parseArgs({
  options: {
    instance: { type: 'string' },
    seconds: { type: 'string' },
    seed: { type: 'string', default: '1' },
    seeds: { type: 'string', default: '1,2,3' },
    convention: { type: 'string', default: 'trunc1' },
    routes: { type: 'string' },
    only: { type: 'string' },
    data: { type: 'string', default: '../shared/data' },
    json: { type: 'boolean', default: false },
  },
});

try {
  if (values.instance === undefined) await runSet();
  else await runOne(values.instance);
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
}

async function runOne(file: string): Promise<void> {
  const [seconds = 0] = numbers('seconds', values.seconds ?? '5');
  const [seed = 1] = numbers('seed', values.seed);
  const instance = readVrptw(readFileSync(file, 'utf8'));
  const { routes, answer } = await solveInstance(instance, conventionOf(values.convention), seconds, seed);
  if (values.routes !== undefined) writeFileSync(values.routes, `${JSON.stringify(routes)}\n`);
  process.stdout.write(`${JSON.stringify(answer)}\n`);
  if (!answer.feasible) process.exitCode = 1;
}

async function runSet(): Promise<void> {
  const convention = conventionOf(values.convention);
  if (convention !== 'trunc1') {
    throw new InvalidValueError(
      'convention',
      convention,
      'The optima of the set are known for trunc1; name an --instance.',
    );
  }
  const names = values.only?.split(',') ?? DEVELOPMENT_SET;
  const budgets = numbers('seconds', values.seconds ?? '1,5,30');
  const seeds = numbers('seeds', values.seeds);
  const runs: Run[] = [];
  for (const seconds of budgets) {
    for (const name of names) {
      const instance = readVrptw(readFileSync(path.join(values.data, 'vrptw', `${name}.txt`), 'utf8'));
      const optimum = knownDistance(name);
      if (optimum === undefined) throw new InvalidValueError('only', name, 'Name instances whose optimum is known.');
      for (const seed of seeds) {
        const { answer } = await solveInstance(instance, convention, seconds, seed);
        runs.push({ ...answer, instance: name, optimum, budgetSeconds: seconds });
        const gap = answer.gapToBestKnown?.toFixed(2);
        process.stderr.write(`${name}, ${seconds} s, seed ${seed}: ${answer.distance}, gap ${gap} %\n`);
      }
    }
  }
  const text = values.json ? JSON.stringify({ runs, summary: summaryOf(runs) }) : setTable(runs);
  process.stdout.write(`${text}\n`);
  if (runs.some((run) => !run.feasible)) process.exitCode = 1;
}

function conventionOf(text: string): Convention {
  if (text === 'trunc1' || text === 'double') return text;
  throw new InvalidValueError('convention', text, 'Give trunc1 or double.');
}

function numbers(field: string, text: string): number[] {
  const list = text.split(',').map(Number);
  if (list.every((value) => value > 0)) return list;
  throw new InvalidValueError(field, text, 'Give positive numbers, separated by commas.');
}
