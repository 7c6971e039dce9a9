import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { type ImportProgress, type ImportReport, PondImportService } from '../ponds/index.js';
import { COMPANY_OPTION, readOptions, SETTINGS_OPTIONS } from './options.js';
import { Progress } from './progress.js';
import { type Command, CommandError, type Terminal } from './terminal.js';
import { chosenCompany, withServices } from './with-services.js';

const PHASE_WORDS: Readonly<Record<ImportProgress['phase'], string>> = {
  checking: 'Ponds checked',
  saving: 'Ponds saved',
  planning: 'Calendars made',
};

export const command: Command = {
  help: `tarnkeep ponds import FILE [--company ID] [--data DIR]

Reads ponds and contacts from a CSV file and makes their calendars. With one fault in the file nothing is imported:
each fault is named with its line, field, value and what is allowed, and the exit code is 1.

Example: tarnkeep ponds import ponds.csv
`,
  async run(words, terminal) {
    const options = { ...SETTINGS_OPTIONS, ...COMPANY_OPTION };
    const { values, positionals } = readOptions('ponds import', words, options, ['FILE']);
    const file = path.resolve(terminal.workingDirectory, positionals[0]!);
    const text = await textOf(file);
    return withServices(terminal, values, async (services) => {
      const company = await chosenCompany(services, values.company);
      const progress = new Progress(terminal);
      const onProgress = ({ phase, done, total }: ImportProgress) => progress.show(PHASE_WORDS[phase], done, total);
      const imports = services.get(PondImportService, { strict: false });
      const run = await imports.importCsv(company.id, { fileName: path.basename(file), text }, { onProgress });
      progress.end();
      return report(run.state === 'imported', run.report, terminal);
    });
  },
};

async function textOf(file: string): Promise<string> {
  try {
    return await readFile(file, 'utf8');
  } catch (error) {
    throw new CommandError(`${file} cannot be read (${(error as NodeJS.ErrnoException).code}). Name a CSV file.`);
  }
}

function report(isImported: boolean, found: ImportReport, terminal: Terminal): number {
  for (const { line, field, value, allowed } of found.faults) {
    terminal.err(`line ${line}, ${field}: ${JSON.stringify(value)}. ${allowed}\n`);
  }
  if (found.furtherFaults > 0) terminal.err(`and ${found.furtherFaults} more faults.\n`);
  if (!isImported) {
    terminal.err('Nothing was imported. Correct the lines above and import the file again.\n');
    return 1;
  }
  const { pondsAdded, pondsChanged, contactsAdded } = found;
  terminal.out(`${pondsAdded} ponds added, ${pondsChanged} changed, ${contactsAdded} contacts added.\n`);
  return 0;
}
