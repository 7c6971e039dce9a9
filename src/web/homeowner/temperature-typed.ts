import { InvalidValueError } from '../../core/errors.js';

/** A temperature as a person types it: point or comma, with or without its unit. @throws InvalidValueError */
export function temperatureTyped(text: string): number {
  const match = /^\s*([+-]?\d{1,3}(?:[.,]\d{1,2})?)\s*(?:°?\s*[CF])?\s*$/i.exec(text);
  if (!match) throw new InvalidValueError('temperature', text, 'Write a number, for example 59 or 15.5.');
  return Number(match[1]!.replace(',', '.'));
}
