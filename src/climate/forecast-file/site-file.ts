import { readFileSync } from 'node:fs';
import { IANAZone } from 'luxon';
import { z } from 'zod';
import { ForecastFileError } from './forecast-file-error.js';

function numberWithin(min: number, max: number) {
  const error = `Allowed: a number from ${min} to ${max}`;
  return z.number({ error }).min(min, { error }).max(max, { error });
}

const SiteSchema = z.strictObject({
  /** Degrees, north positive. */
  latitude: numberWithin(-90, 90),
  /** Degrees, east positive. */
  longitude: numberWithin(-180, 180),
  elevationM: numberWithin(-450, 6000),
  /** Volume over area. */
  meanDepthM: numberWithin(0.05, 30),
  areaM2: numberWithin(0.2, 1e8),
  /** Share of the sun kept off. */
  shadeFraction: numberWithin(0, 0.95),
  timeZone: z
    .string({ error: 'Allowed: an IANA time zone, for example America/Chicago' })
    .refine((zone) => IANAZone.isValidZone(zone), 'Allowed: an IANA time zone, for example America/Chicago'),
  /** Mean wind over this water at 2 m. */
  windMPerS: numberWithin(0, 20).optional(),
  /** Mean share of extraterrestrial radiation that reaches the ground. */
  sunFraction: numberWithin(0.1, 0.8).optional(),
});

/** What the forecast command is told of a site, as in `site.json`. */
export type ForecastSite = z.output<typeof SiteSchema>;

/** Reads and checks `site.json`. @throws ForecastFileError naming every field that is wrong. */
export function readSiteFile(file: string): ForecastSite {
  let content: unknown;
  try {
    content = JSON.parse(readTextFile(file));
  } catch (error) {
    if (error instanceof ForecastFileError) throw error;
    throw new ForecastFileError(`${file}: not JSON (${(error as Error).message}).`);
  }
  const site = SiteSchema.safeParse(content);
  if (site.success) return site.data;
  const known = Object.keys(SiteSchema.shape).join(', ');
  const faults = site.error.issues.map((issue) =>
    issue.code === 'unrecognized_keys'
      ? `${file}: ${issue.keys.map((key) => JSON.stringify(key)).join(', ')} is not known; the keys are ${known}.`
      : `${file}, ${issue.path.join('.') || 'content'}: ${shown(valueAt(content, issue.path))}. ${issue.message}.`,
  );
  throw new ForecastFileError(faults.join('\n'));
}

export function readTextFile(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    throw new ForecastFileError(`${file}: cannot be read (${(error as NodeJS.ErrnoException).code}).`);
  }
}

function valueAt(content: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((value, key) => (value as Record<PropertyKey, unknown> | null)?.[key], content);
}

function shown(value: unknown): string {
  return value === undefined ? 'is missing' : JSON.stringify(value);
}
