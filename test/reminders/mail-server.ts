import type { AddressInfo, Socket } from 'node:net';
import { type ParsedMail, simpleParser } from 'mailparser';
import { SMTPServer, type SMTPServerOptions } from 'smtp-server';

/** A mail as a server on this machine received it. */
export interface Received {
  readonly raw: string;
  readonly parsed: ParsedMail;
  readonly from: string;
  readonly to: readonly string[];
}

export interface MailServer {
  readonly port: number;
  readonly received: Received[];
  /** Connections opened so far. */
  connections: number;
  /** RCPT commands answered so far. */
  recipients: number;
  close(): Promise<void>;
}

type Answer = 'accept' | `${number} ${string}`;

export interface Manners {
  /** Answer to each RCPT, by its number from 0. */
  readonly onRecipient?: (n: number) => Answer;
  /** After the text of mail n was read in full: an answer, a dropped connection, or silence. */
  readonly onText?: (n: number) => Answer | 'drop' | 'silence';
  readonly onMailFrom?: (n: number) => Answer;
  readonly options?: SMTPServerOptions;
}

/** A real SMTP server on loopback that records every message, also those it then refuses or forgets to answer. */
export async function startMailServer(manners: Manners = {}): Promise<MailServer> {
  let senders = 0;
  let texts = 0;
  const state: MailServer = { port: 0, received: [], connections: 0, recipients: 0, close: async () => undefined };
  const sockets = new Map<number | undefined, Socket>();
  const server = new SMTPServer({
    disabledCommands: ['AUTH', 'STARTTLS'],
    disableReverseLookup: true,
    logger: false,
    onConnect(_session, done) {
      state.connections += 1;
      done();
    },
    onMailFrom(_address, _session, done) {
      answer(manners.onMailFrom?.(senders++) ?? 'accept', done);
    },
    onRcptTo(_address, _session, done) {
      answer(manners.onRecipient?.(state.recipients++) ?? 'accept', done);
    },
    onData(stream, session, done) {
      const chunks: Buffer[] = [];
      stream.on('data', (chunk: Buffer) => chunks.push(chunk));
      stream.on('end', async () => {
        const raw = Buffer.concat(chunks).toString('utf8');
        const what = manners.onText?.(texts++) ?? 'accept';
        state.received.push({
          raw,
          parsed: await simpleParser(raw),
          from: session.envelope.mailFrom === false ? '' : session.envelope.mailFrom.address,
          to: session.envelope.rcptTo.map((one) => one.address),
        });
        if (what === 'drop') sockets.get(session.remotePort)?.destroy();
        else if (what !== 'silence') answer(what, done);
      });
    },
    ...manners.options,
  });
  server.on('error', () => undefined);
  server.server.on('connection', (socket) => {
    sockets.set(socket.remotePort, socket);
    socket.on('error', () => undefined);
  });

  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  return Object.assign(state, {
    port: (server.server.address() as AddressInfo).port,
    close: () =>
      new Promise<void>((closed) => {
        for (const socket of sockets.values()) socket.destroy();
        server.close(() => closed());
      }),
  });
}

function answer(what: Answer, done: (error?: Error | null) => void): void {
  if (what === 'accept') {
    done();
    return;
  }
  const [code, ...words] = what.split(' ');
  done(Object.assign(new Error(words.join(' ')), { responseCode: Number(code) }));
}
