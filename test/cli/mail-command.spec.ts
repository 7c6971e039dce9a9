import { mkdir, rm } from 'node:fs/promises';
import path from 'node:path';
import { Readable } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { runCli } from '../../src/cli/run-cli.js';
import { openDatabase } from '../../src/database/index.js';
import { ENTITIES } from '../../src/entities.js';
import { storeCompany } from '../support/company-rows.js';
import { temporaryDirectory } from '../support/temporary-database.js';

describe('tarnkeep mail', () => {
  let directory: string;
  let companyId: string;
  beforeAll(async () => {
    directory = await temporaryDirectory();
    await mkdir(path.join(directory, 'data'));
    const database = await openDatabase(
      { kind: 'sqlite', file: path.join(directory, 'data', 'tarnkeep.db') },
      ENTITIES,
    );
    companyId = (await storeCompany(database, { name: 'Lakeside Pond Care' })).company.id;
    await database.close();
  });
  afterAll(() => rm(directory, { recursive: true }));

  async function run(...words: string[]) {
    let said = '';
    const say = (text: string) => {
      said += text;
    };
    const code = await runCli(['mail', ...words], {
      out: say,
      err: say,
      isInteractive: false,
      input: Readable.from([]),
      environment: { TARNKEEP_DATA_DIRECTORY: 'data', TARNKEEP_LOG_LEVEL: 'silent' },
      workingDirectory: directory,
      configDirectory: path.resolve('config'),
    });
    return `${code} ${said}`;
  }

  it('holds the mail of all or of one company, says so, and lets it go', async () => {
    expect(await run('status')).toBe('0 No mail is held.\n');
    expect(await run('hold')).toBe('0 Mail of the whole service is held.\n');
    expect(await run('hold')).toBe('0 Mail of the whole service was held already.\n');
    expect(await run('hold', '--company', companyId)).toBe('0 Mail of Lakeside Pond Care is held.\n');
    const status = await run('status');
    expect(status).toMatch(/the whole service: paused, since \S+Z\n/);
    expect(status).toMatch(/Lakeside Pond Care: paused, since \S+Z\n/);
    expect(await run('release')).toBe('0 Mail of the whole service leaves again.\n');
    expect(await run('release')).toBe('0 Mail of the whole service was not held.\n');
    expect(await run('release', '--company', companyId)).toBe('0 Mail of Lakeside Pond Care leaves again.\n');
  });

  it('says what it wants when it is not told', async () => {
    expect(await run()).toMatch(/^2 mail needs a second word: hold, release or status\./);
    expect(await run('--help')).toMatch(/^0 tarnkeep mail hold\|release\|status/);
  });
});
