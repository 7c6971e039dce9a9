import { readFileSync } from 'node:fs';
import path from 'node:path';
import { IANAZone } from 'luxon';
import { parse } from 'yaml';
import { z } from 'zod';
import { SettingsError } from './settings-faults.js';

/** Injection token of the schedules. */
export const JOB_SCHEDULES = Symbol('job-schedules');

const FILE = 'config/jobs.yaml';
const FIVE_FIELDS = /^[\d*,/-]+( [\d*,/-]+){4}$/;

const SchedulesSchema = z
  .array(
    z.strictObject({
      name: z.string().regex(/^[a-z][a-z-]*$/, 'must be words in lower case joined by hyphens'),
      schedule: z.string().regex(FIVE_FIELDS, 'must have five fields: minute, hour, day of month, month, day of week'),
      timeZone: z
        .string()
        .refine((zone) => IANAZone.isValidZone(zone), 'must be an IANA time zone, for example America/Chicago'),
      why: z.string().min(10, 'must say why the job runs then'),
    }),
  )
  .min(1);

/** When one recurring job fires. */
export interface JobSchedule {
  readonly name: string;
  /** Five fields: minute, hour, day of month, month, day of week. */
  readonly schedule: string;
  readonly timeZone: string;
  readonly why: string;
}

/** Reads `config/jobs.yaml`. @throws SettingsError naming file, job, field, value and what is allowed. */
export function loadJobSchedules(configDirectory: string): readonly JobSchedule[] {
  let content: unknown;
  try {
    content = parse(readFileSync(path.join(configDirectory, 'jobs.yaml'), 'utf8'));
  } catch (error) {
    throw new SettingsError([`${FILE} cannot be read: ${(error as Error).message.split('\n')[0]}`]);
  }
  const parsed = SchedulesSchema.safeParse(content);
  if (!parsed.success) throw new SettingsError(parsed.error.issues.map((issue) => faultOf(issue, content)));

  const names = parsed.data.map((job) => job.name);
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice) throw new SettingsError([`${FILE}: ${twice} stands there twice. Keep one of the two.`]);
  return parsed.data;
}

function faultOf(issue: z.core.$ZodIssue, content: unknown): string {
  const [index, field] = issue.path as [number | undefined, string | undefined];
  const job = (content as { name?: string }[] | undefined)?.[index ?? -1];
  if (!job || !field) return `${FILE}: ${issue.message}`;
  const value = JSON.stringify((job as Record<string, unknown>)[field]) ?? 'nothing';
  return `${FILE}, ${job.name ?? `job ${index! + 1}`}: ${field} is ${value}, but ${issue.message}.`;
}
