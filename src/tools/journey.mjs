// `npm run journey:main -- [--json]`, likewise `journey:phone`: takes a journey of test/journeys through the built program, with a real browser
// and a real mail server, and tells of each step. The specs of the suite take the same journeys.
import { existsSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const JOURNEYS = {
  main: ['main-job.journey.ts', 'mainJob'],
  phone: ['phone-round.journey.ts', 'phoneRound'],
};

const { values, positionals } = parseArgs({
  options: { json: { type: 'boolean', default: false } },
  allowPositionals: true,
});
const [file, name] = JOURNEYS[positionals[0]] ?? fail(`Which journey? There is: ${Object.keys(JOURNEYS).join(', ')}.`);
if (!existsSync(path.join(ROOT, 'dist/main.js'))) fail('Nothing is built yet: run `npm run build` first.');

process.chdir(ROOT);
const { build } = await import('esbuild').catch(() =>
  fail('The journeys need the packages for development: run `npm ci` without `--omit=dev`.'),
);
const { travelled, journey } = await importTypeScript(`
  export { travelled } from './journey.js';
  export { ${name} as journey } from './${file.replace(/\.ts$/, '.js')}';
`);

if (!values.json) process.stdout.write(`${journey.title}\n`);
const report = await travelled(journey, (step) => values.json || process.stdout.write(line(step)));
if (values.json) process.stdout.write(`${JSON.stringify(report)}\n`);
else process.stdout.write(`${report.fault ? 'Ended' : 'Arrived'} after ${report.seconds.toFixed(1)} s.\n`);
if (report.fault) process.stderr.write(`At "${report.fault.step}": ${report.fault.message}\n`);
process.exit(report.fault ? 1 : 0);

function line({ step, seen, seconds }) {
  return `${seconds.toFixed(1).padStart(6)} s  ${step}\n          ${seen}\n`;
}

/** Journeys are written like tests; what they import of the program is what was built. */
async function importTypeScript(contents) {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: path.join(ROOT, 'test/journeys'), loader: 'ts' },
    bundle: true,
    write: false,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    target: 'node20',
    plugins: [{ name: 'the built program', setup: (made) => made.onResolve({ filter: /^\.\.\/\.\.\/src\// }, built) }],
  });
  // Beside the packages, which are looked for from where a module lies.
  const script = path.join(ROOT, 'dist', `journey-${process.pid}.mjs`);
  writeFileSync(script, outputFiles[0].text);
  try {
    return await import(pathToFileURL(script).href);
  } finally {
    rmSync(script);
  }
}

function built({ path: imported }) {
  return { path: pathToFileURL(path.join(ROOT, imported.replace(/^\.\.\/\.\.\/src\//, 'dist/'))).href, external: true };
}

function fail(sentence) {
  process.stderr.write(`${sentence}\n`);
  process.exit(1);
}
