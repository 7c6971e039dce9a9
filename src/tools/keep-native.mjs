// Postinstall. SQLite's binding is built on this machine when no prebuilt one can be had. This says in one sentence what
// is missing when that failed, and otherwise keeps the built file in npm's own cache, so that the next `npm ci`
// unpacks it instead of compiling for minutes.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { sqliteFault } from './native-binding.mjs';

const fault = sqliteFault();
if (fault) {
  process.stderr.write(`${fault}\n`);
  process.exit(1);
}

const BUILT = 'build/Release/node_sqlite3.node';
try {
  const folder = path.dirname(createRequire(import.meta.url).resolve('sqlite3/package.json'));
  const pkg = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));
  const cached = cachedPrebuild(folder, pkg);
  if (existsSync(path.join(folder, BUILT)) && !existsSync(cached)) {
    mkdirSync(path.dirname(cached), { recursive: true });
    execFileSync('tar', ['-czf', cached, '-C', folder, BUILT]);
  }
} catch (error) {
  // Only time is lost: the next install compiles again.
  process.stdout.write(`The built sqlite3 was not kept for the next install: ${error.message}\n`);
}

/** The file in which npm's installer of prebuilt bindings looks first. */
function cachedPrebuild(folder, pkg) {
  const installer = createRequire(path.join(folder, 'package.json'))('prebuild-install/util.js');
  const isMusl = process.platform === 'linux' && !process.report.getReport().header.glibcVersionRuntime;
  const versions = pkg.binary.napi_versions.filter((version) => version <= Number(process.versions.napi));
  const url = installer.getDownloadUrl({
    pkg,
    runtime: 'napi',
    abi: String(Math.max(...versions)),
    platform: process.platform,
    arch: process.arch,
    libc: isMusl ? 'musl' : '',
    'tag-prefix': 'v',
  });
  return installer.cachedPrebuild(url);
}
