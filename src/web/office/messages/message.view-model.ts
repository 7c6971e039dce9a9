import type { MailOutboxEntity } from '../../../reminders/index.js';
import { type MessageLine, messageLine, spokenInstant } from './messages.view-model.js';

export interface MessageModel extends MessageLine {
  readonly id: string;
  /** Empty where the mail could not be written. */
  readonly plainText: string;
  readonly hasHtml: boolean;
  readonly facts: readonly { readonly name: string; readonly value: string }[];
  readonly mayResend: boolean;
  readonly linksWork: boolean;
}

/** Links of a mail that has left belong to its homeowner: the office sees where they lead, and cannot press them. */
const LINK_TOKEN = /(\/l\/[a-z-]+\/)[A-Za-z0-9_-]{43}/g;

export function messageModel(mail: MailOutboxEntity, timeZone: string, mayResend: boolean): MessageModel {
  return {
    ...messageLine(mail, timeZone),
    id: mail.id,
    plainText: shownText(mail, mail.plainText),
    hasHtml: mail.html !== '',
    linksWork: linksWork(mail),
    mayResend,
    facts: [
      { name: 'To', value: `${mail.toName} <${mail.toAddress}>` },
      { name: 'Written', value: spokenInstant(mail.createdAt, timeZone) },
      { name: 'Tries', value: String(mail.attempts) },
      ...(mail.sentAt === null
        ? []
        : [
            { name: mail.state === 'sent' ? 'Sent' : 'May have gone out', value: spokenInstant(mail.sentAt, timeZone) },
          ]),
      ...(mail.lastReply === null ? [] : [{ name: 'Last answer', value: mail.lastReply }]),
      { name: 'Message-ID', value: mail.messageId },
    ],
  };
}

type Shown = Pick<MailOutboxEntity, 'html' | 'pictures'>;

/** A document for a frame, with its pictures inside it: a page cannot load what a mail carries beside it. */
export function standaloneHtml({ html, pictures }: Shown): string {
  return pictures.reduce(
    (text, { cid, contentType, base64 }) => text.replaceAll(`cid:${cid}`, `data:${contentType};base64,${base64}`),
    html.replace('<head>', '<head><base target="_blank">'),
  );
}

/** The mail as a document for a frame: its links open a page of their own, or nothing where they are not ours to press. */
export function framedHtml(mail: MailOutboxEntity): string {
  return standaloneHtml({ html: shownText(mail, mail.html), pictures: mail.pictures });
}

function shownText(mail: MailOutboxEntity, text: string): string {
  return linksWork(mail) ? text : text.replace(LINK_TOKEN, '$1not-shown');
}

/** A mail that is kept here has reached nobody. */
function linksWork(mail: MailOutboxEntity): boolean {
  return mail.state === 'kept';
}
