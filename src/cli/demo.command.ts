import { DEMO_LOADER, type DemoLoader } from '../demo-loader.js';
import { readOptions, SETTINGS_OPTIONS } from './options.js';
import type { Command } from './terminal.js';
import { withServices } from './with-services.js';

export const command: Command = {
  help: `tarnkeep demo [--data DIR]

Loads the demo company unless it is there, and prints new links that sign in without typing. The demo never sends
mail: it lies in the outbox page. The links work while the program runs (tarnkeep serve).

Example: tarnkeep demo
`,
  async run(words, terminal) {
    const { values } = readOptions('demo', words, SETTINGS_OPTIONS);
    await withServices(terminal, values, async (services) => {
      const demo = services.get<DemoLoader>(DEMO_LOADER, { strict: false });
      if (await demo.isLoaded()) terminal.err('The demo company is there already.\n');
      else await demo.load((step) => terminal.err(`${step}\n`));
      for (const { who, url } of await demo.signIns()) terminal.out(`${who.padEnd(12)}${url}\n`);
    });
    return 0;
  },
};
