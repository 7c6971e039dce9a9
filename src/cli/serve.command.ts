import { readOptions, SETTINGS_OPTIONS } from './options.js';
import type { Command } from './terminal.js';

const OPTIONS = {
  ...SETTINGS_OPTIONS,
  port: { type: 'string' },
  host: { type: 'string' },
  empty: { type: 'boolean', default: false },
} as const;

export const command: Command = {
  help: `tarnkeep serve [--port N] [--host ADDRESS] [--data DIR] [--empty]

Starts the program: pages, recurring jobs and mail. A new database gets the demo company, unless --empty asks for a
real one, which begins with its first account in the browser. Ends on Ctrl+C.

Example: tarnkeep serve --port 3100
`,
  async run(words, terminal) {
    const { values } = readOptions('serve', words, OPTIONS);
    const { serveUntilStopped } = await import('../serve.js');
    const { environment, configDirectory, workingDirectory } = terminal;
    const flags = { port: values.port, host: values.host, dataDirectory: values.data };
    const sources = { environment, configDirectory, workingDirectory, flags };
    return serveUntilStopped({ sources, isEmpty: values.empty, print: (line) => terminal.out(`${line}\n`) });
  },
};
