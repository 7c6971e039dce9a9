/** First characters that make a spreadsheet read a cell as a formula, or hide what follows (OWASP ASVS 5.0, 1.2.10). */
const FORMULA_START = /^[=+\-@\t\r\n\0＝＋－＠]/;
const GUARD = "'";

/**
 * A text as a CSV field: one that a spreadsheet would run is led by an apostrophe, and so is one that begins with an
 * apostrophe, so that reading it again gives the same text. Quoted as RFC 4180 asks.
 */
export function textField(text: string): string {
  const isGuarded = FORMULA_START.test(text) || text.startsWith(GUARD);
  const field = isGuarded ? GUARD + text : text;
  return isGuarded || /[",\r\n]|^\s|\s$/.test(field) ? `"${field.replaceAll('"', '""')}"` : field;
}

/** A number as a CSV field: plain, also when it is negative. */
export function numberField(value: number): string {
  return String(value);
}

/** Takes the apostrophe away again that `textField` has put before a text. */
export function unguarded(field: string): string {
  if (!field.startsWith(GUARD)) return field;
  const rest = field.slice(GUARD.length);
  return FORMULA_START.test(rest) || rest.startsWith(GUARD) ? rest : field;
}
