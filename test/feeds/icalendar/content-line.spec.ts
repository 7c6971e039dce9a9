import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import ICAL from 'ical.js';
import { contentLine, escapedText } from '../../../src/feeds/icalendar/content-line.js';

describe('contentLine', () => {
  it('folds at 75 octets, never inside a character', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 400 }), (text) => {
        const line = contentLine('DESCRIPTION', escapedText(text));
        for (const part of line.split('\r\n')) {
          expect(Buffer.byteLength(part)).toBeLessThanOrEqual(75);
          expect(part).not.toMatch(/\uFFFD$/);
        }
      }),
    );
  });

  // An independent reader of RFC 5545: ical.js.
  it('is read back as it was by an independent parser, whatever the text', () => {
    const printable = fc.string({ unit: 'grapheme', maxLength: 300 }).filter((text) => !/\p{Cc}/u.test(text));
    fc.assert(
      fc.property(printable, printable, (summary, more) => {
        const text = `${summary}\n${more}; a, b \\ c`;
        const file = ['BEGIN:VEVENT', contentLine('SUMMARY', escapedText(text)), 'END:VEVENT'].join('\r\n');
        expect(new ICAL.Component(ICAL.parse(file)).getFirstPropertyValue('summary')).toBe(text);
      }),
    );
  });

  it('lets no line break of a text begin a property of its own', () => {
    const line = contentLine('SUMMARY', escapedText('Net on\r\nATTACH:http://example.com/x\rSTATUS:CANCELLED'));
    expect(line).toBe('SUMMARY:Net on\\nATTACH:http://example.com/x\\nSTATUS:CANCELLED');
  });
});
