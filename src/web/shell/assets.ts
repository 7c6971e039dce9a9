import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** Where the build puts style sheets, scripts and fonts. */
export const ASSETS_DIRECTORY = path.resolve(fileURLToPath(new URL('../assets', import.meta.url)));

const versions = new Map<string, string>();

/** Address of an asset with its content's hash, so that browsers may keep it for a year. */
export function assetUrl(name: string): string {
  let version = versions.get(name);
  if (version === undefined) {
    const file = path.join(ASSETS_DIRECTORY, name);
    version = existsSync(file) ? createHash('sha256').update(readFileSync(file)).digest('hex').slice(0, 12) : 'none';
    versions.set(name, version);
  }
  return `/assets/${name}?v=${version}`;
}
