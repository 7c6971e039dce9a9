import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Readable } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { CompanyEntity } from '../../src/accounts/index.js';
import { runCli } from '../../src/cli/run-cli.js';
import type { Terminal } from '../../src/cli/terminal.js';
import { openDatabase } from '../../src/database/index.js';
import { ENTITIES } from '../../src/entities.js';
import { storeCompany } from '../support/company-rows.js';
import { temporaryDirectory } from '../support/temporary-database.js';

const PONDS = `pond_ref,pond_name,latitude,longitude,elevation_m,volume_us_gal,surface_area_m2,max_depth_m,contact_name,contact_email
K-1,Koi pond,43.07,-89.4,270,2310,10,1.2,Ana Field,ana@example.com
K-2,Lily pond,25.76,-80.19,3,1000,6,0.9,,
`;
const FOUND_IN_HELP = ['serve', 'migrate', 'demo', 'ponds import', 'ponds export', 'plan', 'remind', 'forecast'];

let directory: string;

/** Runs a command line; its data lie in the test's folder. */
async function run(words: readonly string[], own: Partial<Terminal> = {}) {
  let out = '';
  let err = '';
  const code = await runCli(words, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    isInteractive: false,
    input: Readable.from([]),
    environment: {},
    workingDirectory: directory,
    configDirectory: path.resolve('config'),
    ...own,
  });
  return { code, out, err };
}

async function addCompany(data: string, own: Partial<CompanyEntity> = {}): Promise<string> {
  await mkdir(path.join(directory, data), { recursive: true });
  const database = await openDatabase({ kind: 'sqlite', file: path.join(directory, data, 'tarnkeep.db') }, ENTITIES);
  const { company } = await storeCompany(database, own);
  await database.close();
  return company.id;
}

beforeAll(async () => {
  directory = await temporaryDirectory();
  await writeFile(path.join(directory, 'ponds.csv'), PONDS);
});
afterAll(() => rm(directory, { recursive: true }));

describe('the command line', () => {
  it('tells what there is', async () => {
    const { code, out, err } = await run(['--help']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    for (const name of FOUND_IN_HELP) expect(out).toContain(`  ${name} `);
    expect(await run([])).toMatchObject({ code: 2, out: '', err: out });
  });

  it('explains both commands of ponds where only the first word is given', async () => {
    const { code, out } = await run(['ponds', '--help']);
    expect(code).toBe(0);
    expect(out).toContain('Example: tarnkeep ponds import');
    expect(out).toContain('Example: tarnkeep ponds export');
  });

  it.each(FOUND_IN_HELP)('explains %s, with an example', async (name) => {
    const { code, out, err } = await run([...name.split(' '), '--help']);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toMatch(new RegExp(`^tarnkeep ${name}`));
    expect(out).toMatch(new RegExp(`\nExample: tarnkeep ${name}`));
  });

  it.each([
    [['prune'], /^prune is not a command\. Known are serve, /],
    [['ponds'], /^ponds needs a second word: import or export/],
    [['ponds', 'import'], /^FILE is missing\. See tarnkeep ponds import --help/],
    [['ponds', 'import', 'a.csv', 'b.csv'], /^b\.csv is one word too many/],
    [['migrate', '--color'], /^--color is not an option of tarnkeep migrate/],
    [['migrate', '--data'], /argument missing/],
    [['plan'], /^Name either --pond ID or --all/],
    [['plan', '--all', '--pond', 'x'], /^Name either --pond ID or --all/],
    [['plan', '--all', '--as-of', '3/1/2027'], /^--as-of: 3\/1\/2027 is not a date\. Write it as YYYY-MM-DD/],
    [['plan', '--all', '--as-of', '2027-02-30'], /^--as-of: 2027-02-30 is not a date/],
    [['remind', '--as-of', 'tomorrow'], /^--as-of: tomorrow is not an instant/],
    [['forecast', '--out', '-'], /^--site FILE is missing/],
    [['constructor'], /^constructor is not a command/],
  ])('refuses %j in one sentence, with exit code 2', async (words, sentence) => {
    const { code, out, err } = await run(words);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(sentence);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it.each([
    [['migrate'], { TARNKEEP_PORT: 'x' }, /^port: "x" cannot be used/],
    [['migrate'], { TARNKEEP_PROT: '1' }, /Did you mean TARNKEEP_PORT\?/],
    [['migrate', '--data', 'ponds.csv/data'], {}, /^dataDirectory: .*ponds\.csv\/data cannot be written \(ENOTDIR\)/],
    [['ponds', 'import', 'nothing.csv'], {}, /nothing\.csv cannot be read \(ENOENT\)/],
    [['forecast', '--site', 'nothing.json', '--out', '-'], {}, /nothing\.json.*ENOENT/],
  ])('fails %j in one sentence, with exit code 1', async (words, environment, sentence) => {
    const { code, out, err } = await run(words, { environment });
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toMatch(sentence);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it('makes the database', async () => {
    const { code, out } = await run(['migrate', '--data', 'fresh']);
    expect({ code, out }).toEqual({
      code: 0,
      out: `The database is up to date: ${path.join(directory, 'fresh', 'tarnkeep.db')}\n`,
    });
  });

  it('asks for a company where there is none, and for which where there are two', async () => {
    await run(['migrate', '--data', 'companies']);
    expect(await run(['plan', '--all', '--data', 'companies'])).toMatchObject({
      code: 1,
      err: expect.stringMatching(/^There is no company yet/),
    });
    const [a, b] = [await addCompany('companies', { name: 'North' }), await addCompany('companies', { name: 'South' })];
    const { code, err } = await run(['plan', '--all', '--data', 'companies']);
    expect(code).toBe(1);
    expect(err).toMatch(/^There are 2 companies\. Name one with --company ID:/);
    expect(err).toContain(`${a}  North`);
    expect((await run(['plan', '--all', '--company', b, '--data', 'companies'])).code).toBe(0);
    expect(await run(['plan', '--all', '--company', 'x', '--data', 'companies'])).toMatchObject({
      code: 1,
      err: expect.stringMatching(/x is not a company here/),
    });
  });

  it('carries ponds from a file through plan and reminder to a file', async () => {
    await addCompany('whole');
    const imported = await run(['ponds', 'import', 'ponds.csv', '--data', 'whole']);
    expect(imported).toMatchObject({ code: 0, out: '2 ponds added, 0 changed, 1 contacts added.\n' });
    expect(imported.err).toMatch(/Calendars made: 2 of 2/);

    const planned = await run(['plan', '--all', '--json', '--data', 'whole']);
    expect(planned.code).toBe(0);
    const { ponds, failed } = JSON.parse(planned.out);
    expect(failed).toEqual([]);
    expect(ponds.map((pond: { name: string }) => pond.name).sort()).toEqual(['Koi pond', 'Lily pond']);
    const tasks = ponds.flatMap((pond: { tasks: unknown[] }) => pond.tasks);
    expect(tasks.length).toBeGreaterThan(0);
    expect(tasks[0]).toMatchObject({ dueOn: expect.stringMatching(/^\d{4}-\d\d-\d\d$/), title: expect.any(String) });

    const koi = ponds.find((pond: { name: string }) => pond.name === 'Koi pond');
    const asText = await run(['plan', '--pond', koi.pondId, '--as-of', '2027-03-01', '--data', 'whole']);
    expect(asText.code).toBe(0);
    expect(asText.out).toMatch(new RegExp(`^Koi pond \\(${koi.pondId}\\), as of 2027-03-01\n  2027-`));

    const dry = await run(['remind', '--dry-run', '--as-of', '2027-05-06T15:00:00Z', '--data', 'whole']);
    expect(dry.code).toBe(0);
    expect(dry.err).toMatch(/would be written/);
    const real = await run(['remind', '--as-of', '2027-05-06T15:00:00Z', '--data', 'whole']);
    expect(real).toMatchObject({ code: 1, out: '' });
    expect(real.err).toMatch(/^Lakeside Pond Care is not the demo, so --as-of goes only with --dry-run/);

    const exported = await run(['ponds', 'export', '--out', 'out.csv', '--data', 'whole']);
    expect(exported).toMatchObject({ code: 0, out: '' });
    const text = await readFile(path.join(directory, 'out.csv'), 'utf8');
    expect(text).toContain('Koi pond');
    expect((await run(['ponds', 'export', '--data', 'whole'])).out).toBe(text);
    expect(await run(['ponds', 'import', 'out.csv', '--data', 'whole'])).toMatchObject({
      code: 0,
      out: expect.stringMatching(/^0 ponds added/),
    });
  }, 120_000);

  it('imports nothing of a file with a fault, and names it', async () => {
    await addCompany('faulty');
    await writeFile(path.join(directory, 'faulty.csv'), PONDS.replace('25.76', '257.6'));
    const { code, out, err } = await run(['ponds', 'import', 'faulty.csv', '--data', 'faulty']);
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toMatch(/line 3, latitude: "257\.6"\. .*-90 to 90/);
    expect(err).toMatch(/Nothing was imported\./);
    expect((await run(['ponds', 'export', '--data', 'faulty'])).out).not.toContain('Koi pond');
  });

  it('forecasts from files, with results on stdout and notices on stderr', async () => {
    const site = {
      latitude: 43.07,
      longitude: -89.4,
      elevationM: 270,
      meanDepthM: 0.9,
      areaM2: 9,
      shadeFraction: 0.3,
      timeZone: 'America/Chicago',
    };
    await writeFile(path.join(directory, 'site.json'), JSON.stringify(site));
    const period = ['--from', '2026-06-01', '--to', '2026-06-10'];
    const { code, out, err } = await run(['forecast', '--site', 'site.json', ...period, '--out', '-']);
    expect(code).toBe(0);
    expect(out.trim().split('\n')).toHaveLength(11);
    expect(out).toMatch(/^date,p10_c,p50_c,p90_c\n2026-06-01,/);
    expect(err).toMatch(/normals/);
    expect((await run(['forecast', '--site', 'site.json', ...period, '--out', 'water.csv'])).out).toBe('');
    expect(await readFile(path.join(directory, 'water.csv'), 'utf8')).toBe(out);
  });
});
