// Runs before a build: says in one sentence what this machine lacks.
import { sqliteFault } from './native-binding.mjs';

const LEAST_NODE = [20, 19];

const fault = nodeFault() ?? sqliteFault();
if (fault) {
  process.stderr.write(`${fault}\n`);
  process.exit(1);
}

function nodeFault() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > LEAST_NODE[0] || (major === LEAST_NODE[0] && minor >= LEAST_NODE[1])) return null;
  return `Node ${process.versions.node} is too old: install Node ${LEAST_NODE.join('.')} or newer, for example from https://nodejs.org.`;
}
