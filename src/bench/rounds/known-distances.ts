import { readFileSync } from 'node:fs';

const FILE = new URL('../../../test/published/vrptw-solomon-trunc1.json', import.meta.url);

interface Published {
  readonly rows: readonly { readonly instance: string; readonly distance: number }[];
}

/** Published optimum of an instance under trunc1 (source in the file), if there is one. */
export function knownDistance(instance: string): number | undefined {
  const { rows } = JSON.parse(readFileSync(FILE, 'utf8')) as Published;
  return rows.find((row) => row.instance === instance.toUpperCase())?.distance;
}
