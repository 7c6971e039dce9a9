import { createWriteStream } from 'node:fs';
import { rename } from 'node:fs/promises';
import path from 'node:path';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { PondExportService } from '../ponds/index.js';
import { COMPANY_OPTION, readOptions, SETTINGS_OPTIONS } from './options.js';
import { type Command, CommandError } from './terminal.js';
import { chosenCompany, withServices } from './with-services.js';

export const command: Command = {
  help: `tarnkeep ponds export [--out FILE] [--company ID] [--data DIR]

Writes the active ponds with their contacts as CSV, in the form that import reads. Without --out to the terminal.

Example: tarnkeep ponds export --out ponds.csv
`,
  async run(words, terminal) {
    const options = { ...SETTINGS_OPTIONS, ...COMPANY_OPTION, out: { type: 'string' } } as const;
    const { values } = readOptions('ponds export', words, options);
    return withServices(terminal, values, async (services) => {
      const company = await chosenCompany(services, values.company);
      const pieces = services.get(PondExportService, { strict: false }).exportCsv(company.id);
      if (values.out === undefined) {
        for await (const piece of pieces) terminal.out(piece);
        return 0;
      }
      const file = path.resolve(terminal.workingDirectory, values.out);
      await writeWhole(file, pieces);
      terminal.err(`${file} written.\n`);
      return 0;
    });
  },
};

async function writeWhole(file: string, pieces: AsyncIterable<string>): Promise<void> {
  try {
    await pipeline(Readable.from(pieces), createWriteStream(`${file}.part`));
    await rename(`${file}.part`, file);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (!code) throw error;
    throw new CommandError(`${file} cannot be written (${code}). Name another with --out.`);
  }
}
