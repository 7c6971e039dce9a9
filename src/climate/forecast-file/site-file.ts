import { readFileSync } from 'node:fs';
import { IANAZone } from 'luxon';
import { z } from 'zod';
import { ForecastFileError } from './forecast-file-error.js';

const SiteSchema = z.strictObject({
  /** Degrees, north positive. */
  latitude: z.number().min(-90).max(90),
  /** Degrees, east positive. */
  longitude: z.number().min(-180).max(180),
  elevationM: z.number().min(-450).max(6000),
  /** Volume over area. */
  meanDepthM: z.number().min(0.05).max(30),
  areaM2: z.number().min(0.2).max(1e8),
  /** Share of the sun kept off. */
  shadeFraction: z.number().min(0).max(0.95),
  timeZone: z
    .string()
    .refine((zone) => IANAZone.isValidZone(zone), 'must be an IANA time zone, for example America/Chicago'),
  /** Mean wind over this water at 2 m. */
  windMPerS: z.number().min(0).max(20).optional(),
  /** Mean share of extraterrestrial radiation that reaches the ground. */
  sunFraction: z.number().min(0.1).max(0.8).optional(),
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
