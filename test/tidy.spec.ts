import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from '@jest/globals';

const ROOT = process.cwd();
const MOST_LINES = 350;

interface SourceFile {
  /** With forward slashes, from the root of the repository. */
  readonly name: string;
  readonly text: string;
  /** Without comments and the contents of texts: what is done, not what is said. */
  readonly code: string;
}

const SOURCES = filesBelow('src')
  .filter((name) => /\.(ts|tsx|mjs)$/.test(name))
  .map(read);
const SPECS = filesBelow('test')
  .filter((name) => /\.(ts|tsx)$/.test(name))
  .map(read);

/** `file:line` of everything that matches. */
function found(files: readonly SourceFile[], pattern: RegExp, where: 'code' | 'text' = 'code'): string[] {
  return files.flatMap((file) =>
    file[where].split('\n').flatMap((line, i) => (pattern.test(line) ? [`${file.name}:${i + 1} ${line.trim()}`] : [])),
  );
}

const inFolder = (folder: string) => (file: SourceFile) => file.name.startsWith(`${folder}/`);
const notIn =
  (...folders: string[]) =>
  (file: SourceFile) =>
    !folders.some((folder) => inFolder(folder)(file));
const inBrowser = (file: SourceFile) => file.name.endsWith('.client.ts') || file.name.includes('/phone/');

describe('the tree', () => {
  it('is there to be looked at', () => {
    expect(SOURCES.length).toBeGreaterThan(100);
    expect(SPECS.length).toBeGreaterThan(30);
  });

  it('keeps clocks, chance and the process out of the core', () => {
    const core = SOURCES.filter(inFolder('src/core'));
    expect(found(core, /\bDate\.now\b|\bnew Date\(\s*\)|\bMath\.random\b|\bprocess\./)).toEqual([]);
  });

  it('asks the time in one folder only', () => {
    const others = SOURCES.filter(notIn('src/platform', 'src/bench', 'src/tools')).filter((file) => !inBrowser(file));
    expect(found(others, /\bDate\.now\b|\bnew Date\(\s*\)|\bDateTime\.(now|local|utc)\(\s*\)/)).toEqual([]);
  });

  it('speaks of HTTP only in web', () => {
    const others = SOURCES.filter(notIn('src/web'));
    const names =
      /\b(Http|BadRequest|Unauthorized|Forbidden|NotFound|Conflict|Gone|UnprocessableEntity|TooManyRequests)Exception\b/;
    expect(found(others, names)).toEqual([]);
  });

  it('opens a unit of work or a query builder through the database folder only', () => {
    const others = SOURCES.filter(notIn('src/database'));
    expect(found(others, /\b(DataSource|EntityManager|getRepository|createQueryRunner|createQueryBuilder)\b/)).toEqual(
      [],
    );
  });

  it('lists every entity where the database is opened', () => {
    const entities = SOURCES.filter((file) => file.name.endsWith('.entity.ts'));
    const list = SOURCES.find((file) => file.name === 'src/entities.ts')!.text;
    const missing = entities.filter((file) => !list.includes(`./${file.name.slice('src/'.length, -'.ts'.length)}.js`));
    expect(missing.map((file) => file.name)).toEqual([]);
  });

  it('names files in lower case with hyphens, the role after a dot', () => {
    const names = [...filesBelow('src'), ...filesBelow('test'), ...filesBelow('config')].map((name) =>
      path.basename(name),
    );
    expect(
      names.filter(
        (name) => name !== 'README.md' && !/^\d*[a-z0-9]*(-[a-z0-9]+)*(\.[a-z0-9]+(-[a-z0-9]+)*)+$/.test(name),
      ),
    ).toEqual([]);
  });

  it('has no drawer for odds and ends', () => {
    const parts = [...SOURCES, ...SPECS].flatMap((file) => file.name.split(/[/.]/));
    const drawers = /^(utils?|helpers?|misc|shared|common|managers?|lib|stuff)$|-(utils?|helpers?|manager)$/;
    expect(parts.filter((part) => drawers.test(part))).toEqual([]);
  });

  it(`keeps every source file under ${MOST_LINES} lines`, () => {
    const long = SOURCES.filter(notIn('src/database/migrations')).map(
      (file) => [file.name, file.text.split('\n').length] as const,
    );
    expect(long.filter(([, lines]) => lines > MOST_LINES)).toEqual([]);
  });

  it('leaves nothing for later', () => {
    expect(found([...SOURCES, ...SPECS], /\b(TO[D]O|FIX[M]E|X[X]X|HA[C]K)\b/, 'text')).toEqual([]);
  });

  it('skips no test, singles none out, and has none that cannot fail', () => {
    const specs = SPECS.filter((file) => file.name !== 'test/tidy.spec.ts');
    expect(found(specs, /\b(describe|it|test)(\.each)?\.(skip|only|todo)\b|\b(xit|xdescribe|fit|fdescribe)\(/)).toEqual(
      [],
    );
    expect(found(specs, /expect\((true|false|1)\)/)).toEqual([]);
    const empty = specs.filter((file) => /\.spec\.tsx?$/.test(file.name) && !/\bexpect|fc\.assert/.test(file.text));
    expect(empty.map((file) => file.name)).toEqual([]);
  });

  it('says of every published figure where it is from and when it was read', () => {
    const faults = filesBelow('test/published')
      .filter((name) => name.endsWith('.json'))
      .flatMap((name) => {
        const published = JSON.parse(readFileSync(path.join(ROOT, name), 'utf8')) as Record<string, unknown>;
        const texts = ['source', 'address', 'retrieved'].filter(
          (key) => typeof published[key] !== 'string' || published[key] === '',
        );
        const isDated = /^\d{4}-\d{2}(-\d{2})?$/.test(String(published.retrieved));
        const hasRows = Array.isArray(published.rows) && published.rows.length > 0;
        return [
          ...texts.map((key) => `${name}: ${key}`),
          ...(isDated ? [] : [`${name}: date`]),
          ...(hasRows ? [] : [`${name}: rows`]),
        ];
      });
    expect(faults).toEqual([]);
  });
});

function filesBelow(folder: string): string[] {
  return readdirSync(path.join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.startsWith('.'))
    .map((entry) => path.relative(ROOT, path.join(entry.parentPath, entry.name)).split(path.sep).join('/'));
}

function read(name: string): SourceFile {
  const text = readFileSync(path.join(ROOT, name), 'utf8');
  return { name, text, code: codeOf(text) };
}

/** Blanks comments and quoted texts, keeping the lines. Rough, but enough to tell a word that is said from one that is done. */
function codeOf(text: string): string {
  const spoken = /\/\*[\s\S]*?\*\/|(?<![:'"`\\])\/\/[^\n]*|'(?:\\.|[^'\\\n])*'|"(?:\\.|[^"\\\n])*"/g;
  return text.replace(spoken, (part) => part.replace(/[^\n]/g, ' '));
}
