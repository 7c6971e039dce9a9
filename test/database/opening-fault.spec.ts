import { describe, expect, it } from '@jest/globals';
import { openingFault } from '../../src/database/database.errors.js';

const fault = (message: string, code?: string) =>
  openingFault('sqlite', Object.assign(new Error(message), code ? { code } : {})).message;

describe('what is said when the database cannot be opened', () => {
  it('names the command that brings a missing driver', () => {
    const advice = /run `npm ci --foreground-scripts --ignore-scripts=false`, which builds it/;
    expect(fault("Cannot find package 'sqlite3' imported from a file", 'ERR_MODULE_NOT_FOUND')).toMatch(advice);
    expect(fault('Could not locate the bindings file. Tried:\n a folder')).toMatch(advice);
  });

  it('points at the file for a fault of the file', () => {
    const said = fault('SQLITE_CANTOPEN: unable to open database file', 'SQLITE_CANTOPEN');
    expect(said).toMatch(/^The database cannot be opened \(SQLITE_CANTOPEN.*\)\. Look at the file in the data folder/);
  });
});
