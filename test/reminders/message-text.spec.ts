import { describe, expect, it } from '@jest/globals';
import { simpleParser } from 'mailparser';
import type { OutgoingMail } from '../../src/reminders/transport/mail-transport.js';
import { messageText } from '../../src/reminders/transport/message-text.js';

function outgoing(own: Partial<OutgoingMail> = {}): OutgoingMail {
  return {
    id: '0199b3c4-0000-7000-8000-00000000000a',
    fromName: 'Sedge & Kettle',
    to: { name: 'Solveig Haugen', address: 'solveig@example.com' },
    replyTo: 'office@sedge.example.com',
    subject: 'Haugen pond: change the feed',
    html: '<p>Change the feed.</p>',
    plainText: 'Change the feed.\n',
    headers: {
      'List-Unsubscribe': `<https://care.example.com/l/stop-mail/${'a'.repeat(43)}>, <mailto:office@sedge.example.com?subject=stop>`,
      'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click',
    },
    messageId: '<0193-1@mail.example.com>',
    datedAt: '2026-10-03T13:00:00.000Z',
    ...own,
  };
}
const written = async (own: Partial<OutgoingMail> = {}) =>
  (await messageText(outgoing(own), 'reminders@mail.example.com')).toString('utf8');
const headerNames = (raw: string) =>
  raw
    .slice(0, raw.indexOf('\r\n\r\n'))
    .split(/\r\n(?![ \t])/)
    .map((line) => line.split(':')[0]!.toLowerCase());

describe('messageText', () => {
  it('carries the headers of a mail that a machine sends and a person may stop', async () => {
    const raw = await written();
    const mail = await simpleParser(raw);
    expect(mail.messageId).toBe('<0193-1@mail.example.com>');
    expect(mail.date?.toISOString()).toBe('2026-10-03T13:00:00.000Z');
    expect(mail.headers.get('auto-submitted')).toBe('auto-generated');
    expect(mail.replyTo?.value).toEqual([{ name: 'Sedge & Kettle', address: 'office@sedge.example.com' }]);
    expect(mail.from?.value).toEqual([{ name: 'Sedge & Kettle', address: 'reminders@mail.example.com' }]);
    expect(headerNames(raw).filter((name) => name === 'list-unsubscribe')).toHaveLength(1);
    expect(mail.headers.get('list')).toMatchObject({
      unsubscribe: { url: `https://care.example.com/l/stop-mail/${'a'.repeat(43)}` },
      'unsubscribe-post': { name: 'List-Unsubscribe=One-Click' },
    });
  });

  it('has a text part before an HTML part, CRLF lines, none longer than 998 octets', async () => {
    const raw = await written({ html: `<p>${'Ünïted ponds '.repeat(400)}</p>`, plainText: 'wörd '.repeat(600) });
    expect(raw.replace(/\r\n/g, '')).not.toMatch(/[\r\n]/);
    expect(Math.max(...raw.split('\r\n').map((line) => Buffer.byteLength(line)))).toBeLessThanOrEqual(998);
    expect(raw.indexOf('text/plain')).toBeLessThan(raw.indexOf('text/html'));
    const mail = await simpleParser(raw);
    expect(mail.text?.trim()).toBe('wörd '.repeat(600).trim());
    expect(mail.html).toContain('Ünïted ponds');
  });

  it.each([
    ['subject', { subject: 'Haugen pond\r\nBcc: everybody@example.com\r\n\r\nhello' }],
    ['recipient name', { to: { name: 'Eve\r\nBcc: everybody@example.com', address: 'solveig@example.com' } }],
    ['company name', { fromName: 'Sedge\nX-Injected: yes\u2028Kettle\u0000' }],
    ['subject, encoded', { subject: 'Pond =?utf-8?Q?=0D=0ABcc:_everybody@example.com?=' }],
  ] satisfies [string, Partial<OutgoingMail>][])('opens no header through the %s', async (_what, own) => {
    const raw = await written(own);
    expect(new Set(headerNames(raw))).toEqual(new Set(headerNames(await written())));
    const mail = await simpleParser(raw);
    expect(mail.bcc).toBeUndefined();
    expect([mail.to].flat().flatMap((one) => one?.value ?? [])).toHaveLength(1);
  });

  it.each([
    'a@example.com, b@example.com',
    'a@example.com>\r\nRCPT TO:<b@example.com',
    'a b@example.com',
    'nobody',
    '',
  ])('refuses %j as a recipient', async (address) => {
    await expect(written({ to: { name: 'Eve', address } })).rejects.toThrow(/mail address/);
  });

  it('encodes names and subjects that are not ASCII', async () => {
    const raw = await written({
      subject: 'Bäckströms damm: byt foder',
      to: { name: 'Åsa "Ö", Lind', address: 'asa@example.com' },
    });
    expect(raw.slice(0, raw.indexOf('\r\n\r\n'))).toMatch(/^[\x20-\x7e\r\n\t]*$/);
    const mail = await simpleParser(raw);
    expect(mail.subject).toBe('Bäckströms damm: byt foder');
    expect([mail.to].flat()[0]?.value).toEqual([{ name: 'Åsa "Ö", Lind', address: 'asa@example.com' }]);
  });

  it('carries a picture inside the HTML part, beside a text part that stands without it', async () => {
    const base64 = Buffer.from('not really a picture').toString('base64');
    const picture = { cid: 'year-2026-10-03@pond', fileName: 'year.png', contentType: 'image/png' as const, base64 };
    const raw = await written({
      html: '<p><img src="cid:year-2026-10-03@pond" alt="The year"></p>',
      pictures: [picture],
    });
    const [, boundary] = /multipart\/alternative;\s+boundary="([^"]+)"/.exec(raw) ?? [];
    expect(raw.indexOf(`--${boundary}`)).toBeLessThan(raw.indexOf('multipart/related'));
    const mail = await simpleParser(raw, { keepCidLinks: true });
    expect(mail.attachments).toMatchObject([
      { contentType: 'image/png', related: true, contentDisposition: 'inline', cid: picture.cid, filename: 'year.png' },
    ]);
    expect(mail.attachments[0]!.content.toString()).toBe('not really a picture');
    expect(mail.text?.trim()).toBe('Change the feed.');
  });

  it('is a mail of two parts without a picture', async () => {
    expect(await written()).not.toMatch(/multipart\/(related|mixed)/);
  });
});
