/**
 * `npm run soak:reminders -- [--homeowners 2000] [--kills 10] [--json]`: weekly digests are written and sent over real
 * SMTP while the process is killed by SIGKILL at random moments and started again. Nobody may get one twice, and none
 * may be lost without being listed.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { FixedClock } from '../platform/clock.js';
import { MailOutboxEntity } from '../reminders/index.js';
import { digestServices } from './reminders/digest-services.js';
import { DIGESTS_DUE_AT, makeDigestWorld } from './reminders/digest-world.js';
import { startRecordingServer } from './reminders/recording-server.js';

const { values } = parseArgs({
  options: {
    homeowners: { type: 'string', default: '2000' },
    kills: { type: 'string', default: '10' },
    json: { type: 'boolean', default: false },
  },
});
const homeowners = Number(values.homeowners);
const kills = Number(values.kills);
/** A fresh process lives this long before it is killed, at random between the two. [ms] */
const LIVES_MS = { min: 400, max: 6_000 };
/** As many as the program has; one may be in doubt for each at each kill. */
const SENDERS = 2;
const say = (sentence: string) => process.stderr.write(`${sentence}\n`);

const directory = await mkdtemp(path.join(tmpdir(), 'tarnkeep-soak-'));
const server = await startRecordingServer();
try {
  const world = await makeDigestWorld(directory, homeowners, say);
  const startedMs = Date.now();
  const killedAfterMs: number[] = [];
  let isDone = false;
  while (killedAfterMs.length < kills && !isDone) {
    const worker = start(startedMs);
    await worker.began;
    const livesMs = LIVES_MS.min + Math.random() * (LIVES_MS.max - LIVES_MS.min);
    isDone = await Promise.race([worker.ended, new Promise<false>((go) => setTimeout(go, livesMs, false))]);
    if (isDone) break;
    worker.process.kill('SIGKILL');
    await worker.ended;
    killedAfterMs.push(Math.round(livesMs));
    say(
      `Killed ${killedAfterMs.length} of ${kills} after ${Math.round(livesMs)} ms; ${server.accepted.size} accepted so far.`,
    );
  }
  const restartedMs = Date.now();
  if (!isDone) {
    say('Started a last time; claims of the killed are free after two minutes.');
    if (!(await start(startedMs).ended)) throw new Error('The last process ended before it was done.');
  }
  report(
    { ...(await outcome(world.companyId)), due: world.due, kills: killedAfterMs.length },
    Date.now() - restartedMs,
  );
} finally {
  await server.close();
  await rm(directory, { recursive: true, force: true });
}

function start(startedMs: number): { process: ChildProcess; began: Promise<void>; ended: Promise<boolean> } {
  const file = path.join(import.meta.dirname, 'reminders/soak-worker.js');
  const words = [file, directory, String(server.port), DIGESTS_DUE_AT, String(startedMs)];
  const child = spawn(process.execPath, words, { stdio: ['ignore', 'pipe', 'inherit'] });
  let said = '';
  child.stdout.on('data', (chunk: Buffer) => {
    said += chunk.toString();
  });
  return {
    process: child,
    began: new Promise((go) => child.once('spawn', go)),
    ended: new Promise((go) => child.once('close', () => go(said.includes('done')))),
  };
}

async function outcome(companyId: string) {
  const services = await digestServices({ directory, smtpPort: server.port, clock: FixedClock.at(DIGESTS_DUE_AT) });
  try {
    const mails = await services.foundation.database
      .company(companyId)
      .find(MailOutboxEntity, { where: { kind: 'digest' } });
    const accepted = (messageId: string) => server.accepted.get(messageId) ?? 0;
    const inDoubt = mails.filter(({ state }) => state === 'in_doubt');
    return {
      written: mails.length,
      delivered: mails.filter(({ messageId }) => accepted(messageId) > 0).length,
      twice: mails.filter(({ messageId }) => accepted(messageId) > 1).length,
      toOnePersonTwice: mails.length - new Set(mails.map(({ toAddress }) => toAddress)).size,
      inDoubt: inDoubt.length,
      inDoubtAndNotDelivered: inDoubt.filter(({ messageId }) => accepted(messageId) === 0).length,
      lost: mails.filter(({ state, messageId }) => accepted(messageId) === 0 && state !== 'in_doubt').length,
    };
  } finally {
    await services.close();
  }
}

function report(
  found: Awaited<ReturnType<typeof outcome>> & { readonly due: number; readonly kills: number },
  lastRunMs: number,
): void {
  const { due, delivered, twice, inDoubt, kills: killed } = found;
  const silentlyLost = due - found.written + found.lost;
  const mostInDoubt = killed * SENDERS;
  const isKept = twice + found.toOnePersonTwice === 0 && silentlyLost === 0 && inDoubt <= mostInDoubt;
  const figures = { due, delivered, twice: twice + found.toOnePersonTwice, silentlyLost, inDoubt };
  const more = {
    kills: killed,
    mostInDoubt,
    inDoubtAndNotDelivered: found.inDoubtAndNotDelivered,
    secondsAfterLastStart: Math.round(lastRunMs / 1000),
  };
  if (values.json) process.stdout.write(`${JSON.stringify({ ...figures, ...more, isKept })}\n`);
  else {
    for (const [name, value] of Object.entries({ ...figures, ...more }))
      process.stdout.write(`${name.padEnd(24)} ${value}\n`);
    process.stdout.write(isKept ? 'The promise is kept.\n' : 'The promise is broken.\n');
  }
  process.exitCode = isKept ? 0 : 1;
}
