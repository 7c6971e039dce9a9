import { createHash, createVerify, generateKeyPairSync } from 'node:crypto';
import { describe, expect, it } from '@jest/globals';
import { messageText } from '../../src/reminders/transport/message-text.js';

const { privateKey, publicKey } = generateKeyPairSync('rsa', {
  modulusLength: 2048,
  privateKeyEncoding: { type: 'pkcs8', format: 'pem' },
  publicKeyEncoding: { type: 'spki', format: 'pem' },
});
const DKIM = { domain: 'mail.example.com', selector: 'season', privateKey };
const MAIL = {
  id: '0199b3c4-0000-7000-8000-00000000000a',
  fromName: 'Sedge & Kettle',
  to: { name: 'Solveig Håugen', address: 'solveig@example.com' },
  replyTo: 'office@example.com',
  subject: 'Haugen pond: change the feed — 12 °C',
  html: '<!doctype html><p>Change the feed.</p>',
  plainText: 'Change the feed.  \n\n\n',
  headers: {
    'List-Unsubscribe': '<https://care.example.com/l/stop-mail/x>',
    'List-Unsubscribe-Post': 'List-Unsubscribe=One-Click',
  },
  messageId: '<a@mail.example.com>',
  datedAt: '2026-10-03T13:00:00.000Z',
};

/** A verifier of its own after RFC 6376: relaxed/relaxed, section 3.4.2 and 3.4.4, and the steps of section 6.1.3. */
function verify(raw: Buffer, key: string) {
  const text = raw.toString('latin1');
  const at = text.indexOf('\r\n\r\n');
  const headers = text
    .slice(0, at)
    .replace(/\r\n([ \t])/g, '$1')
    .split('\r\n');
  const relaxed = (line: string) => {
    const colon = line.indexOf(':');
    return `${line.slice(0, colon).toLowerCase().trim()}:${line
      .slice(colon + 1)
      .replace(/[ \t]+/g, ' ')
      .trim()}`;
  };
  const signature = headers.find((line) => /^dkim-signature:/i.test(line))!;
  const tags = new Map(
    signature
      .slice(signature.indexOf(':') + 1)
      .split(';')
      .map((tag) => tag.trim())
      .filter((tag) => tag !== '')
      .map((tag) => [tag.slice(0, tag.indexOf('=')), tag.slice(tag.indexOf('=') + 1).replace(/\s+/g, '')] as const),
  );
  const body = `${text
    .slice(at + 4)
    .replace(/[ \t]+\r\n/g, '\r\n')
    .replace(/[ \t]+/g, ' ')
    .replace(/(\r\n)+$/, '')}\r\n`;
  const bodyHash = createHash('sha256').update(Buffer.from(body, 'latin1')).digest('base64');
  const left = [...headers];
  const said = tags
    .get('h')!
    .split(':')
    .flatMap((name) => {
      const found = left.map((line) => line.toLowerCase().startsWith(`${name.toLowerCase()}:`)).lastIndexOf(true);
      return found < 0 ? [] : [relaxed(left.splice(found, 1)[0]!)];
    });
  const unsigned = relaxed(signature).replace(/([;\s:]b=)[^;]*/, '$1');
  const isSigned = createVerify('RSA-SHA256')
    .update(Buffer.from([...said, unsigned].join('\r\n'), 'latin1'))
    .verify(key, tags.get('b')!, 'base64');
  return { tags, isBodyWhole: bodyHash === tags.get('bh'), isSigned };
}

describe('a signed mail', () => {
  it('verifies with the public half of the key, the stop headers among what is signed', async () => {
    const { tags, isBodyWhole, isSigned } = verify(
      await messageText(MAIL, 'reminders@mail.example.com', DKIM),
      publicKey,
    );
    expect({ isBodyWhole, isSigned }).toEqual({ isBodyWhole: true, isSigned: true });
    expect([tags.get('a'), tags.get('d'), tags.get('s'), tags.has('l')]).toEqual([
      'rsa-sha256',
      'mail.example.com',
      'season',
      false,
    ]);
    const names = tags.get('h')!.toLowerCase().split(':');
    expect(names).toEqual(
      expect.arrayContaining([
        'from',
        'to',
        'subject',
        'date',
        'message-id',
        'list-unsubscribe',
        'list-unsubscribe-post',
      ]),
    );
  });

  it('no longer verifies when a word of it is changed', async () => {
    const raw = (await messageText(MAIL, 'reminders@mail.example.com', DKIM)).toString('latin1');
    const body = verify(Buffer.from(raw.replace('Change the feed', 'Double the feed'), 'latin1'), publicKey);
    expect(body.isBodyWhole).toBe(false);
    const head = verify(
      Buffer.from(raw.replace('List-Unsubscribe=One-Click', 'List-Unsubscribe=Two-Click'), 'latin1'),
      publicKey,
    );
    expect(head.isSigned).toBe(false);
  });

  it('keeps its Message-ID at every try, and is unsigned without a key', async () => {
    const twice = [await messageText(MAIL, 'a@example.com', DKIM), await messageText(MAIL, 'a@example.com', DKIM)];
    expect(twice[0]!.toString()).toContain('DKIM-Signature:');
    expect((await messageText(MAIL, 'a@example.com')).toString()).not.toContain('DKIM-Signature');
    const ids = twice.map((raw) => /^Message-ID: .*$/m.exec(raw.toString())![0]);
    expect(new Set(ids).size).toBe(1);
  });
});
