/** Longest line, in octets without the line break (RFC 5545 section 3.1). */
const LONGEST_LINE_OCTETS = 75;

/** A parameter or a value as text, safe to stand in a file: backslash, comma, semicolon and line breaks escaped (3.3.11). */
export function escapedText(text: string): string {
  return text
    .replace(/[\\;,]/g, (sign) => `\\${sign}`)
    .replace(/\r\n|\r|\n/g, '\\n')
    .replace(/\p{Cc}/gu, ' ');
}

/** A parameter value; quoted, since a zone or a name may hold a colon. A quote cannot stand in one (3.2). */
function quoted(value: string): string {
  return /^[\w/+-]+$/.test(value) ? value : `"${value.replace(/["\p{Cc}]/gu, "'")}"`;
}

/**
 * One content line, folded at 75 octets, never inside a character (RFC 5545 section 3.1), without its last break.
 * @param value As it is to stand; text goes through `escapedText` first.
 */
export function contentLine(name: string, value: string, parameters: Readonly<Record<string, string>> = {}): string {
  const said = Object.entries(parameters).map(([key, one]) => `;${key}=${quoted(one)}`);
  return folded(`${name}${said.join('')}:${value}`);
}

function folded(line: string): string {
  if (Buffer.byteLength(line) <= LONGEST_LINE_OCTETS) return line;
  const parts: string[] = [];
  let part = '';
  let octets = 0;
  for (const character of line) {
    const length = Buffer.byteLength(character);
    if (octets + length > LONGEST_LINE_OCTETS) {
      parts.push(part);
      part = ' ';
      octets = 1;
    }
    part += character;
    octets += length;
  }
  parts.push(part);
  return parts.join('\r\n');
}
