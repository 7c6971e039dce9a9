import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { DomainError } from './core/errors.js';
import { serveUntilStopped } from './serve.js';

try {
  const { values } = parseArgs({ options: { empty: { type: 'boolean', default: false } } });
  process.exitCode = await serveUntilStopped({
    sources: {
      environment: process.env,
      configDirectory: fileURLToPath(new URL('../config', import.meta.url)),
    },
    isEmpty: values.empty,
    print: (line) => process.stdout.write(`${line}\n`),
  });
} catch (error) {
  const { code, message, stack } = error as { code?: string; message: string; stack?: string };
  const isPlain = error instanceof DomainError || code?.startsWith('ERR_PARSE_ARGS');
  process.stderr.write(`${isPlain ? message : (stack ?? message)}\n`);
  process.exitCode = 1;
}
