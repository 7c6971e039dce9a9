import { type ParseArgsConfig, parseArgs } from 'node:util';
import { UsageError } from './terminal.js';

type Options = NonNullable<ParseArgsConfig['options']>;

/** Words of a command, read by `parseArgs` of Node; what it does not know is one sentence. @throws UsageError */
export function readOptions<O extends Options>(
  command: string,
  words: readonly string[],
  options: O,
  positionals: readonly string[] = [],
) {
  const parsed = parsedWords(command, words, options);
  if (parsed.positionals.length > positionals.length) {
    throw new UsageError(
      `${parsed.positionals[positionals.length]} is one word too many. See tarnkeep ${command} --help.`,
    );
  }
  const missing = positionals[parsed.positionals.length];
  if (missing) throw new UsageError(`${missing} is missing. See tarnkeep ${command} --help.`);
  return parsed;
}

function parsedWords<O extends Options>(command: string, words: readonly string[], options: O) {
  try {
    return parseArgs({ args: [...words], options, allowPositionals: true, strict: true });
  } catch (error) {
    const { code, message } = error as { code?: string; message: string };
    if (!code?.startsWith('ERR_PARSE_ARGS')) throw error;
    const what =
      code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION'
        ? `${/'([^']+)'/.exec(message)?.[1] ?? 'This'} is not an option of tarnkeep ${command}`
        : (message.split(/[.\n]/)[0] ?? message);
    throw new UsageError(`${what}. See tarnkeep ${command} --help.`);
  }
}

/** Where the settings may be bent for one command. */
export const SETTINGS_OPTIONS = {
  data: { type: 'string' },
} as const satisfies Options;

export const COMPANY_OPTION = { company: { type: 'string' } } as const satisfies Options;
