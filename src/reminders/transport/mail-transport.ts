import type { MailPicture } from '../mail-outbox.entity.js';

/** A mail as it is handed to a server. One recipient, always. */
export interface OutgoingMail {
  /** Of the outbox. */
  readonly id: string;
  readonly fromName: string;
  readonly to: { readonly name: string; readonly address: string };
  readonly replyTo: string | null;
  readonly subject: string;
  readonly html: string;
  readonly plainText: string;
  /** Shown inside the HTML part; the mail reads well without them. */
  readonly pictures?: readonly MailPicture[];
  /** Further headers; values are ours, never a person's text. */
  readonly headers: Readonly<Record<string, string>>;
  readonly messageId: string;
  /** Instant of the Date header. */
  readonly datedAt: string;
}

/**
 * What became of handing over a mail. `reply` is the server's words with the stage they were said at.
 * - `accepted`: the server answered 2xx to the text.
 * - `refused`: 5xx, never to be tried again by itself.
 * - `later`: 4xx, or no connection before the text went out.
 * - `unknown`: the text had gone out and no answer could be read.
 * - `unsendable`: the mail itself cannot be written as a message.
 * - `withdrawn`: the caller took it back before the text went out.
 */
export type HandOver =
  | { readonly kind: 'accepted' | 'refused' | 'later' | 'unknown' | 'unsendable'; readonly reply: string }
  | { readonly kind: 'withdrawn' };

/** A way for mail to leave. */
export abstract class MailTransport {
  /** False where there is no mail server: mails are kept to be read. */
  abstract readonly canSend: boolean;

  /**
   * Hands one mail over. `beforeText` is awaited after the server has asked for the text and before any of it goes
   * out; when it answers false nothing is sent. Never throws: every fault is a `HandOver`.
   */
  abstract send(mail: OutgoingMail, beforeText: () => Promise<boolean>): Promise<HandOver>;

  /** Ends idle connections. */
  abstract close(): Promise<void>;
}

/** No mail server is set up. */
export class NoMailServer extends MailTransport {
  readonly canSend = false;

  async send(): Promise<HandOver> {
    return { kind: 'later', reply: 'No mail server is set up.' };
  }

  async close(): Promise<void> {}
}
