/**
 * `npm run bench:reminders -- [--mails 5000] [--json]`: digests from the outbox to an SMTP server on this machine, beside
 * bare nodemailer with a pool sending the same messages with the same signature in the same run.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { generateKeyPairSync } from 'node:crypto';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { createTransport } from 'nodemailer';
import { FixedClock } from '../platform/clock.js';
import { MailDelivery, MailOutboxEntity, ReminderSweep } from '../reminders/index.js';
import { type DigestServices, digestServices } from './reminders/digest-services.js';
import { DIGESTS_DUE_AT, makeDigestWorld } from './reminders/digest-world.js';
import { tableOf } from './water-forecast/table.js';

const { values } = parseArgs({
  options: { mails: { type: 'string', default: '5000' }, json: { type: 'boolean', default: false } },
});
const wanted = Number(values.mails);
/** Of both: as many as the program has. */
const CONNECTIONS = 4;
const say = (sentence: string) => process.stderr.write(`${sentence}\n`);

const directory = await mkdtemp(path.join(tmpdir(), 'tarnkeep-bench-'));
const dkimKeyFile = path.join(directory, 'dkim.pem');
const { privateKey } = generateKeyPairSync('rsa', { modulusLength: 2048 });
await writeFile(dkimKeyFile, privateKey.export({ type: 'pkcs8', format: 'pem' }));
const sink = fork(path.join(import.meta.dirname, 'reminders/smtp-sink.js'));
let services: DigestServices | null = null;
try {
  const smtpPort = (await answer<{ port: number }>(sink)).port;
  const { companyId } = await makeDigestWorld(directory, wanted, say);
  services = await digestServices({ directory, smtpPort, clock: FixedClock.at(DIGESTS_DUE_AT), dkimKeyFile });
  const { app, foundation } = services;

  say('Composing …');
  const composing = await seconds(() => app.get(ReminderSweep, { strict: false }).run());
  const mails = await foundation.database
    .company(companyId)
    .find(MailOutboxEntity, { where: { kind: 'digest', state: 'due' } });

  say('Sending with bare nodemailer …');
  const bare = await seconds(() => sendBare(mails, smtpPort));
  say('Sending from the outbox …');
  const delivery = app.get(MailDelivery, { strict: false });
  const ours = await seconds(() => delivery.run({ senders: CONNECTIONS }));
  const sent = await foundation.database.company(companyId).count(MailOutboxEntity, { state: 'sent' });
  sink.send('how much');
  const { taken } = await answer<{ taken: number }>(sink);
  if (sent !== mails.length || taken !== 2 * mails.length) {
    throw new Error(`${sent} of ${mails.length} sent, ${taken} taken by the server: the comparison does not hold.`);
  }
  report(mails.length, { composing, bare, ours });
} finally {
  await services?.close();
  sink.kill();
  await rm(directory, { recursive: true, force: true });
}

async function sendBare(mails: readonly MailOutboxEntity[], port: number): Promise<void> {
  const transport = createTransport({
    host: '127.0.0.1',
    port,
    secure: false,
    ignoreTLS: true,
    pool: true,
    maxConnections: CONNECTIONS,
    maxMessages: Number.POSITIVE_INFINITY,
    dkim: { domainName: 'mail.example.com', keySelector: 'bench', privateKey: await readFile(dkimKeyFile, 'utf8') },
  });
  await Promise.all(
    mails.map((mail) =>
      transport.sendMail({
        from: { name: 'Bench', address: 'reminders@mail.example.com' },
        to: { name: mail.toName, address: mail.toAddress },
        subject: mail.subject,
        text: mail.plainText,
        html: mail.html,
        headers: { 'Auto-Submitted': 'auto-generated', ...mail.headers },
        messageId: mail.messageId,
        date: new Date(mail.datedAt),
      }),
    ),
  );
  transport.close();
}

async function seconds(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return (performance.now() - start) / 1000;
}

function answer<T>(process: ChildProcess): Promise<T> {
  return new Promise((resolve, reject) => {
    process.once('message', (said) => resolve(said as T));
    process.once('exit', () => reject(new Error('The mail server ended.')));
  });
}

function report(count: number, took: { composing: number; bare: number; ours: number }): void {
  const perSecond = (time: number) => Math.round(count / time);
  const figures = {
    mails: count,
    connections: CONNECTIONS,
    composedPerSecond: perSecond(took.composing),
    barePerSecond: perSecond(took.bare),
    outboxPerSecond: perSecond(took.ours),
    ratio: Number((took.bare / took.ours).toFixed(2)),
  };
  if (values.json) process.stdout.write(`${JSON.stringify(figures)}\n`);
  else {
    const rows = [
      ['composing and writing', took.composing.toFixed(1), String(figures.composedPerSecond)],
      ['bare nodemailer, pooled', took.bare.toFixed(1), String(figures.barePerSecond)],
      ['from the outbox', took.ours.toFixed(1), String(figures.outboxPerSecond)],
    ];
    process.stdout.write(`${tableOf(['step', 's', 'mails a second'], rows, 1)}\n`);
    process.stdout.write(
      `${count} mails, ${CONNECTIONS} connections, all signed: ${figures.ratio} of bare (goal 0.8).\n`,
    );
  }
}
