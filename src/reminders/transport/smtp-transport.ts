import { Readable } from 'node:stream';
import SMTPConnection from 'nodemailer/lib/smtp-connection';
import type { BounceSettings, DkimSettings, SmtpSettings } from '../../config/index.js';
import { type HandOver, MailTransport, type OutgoingMail } from './mail-transport.js';
import { messageText } from './message-text.js';
import { returnAddress } from './return-address.js';

/** How long a server may be silent. */
export interface SmtpPatience {
  /** From opening the connection until the server asks for the text; shorter than the lease of a claimed mail. */
  readonly beforeTextMs: number;
  /** After the text: ten minutes (RFC 5321 section 4.5.3.2.6). */
  readonly afterTextMs: number;
  /** An open connection nobody uses. */
  readonly idleMs: number;
}
const PATIENCE: SmtpPatience = { beforeTextMs: 90_000, afterTextMs: 600_000, idleMs: 5_000 };

export interface SmtpOptions {
  readonly patience?: SmtpPatience;
  /** Signs every mail. */
  readonly dkim?: DkimSettings | null;
  /** Makes every mail come back to an address of its own. */
  readonly bounces?: BounceSettings | null;
}

const LOOPBACK = /^(localhost|127(\.\d{1,3}){3}|::1)$/;
const LONGEST_REPLY = 500;

type SmtpError = Error & { code?: string; command?: string; response?: string; responseCode?: number };
interface Idle {
  readonly connection: SMTPConnection;
  readonly timer: NodeJS.Timeout;
}

/**
 * Mail over SMTP. TLS is required and its certificate verified, unless the server is on this machine. A connection
 * that delivered a mail is kept for the next one.
 */
export class SmtpTransport extends MailTransport {
  readonly canSend = true;
  private readonly idle: Idle[] = [];
  private readonly patience: SmtpPatience;
  private readonly dkim: DkimSettings | null;
  private readonly bounces: BounceSettings | null;

  constructor(
    private readonly server: SmtpSettings,
    private readonly fromAddress: string,
    options: SmtpOptions = {},
  ) {
    super();
    this.patience = options.patience ?? PATIENCE;
    this.dkim = options.dkim ?? null;
    this.bounces = options.bounces ?? null;
  }

  async send(mail: OutgoingMail, beforeText: () => Promise<boolean>): Promise<HandOver> {
    let text: Buffer;
    try {
      text = await messageText(mail, this.fromAddress, this.dkim);
    } catch (error) {
      return { kind: 'unsendable', reply: shortened(`writing the message: ${(error as Error).message}`) };
    }

    const kept = this.takeIdle();
    if (kept) {
      const attempt = new Attempt(kept, beforeText);
      const result = await this.run(attempt, mail, text);
      // A server may have closed an idle connection; that says nothing about this mail.
      if (attempt.textStarted || result.kind !== 'later') return result;
    }
    return this.run(new Attempt(this.newConnection(), beforeText), mail, text);
  }

  async close(): Promise<void> {
    for (const { connection, timer } of this.idle.splice(0)) {
      clearTimeout(timer);
      connection.quit();
    }
  }

  private async run(attempt: Attempt, mail: OutgoingMail, text: Buffer): Promise<HandOver> {
    const from = this.bounces === null ? this.fromAddress : returnAddress(mail.id, this.bounces);
    const envelope = { from, to: [mail.to.address], size: text.length };
    const result = await attempt.run(envelope, text, this.server, this.patience.beforeTextMs);
    if (result.kind === 'accepted') this.keep(attempt.connection);
    else attempt.connection.close();
    return result;
  }

  private newConnection(): SMTPConnection {
    const isHere = LOOPBACK.test(this.server.host);
    return new SMTPConnection({
      host: this.server.host,
      port: this.server.port,
      secure: this.server.secure,
      requireTLS: !this.server.secure && !isHere,
      tls: { rejectUnauthorized: !isHere, minVersion: 'TLSv1.2' },
      name: this.fromAddress.split('@')[1],
      connectionTimeout: this.patience.beforeTextMs,
      greetingTimeout: this.patience.beforeTextMs,
      socketTimeout: this.patience.afterTextMs,
      allowInternalNetworkInterfaces: isHere,
    });
  }

  private keep(connection: SMTPConnection): void {
    const timer = setTimeout(() => {
      this.idle.splice(
        this.idle.findIndex((one) => one.connection === connection),
        1,
      );
      connection.quit();
    }, this.patience.idleMs);
    timer.unref();
    this.idle.push({ connection, timer });
  }

  private takeIdle(): SMTPConnection | null {
    for (let last = this.idle.pop(); last; last = this.idle.pop()) {
      clearTimeout(last.timer);
      if (!isClosed(last.connection)) return last.connection;
    }
    return null;
  }
}

const closed = new WeakSet<SMTPConnection>();
const isClosed = (connection: SMTPConnection) => closed.has(connection);

/** One mail over one connection. */
class Attempt {
  /** Whether any of the text may have gone out. */
  textStarted = false;
  private isWithdrawn = false;
  private fault: SmtpError | null = null;
  private onFault: (error: SmtpError) => void = () => undefined;

  constructor(
    readonly connection: SMTPConnection,
    private readonly beforeText: () => Promise<boolean>,
  ) {
    connection.removeAllListeners('error');
    connection.removeAllListeners('end');
    connection.on('error', (error: SmtpError) => {
      closed.add(connection);
      this.fault = error;
      this.onFault(error);
    });
    connection.on('end', () => closed.add(connection));
  }

  async run(
    envelope: { from: string; to: string[]; size: number },
    text: Buffer,
    server: SmtpSettings,
    beforeTextMs: number,
  ): Promise<HandOver> {
    const timer = setTimeout(() => {
      if (this.textStarted) return;
      this.onFault(
        Object.assign(new Error(`no answer within ${Math.round(beforeTextMs / 1000)} s`), { code: 'ETIMEDOUT' }),
      );
      this.connection.close();
    }, beforeTextMs);
    try {
      if (!isOpen(this.connection)) await this.step((done) => this.connection.connect(done));
      if (server.user !== null && !this.connection.authenticated && this.connection.allowsAuth) {
        const credentials = { user: server.user, pass: server.password ?? '' };
        await this.step((done) => this.connection.login({ credentials }, done));
      }
      const reply = await this.step<{ response?: string }>((done) =>
        this.connection.send(envelope, this.gated(text), done),
      );
      return { kind: 'accepted', reply: shortened(reply?.response ?? '250') };
    } catch (error) {
      return this.judged(error as SmtpError);
    } finally {
      clearTimeout(timer);
      this.onFault = () => undefined;
    }
  }

  /** One callback step that also ends when the connection breaks. */
  private step<T>(start: (done: (error?: Error | null, value?: T) => void) => void): Promise<T | undefined> {
    return new Promise((resolve, reject) => {
      this.onFault = reject;
      if (this.fault) {
        reject(this.fault);
        return;
      }
      start((error, value) => (error ? reject(error) : resolve(value)));
    });
  }

  /** The text as a stream that is first read when the server has asked for it: that is the moment to commit. */
  private gated(text: Buffer): Readable {
    let opened = false;
    const withdraw = (stream: Readable, error: Error) => {
      this.isWithdrawn = true;
      stream.destroy(error);
      this.onFault(error);
    };
    const { beforeText } = this;
    const start = () => {
      this.textStarted = true;
    };
    return new Readable({
      read() {
        if (opened) return;
        opened = true;
        beforeText().then(
          (goes) => {
            if (this.destroyed) return;
            if (!goes) return withdraw(this, new Error('withdrawn before the text went out'));
            start();
            this.push(text);
            this.push(null);
          },
          (error: Error) => withdraw(this, error),
        );
      },
    });
  }

  private judged(error: SmtpError): HandOver {
    if (this.isWithdrawn) return { kind: 'withdrawn' };
    const code = error.responseCode ?? 0;
    const stage = this.textStarted ? 'after the text' : (error.command ?? 'connection').replace(/^CONN$/, 'connection');
    const reply = shortened(`${stage}: ${error.response ?? error.message}`);
    if (this.textStarted) return { kind: code >= 500 ? 'refused' : code >= 400 ? 'later' : 'unknown', reply };

    // Our own name and password, or our TLS: nothing is wrong with the mail or its address.
    if (error.code === 'EAUTH' || error.code === 'ETLS') return { kind: 'later', reply };
    if (code >= 500 || (error.code === 'EMESSAGE' && code === 0)) return { kind: 'refused', reply };
    if (error.code === 'EENVELOPE' && code === 0) return { kind: 'unsendable', reply };
    return { kind: 'later', reply };
  }
}

function isOpen(connection: SMTPConnection): boolean {
  return connection.stage === 'connected' && !isClosed(connection);
}

function shortened(reply: string): string {
  return reply
    .replace(/\p{Cc}+/gu, ' ')
    .trim()
    .slice(0, LONGEST_REPLY);
}
