import { DomainError } from '../core/errors.js';
import { type Command, CommandError, type Terminal, UsageError } from './terminal.js';

/** The commands by name; each is loaded only when it is called, so that a small one starts fast. */
const COMMANDS: Readonly<Record<string, () => Promise<{ command: Command }>>> = {
  serve: () => import('./serve.command.js'),
  migrate: () => import('./migrate.command.js'),
  demo: () => import('./demo.command.js'),
  'ponds import': () => import('./ponds-import.command.js'),
  'ponds export': () => import('./ponds-export.command.js'),
  plan: () => import('./plan.command.js'),
  mail: () => import('./mail.command.js'),
  bounce: () => import('./bounce.command.js'),
  remind: () => import('./remind.command.js'),
  forecast: () => import('./forecast.command.js'),
};

const HELP = `tarnkeep COMMAND [options]

  serve           start the program
  migrate         make the database or bring it up to date
  demo            load the demo company and print its sign-in links
  ponds import    read ponds and contacts from a CSV file
  ponds export    write them to one
  plan            plan care calendars and print them
  remind          write and send the mails that are due
  mail            hold all mail, let it go again, or say what is held
  bounce          read a report of an undelivered mail from standard input
  forecast        water temperature of one pond from files, without a database

tarnkeep COMMAND --help tells more of each. Settings: config/defaults.yaml and the environment.
Exit codes: 0 done, 1 not done (the reason is on stderr), 2 the command line cannot be understood.

Example: tarnkeep plan --all --as-of 2027-03-01
`;

/** Runs one command line and answers its exit code. Faults a person can mend are one sentence each, on stderr. */
export async function runCli(words: readonly string[], terminal: Terminal): Promise<number> {
  try {
    if (words.length === 0 || isHelp(words[0]) || words[0] === 'help') {
      (words.length === 0 ? terminal.err : terminal.out).call(terminal, HELP);
      return words.length === 0 ? 2 : 0;
    }
    if (words[0] === 'ponds' && isHelp(words[1])) {
      for (const name of ['ponds import', 'ponds export']) terminal.out(`${(await COMMANDS[name]!()).command.help}\n`);
      return 0;
    }
    const { name, rest } = commandOf(words);
    const { command } = await COMMANDS[name]!();
    if (rest.some(isHelp)) {
      terminal.out(command.help);
      return 0;
    }
    return await command.run(rest, terminal);
  } catch (error) {
    if (error instanceof UsageError || error instanceof CommandError || error instanceof DomainError) {
      terminal.err(`${error.message}\n`);
      return error instanceof UsageError ? 2 : 1;
    }
    terminal.err(`${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`);
    return 1;
  }
}

function isHelp(word: string | undefined): boolean {
  return word === '--help' || word === '-h';
}

function commandOf(words: readonly string[]): { name: string; rest: readonly string[] } {
  for (const length of [2, 1]) {
    const name = words.slice(0, length).join(' ');
    if (Object.hasOwn(COMMANDS, name)) return { name, rest: words.slice(length) };
  }
  if (words[0] === 'ponds') throw new UsageError('ponds needs a second word: import or export. See tarnkeep --help.');
  throw new UsageError(`${words[0]} is not a command. Known are ${Object.keys(COMMANDS).join(', ')}.`);
}
