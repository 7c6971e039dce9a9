// Last step of the build: `npx tarnkeep` runs dist/cli.js itself, and the compiler writes files that may not be run.
import { chmodSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const CLI = path.resolve(fileURLToPath(new URL('../../dist/cli.js', import.meta.url)));

chmodSync(process.argv[2] ?? CLI, 0o755);
