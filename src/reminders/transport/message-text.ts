import { buffer } from 'node:stream/consumers';
import DKIM from 'nodemailer/lib/dkim';
import MailComposer from 'nodemailer/lib/mail-composer';
import type { DkimSettings } from '../../config/index.js';
import { InvalidValueError } from '../../core/errors.js';
import type { OutgoingMail } from './mail-transport.js';

/**
 * The mail as a message (RFC 5322, MIME): CRLF lines, text part before HTML part, one recipient. Line breaks in a
 * name or a subject would open a header of their own: they become spaces here, and other signs are encoded.
 */
export async function messageText(
  mail: OutgoingMail,
  fromAddress: string,
  dkim: DkimSettings | null = null,
): Promise<Buffer> {
  requireOneAddress(mail.to.address);
  if (mail.replyTo !== null) requireOneAddress(mail.replyTo);
  const node = new MailComposer({
    from: { name: oneLine(mail.fromName), address: fromAddress },
    to: { name: oneLine(mail.to.name), address: mail.to.address },
    ...(mail.replyTo && { replyTo: { name: oneLine(mail.fromName), address: mail.replyTo } }),
    subject: oneLine(mail.subject),
    text: mail.plainText,
    html: mail.html,
    attachments: (mail.pictures ?? []).map(({ cid, fileName, contentType, base64 }) => ({
      cid,
      filename: fileName,
      contentType,
      content: Buffer.from(base64, 'base64'),
      contentDisposition: 'inline' as const,
    })),
    headers: { 'Auto-Submitted': 'auto-generated', ...mail.headers },
    messageId: mail.messageId,
    date: new Date(mail.datedAt),
    newline: 'win',
    xMailer: false,
    disableFileAccess: true,
    disableUrlAccess: true,
  }).compile();
  const text = await node.build();
  return dkim === null ? text : signed(text, dkim);
}

/** RFC 6376, rsa-sha256, relaxed; the stop headers are among those signed, as RFC 8058 section 4 wants. */
async function signed(text: Buffer, { domain, selector, privateKey }: DkimSettings): Promise<Buffer> {
  const signer = new DKIM({ domainName: domain, keySelector: selector, privateKey });
  return buffer(signer.sign(text));
}

/** Anything else could be read as two recipients, or as a command. */
const ONE_ADDRESS = /^[^\s<>@,;:"()\\\p{Cc}]{1,64}@[^\s<>@,;:"()\\\p{Cc}]{1,253}$/u;

function requireOneAddress(address: string): void {
  if (!ONE_ADDRESS.test(address) || address.length > 254) {
    throw new InvalidValueError('mail address', address, 'Write one address such as name@example.com.');
  }
}

/** Control characters of every kind become spaces. */
export function oneLine(text: string): string {
  return text.replace(/[\p{Cc}\u2028\u2029]+/gu, ' ').trim();
}
