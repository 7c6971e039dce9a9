import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';

const BUILD_TOOLS = [
  { command: 'python3', name: 'Python 3', debianPackage: 'python3' },
  { command: 'make', name: 'make', debianPackage: 'make' },
  { command: 'g++', name: 'a C++ compiler (g++)', debianPackage: 'g++' },
];

/** Installs everything anew and shows the build of the binding, also where scripts are switched off by a setting. */
const INSTALL_ALOUD = 'npm ci --foreground-scripts --ignore-scripts=false';

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
      const verb = missing.length > 1 ? 'are' : 'is';
      return `The SQLite binding could not be built because ${names} ${verb} missing: run \`apt-get update && apt-get install -y ${packages}\` as root, then \`npm ci\` again.`;
    }
    return `The SQLite binding cannot be loaded (${reasonOf(error)}): run \`${INSTALL_ALOUD}\`, which builds it or shows why it cannot be built.`;
  }
}

function reasonOf({ code, message }) {
  const [firstLine] = String(message).split('\n');
  return code === 'MODULE_NOT_FOUND' || /^Could not locate the bindings file/.test(firstLine)
    ? 'it was not built'
    : firstLine;
}
