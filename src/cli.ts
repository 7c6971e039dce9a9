#!/usr/bin/env node
import { fileURLToPath } from 'node:url';
import { runCli } from './cli/run-cli.js';

// A reader that has seen enough, such as `head`, closes the pipe: that is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

process.exitCode = await runCli(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  isInteractive: process.stderr.isTTY === true,
  input: process.stdin,
  environment: process.env,
  workingDirectory: process.cwd(),
  configDirectory: fileURLToPath(new URL('../config', import.meta.url)),
});
