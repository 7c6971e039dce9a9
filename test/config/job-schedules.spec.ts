import { rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { validate } from 'node-cron';
import { loadJobSchedules } from '../../src/config/index.js';
import { temporaryDirectory } from '../support/temporary-database.js';

const JOB = `- { name: a-job, schedule: '7 * * * *', timeZone: UTC, why: it is only an example }\n`;

describe('loadJobSchedules', () => {
  let directory: string;
  beforeEach(async () => {
    directory = await temporaryDirectory();
  });
  afterEach(() => rm(directory, { recursive: true }));

  const load = async (text: string) => {
    await writeFile(path.join(directory, 'jobs.yaml'), text);
    return loadJobSchedules(directory);
  };

  it('reads the three jobs of the product, at odd minutes', () => {
    const jobs = loadJobSchedules(path.resolve('config'));
    expect(jobs.map((job) => job.name)).toEqual(['nightly-replan', 'reminder-sweep', 'mail-delivery']);
    for (const { schedule } of jobs) {
      expect(validate(schedule)).toBe(true);
      const minute = schedule.split(' ')[0]!;
      expect(minute === '1-59/2' || Number(minute) % 2 === 1).toBe(true);
    }
  });

  it.each([
    [
      'four fields',
      JOB.replace('7 * * * *', '7 * * *'),
      /config\/jobs.yaml, a-job: schedule is "7 \* \* \*", but must have five fields/,
    ],
    [
      'a zone that is none',
      JOB.replace('UTC', 'Chicago'),
      /a-job: timeZone is "Chicago", but must be an IANA time zone/,
    ],
    ['no reason', JOB.replace('it is only an example', 'because'), /a-job: why is "because", but must say why/],
    ['an unknown field', JOB.replace('why:', 'when: now, why:'), /config\/jobs.yaml: Unrecognized key: "when"/],
    ['one name twice', JOB + JOB, /a-job stands there twice/],
    ['a list that is none', 'jobs: none', /config\/jobs.yaml/],
    ['what is not YAML', '- [', /config\/jobs.yaml cannot be read/],
  ])('refuses %s', async (_what, text, words) => {
    await expect(load(text)).rejects.toThrow(words);
  });
});
