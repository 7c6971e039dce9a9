import { type AddressInfo, createServer, type Socket } from 'node:net';

/** Where in an SMTP dialogue something is said. `dot`: after the whole text. */
export const STAGES = ['banner', 'EHLO', 'MAIL', 'RCPT', 'DATA', 'dot'] as const;
export type Stage = (typeof STAGES)[number];
/** A reply, silence, or the end of the connection. */
export type Line = `${number} ${string}` | 'hang' | 'close';

export interface ScriptedServer {
  readonly port: number;
  /** Texts received in full, whatever was answered. */
  readonly texts: string[];
  /** Connections opened so far. */
  connections: number;
  /** Says something else from now on. */
  script: (stage: Stage, recipient: string) => Line | null;
  close(): Promise<void>;
}

const POLITE: Readonly<Record<Stage, Line>> = {
  banner: '220 mail.example.com ESMTP',
  EHLO: '250 mail.example.com',
  MAIL: '250 2.1.0 ok',
  RCPT: '250 2.1.5 ok',
  DATA: '354 go on',
  dot: '250 2.0.0 taken',
};

/** A server that speaks just enough SMTP, and misbehaves at the stage a test names. */
export async function scriptedServer(script: ScriptedServer['script'] = () => null): Promise<ScriptedServer> {
  const sockets = new Set<Socket>();
  const state = { texts: [] as string[], connections: 0, script };
  const server = createServer((socket) => {
    state.connections += 1;
    sockets.add(socket);
    socket.on('error', () => undefined);
    socket.on('close', () => sockets.delete(socket));
    let recipient = '';
    let text: string | null = null;
    const say = (stage: Stage) => {
      const line = state.script(stage, recipient) ?? POLITE[stage];
      if (line === 'close') socket.destroy();
      else if (line !== 'hang') socket.write(`${line}\r\n`);
      return line;
    };
    say('banner');
    let rest = '';
    socket.on('data', (chunk) => {
      rest += chunk.toString('latin1');
      for (let end = rest.indexOf('\r\n'); end >= 0; end = rest.indexOf('\r\n')) {
        const line = rest.slice(0, end);
        rest = rest.slice(end + 2);
        if (text !== null) {
          if (line !== '.') text += `${line}\r\n`;
          else {
            state.texts.push(text);
            text = null;
            say('dot');
          }
        } else if (/^(EHLO|HELO)/i.test(line)) say('EHLO');
        else if (/^MAIL/i.test(line)) say('MAIL');
        else if (/^RCPT/i.test(line)) {
          recipient = /<(.*)>/.exec(line)?.[1] ?? '';
          say('RCPT');
        } else if (/^DATA/i.test(line)) {
          if (say('DATA').startsWith('354')) text = '';
        } else if (/^QUIT/i.test(line)) socket.end('221 bye\r\n');
        else socket.write('250 ok\r\n');
      }
    });
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  return Object.assign(state, {
    port: (server.address() as AddressInfo).port,
    close: () =>
      new Promise<void>((closed) => {
        for (const socket of sockets) socket.destroy();
        server.close(() => closed());
      }),
  });
}
