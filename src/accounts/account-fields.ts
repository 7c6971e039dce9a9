import { IANAZone } from 'luxon';
import { InvalidValueError } from '../core/errors.js';

const LONGEST_ADDRESS = 254;
const LONGEST_LOCAL_PART = 64;
const ADDRESS = /^[^\s@<>,;:"()\\[\]]+@[a-z0-9](?:[a-z0-9-]*[a-z0-9])?(?:\.[a-z0-9](?:[a-z0-9-]*[a-z0-9])?)+$/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const CONTROL = /[\u0000-\u001f\u007f\u2028\u2029\u202a-\u202e\u2066-\u2069]/;

/** Lower case without spaces around: the form in which addresses are stored and compared. */
export function mailAddress(text: string): string {
  const address = text.trim().toLowerCase();
  const local = address.slice(0, address.lastIndexOf('@'));
  if (address.length > LONGEST_ADDRESS || local.length > LONGEST_LOCAL_PART || !ADDRESS.test(address)) {
    throw new InvalidValueError('email', text, 'Write one mail address, for example maria@example.com.');
  }
  return address;
}

/** One line of text without control or direction signs, which could break a mail's head or hide what is written. */
export function oneLine(field: string, text: string, longest = 200): string {
  const line = text.trim();
  if (line === '' || line.length > longest || CONTROL.test(line)) {
    throw new InvalidValueError(field, text, `Write 1 to ${longest} characters on one line.`);
  }
  return line;
}

/** Like `oneLine`, but may be empty. */
export function oneLineOrNone(field: string, text: string, longest = 200): string {
  return text.trim() === '' ? '' : oneLine(field, text, longest);
}

/** Text of several lines; other control signs are refused. */
export function severalLines(field: string, text: string, longest = 1000): string {
  const lines = text.trim().replace(/\r\n?/g, '\n');
  if (lines === '' || lines.length > longest || CONTROL.test(lines.replaceAll('\n', ' '))) {
    throw new InvalidValueError(field, text, `Write 1 to ${longest} characters.`);
  }
  return lines;
}

export function timeZoneName(text: string): string {
  if (!IANAZone.isValidZone(text)) {
    throw new InvalidValueError('timeZone', text, 'Write an IANA time zone, for example America/Chicago.');
  }
  return text;
}
