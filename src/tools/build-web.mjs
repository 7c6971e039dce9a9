// Puts what browsers fetch into dist/web/assets: scripts, one style sheet, fonts, and a manifest of content hashes.
import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const SOURCE = path.join(ROOT, 'src/web');
const ASSETS = path.join(SOURCE, 'assets');
const TARGET = path.join(ROOT, 'dist/web/assets');
const FONTS = [
  '@fontsource/petrona/files/petrona-latin-600-normal.woff2',
  '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2',
];

rmSync(TARGET, { recursive: true, force: true });
mkdirSync(TARGET, { recursive: true });
await bundleScripts();
await joinStyleSheets();
for (const font of FONTS) copyFileSync(fontFile(font), path.join(TARGET, path.basename(font)));
for (const file of filesOf(ASSETS).filter((name) => /\.(svg|png|ico|webmanifest)$/.test(name))) {
  copyFileSync(path.join(ASSETS, file), path.join(TARGET, file));
}
writeManifest();

/** `src/web/**\/name.client.ts` becomes `name.js`; two of one name would overwrite each other. */
async function bundleScripts() {
  const entries = walk(SOURCE).filter((file) => file.endsWith('.client.ts'));
  const byName = {};
  for (const file of entries) {
    const name = path.basename(file, '.client.ts');
    if (byName[name]) throw new Error(`${file} and ${byName[name]} would both become ${name}.js: rename one.`);
    byName[name] = file;
  }
  if (entries.length === 0) return;
  await build({
    entryPoints: byName,
    outdir: TARGET,
    bundle: true,
    minify: true,
    format: 'iife',
    target: 'es2020',
    legalComments: 'none',
    logLevel: 'warning',
  });
}

/** Each sheet directly in the assets folder, with what it imports; addresses under /assets stay as they are. */
async function joinStyleSheets() {
  const sheets = filesOf(ASSETS).filter((name) => name.endsWith('.css'));
  if (sheets.length === 0) return;
  await build({
    entryPoints: sheets.map((name) => path.join(ASSETS, name)),
    outdir: TARGET,
    bundle: true,
    minify: true,
    external: ['/assets/*'],
    target: ['chrome111', 'firefox113', 'safari16.4'],
    logLevel: 'warning',
  });
}

function writeManifest() {
  const hashes = {};
  for (const name of filesOf(TARGET).sort()) {
    hashes[name] = createHash('sha256')
      .update(readFileSync(path.join(TARGET, name)))
      .digest('hex')
      .slice(0, 12);
  }
  writeFileSync(path.join(TARGET, 'manifest.json'), `${JSON.stringify(hashes, null, 2)}\n`);
}

function fontFile(name) {
  const [scope, pkg] = name.split('/');
  const require = createRequire(import.meta.url);
  const folder = path.dirname(require.resolve(`${scope}/${pkg}/package.json`));
  return path.join(folder, ...name.split('/').slice(2));
}

function filesOf(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => entry.name);
}

function walk(folder) {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const file = path.join(folder, entry.name);
    return entry.isDirectory() ? walk(file) : [file];
  });
}
