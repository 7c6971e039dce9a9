import { createFoundation } from '../foundation.js';
import { readOptions, SETTINGS_OPTIONS } from './options.js';
import type { Command } from './terminal.js';
import { settingsOf } from './with-services.js';

export const command: Command = {
  help: `tarnkeep migrate [--data DIR]

Makes the database, or brings its tables up to date. Starting the program does the same.

Example: tarnkeep migrate
`,
  async run(words, terminal) {
    const { values } = readOptions('migrate', words, SETTINGS_OPTIONS);
    const settings = settingsOf(terminal, values);
    const { database } = await createFoundation(settings);
    await database.close();
    const where = settings.database.kind === 'sqlite' ? settings.database.file : 'PostgreSQL';
    terminal.out(`The database is up to date: ${where}\n`);
    return 0;
  },
};
