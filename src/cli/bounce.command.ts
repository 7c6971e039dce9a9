import { buffer } from 'node:stream/consumers';
import { type BounceOutcome, BouncesService } from '../reminders/index.js';
import { readOptions, SETTINGS_OPTIONS } from './options.js';
import { type Command, CommandError } from './terminal.js';
import { withServices } from './with-services.js';

const OPTIONS = { ...SETTINGS_OPTIONS, to: { type: 'string' } } as const;

const SAID: Readonly<Record<BounceOutcome, string>> = {
  returned: 'The mail is noted as come back.',
  delayed: 'The server is still trying; nothing changed.',
  'not-a-report': 'This is no delivery report; nothing changed.',
  'not-ours': 'This report names no mail of ours; nothing changed.',
};

export const command: Command = {
  help: `tarnkeep bounce [--to ADDRESS] [--data DIR] < message

Reads one report of an undelivered mail (RFC 3464) from standard input, as a mail server pipes it to a program. A mail
that came back for good is listed under Messages, and an address that does not exist is mailed no more: its homeowner
stands on the call list. Reports not signed by us, and answers of people or machines, change nothing.

  --to ADDRESS   the address it was sent to, where the server tells it

Example: tarnkeep bounce --to "$RECIPIENT" < message.eml
`,
  async run(words, terminal) {
    const { values } = readOptions('bounce', words, OPTIONS);
    return withServices(terminal, values, async (services) => {
      const bounces = services.get(BouncesService, { strict: false });
      if (!bounces.isSetUp) {
        throw new CommandError(
          'bounces is not set: name address and secret in config/defaults.yaml, then mail is sent with them.',
        );
      }
      const raw = await buffer(terminal.input);
      const outcome = await bounces.receive(raw, values.to === undefined ? [] : [values.to]);
      terminal.out(`${SAID[outcome]}\n`);
      return 0;
    });
  },
};
