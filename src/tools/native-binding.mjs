import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';

const BUILD_TOOLS = [
  { command: 'python3', name: 'Python 3', debianPackage: 'python3' },
  { command: 'make', name: 'make', debianPackage: 'make' },
  { command: 'g++', name: 'a C++ compiler (g++)', debianPackage: 'g++' },
];

/** Why SQLite's native binding cannot be loaded, in one sentence with the command that helps; null when it can. */
export function sqliteFault() {
  try {
    createRequire(import.meta.url)('sqlite3');
    return null;
  } catch (error) {
    const missing = BUILD_TOOLS.filter(({ command }) => spawnSync(command, ['--version']).error);
    if (missing.length > 0) {
      const names = missing.map(({ name }) => name).join(', ');
      const packages = missing.map(({ debianPackage }) => debianPackage).join(' ');
      return `The SQLite binding could not be built because ${names} ${missing.length > 1 ? 'are' : 'is'} missing: run \`apt-get install -y ${packages}\`, then \`npm ci\` again.`;
    }
    const reason = error.code === 'MODULE_NOT_FOUND' ? 'it was not built' : String(error.message).split('\n')[0];
    return `The SQLite binding cannot be loaded (${reason}): run \`npm install --no-save --foreground-scripts sqlite3\` to see why, then \`npm ci\` again.`;
  }
}
