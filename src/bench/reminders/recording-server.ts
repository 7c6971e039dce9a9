import type { AddressInfo } from 'node:net';
import { SMTPServer } from 'smtp-server';

export interface RecordingServer {
  readonly port: number;
  /** How often the text of each Message-ID was accepted. */
  readonly accepted: ReadonlyMap<string, number>;
  close(): Promise<void>;
}

/** A real SMTP server on loopback that accepts every message and counts it by its Message-ID. */
export async function startRecordingServer(): Promise<RecordingServer> {
  const accepted = new Map<string, number>();
  const server = new SMTPServer({
    disabledCommands: ['AUTH', 'STARTTLS'],
    disableReverseLookup: true,
    logger: false,
    onData(stream, _session, done) {
      const chunks: Buffer[] = [];
      stream.on('data', (chunk: Buffer) => chunks.push(chunk));
      stream.on('end', () => {
        const text = Buffer.concat(chunks).toString('latin1');
        const id = /^Message-ID:\s*(<[^>]+>)/im.exec(text)?.[1];
        // A text that broke off has no end, and none is accepted without its name.
        if (!id) return done(new Error('no Message-ID'));
        accepted.set(id, (accepted.get(id) ?? 0) + 1);
        done();
      });
    },
  });
  server.on('error', () => undefined);
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  return {
    port: (server.server.address() as AddressInfo).port,
    accepted,
    close: () => new Promise<void>((closed) => server.close(() => closed())),
  };
}
