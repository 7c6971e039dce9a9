import type { AddressInfo } from 'node:net';
import { type ParsedMail, simpleParser } from 'mailparser';
import { SMTPServer } from 'smtp-server';

/** A real SMTP server on a free port of this machine that keeps every mail it is handed, parsed. Close it. */
export async function mailCatcher() {
  const mails: { readonly to: string; readonly mail: ParsedMail }[] = [];
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['AUTH', 'STARTTLS'],
    onData(stream, session, done) {
      simpleParser(stream).then(
        (mail) => {
          mails.push({ to: session.envelope.rcptTo.map(({ address }) => address).join(', '), mail });
          done();
        },
        (error: Error) => done(error),
      );
    },
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  const { port } = server.server.address() as AddressInfo;
  return {
    port,
    mails,
    to: (address: string) => mails.filter((one) => one.to === address).map(({ mail }) => mail),
    close: () => new Promise<void>((closed) => server.close(() => closed())),
  };
}
