import { showMinutes } from '../../core/units/show.js';

/** "2 of 5 visits are left, 1 h 30 min of work at the ponds." Also said by the phone, which knows what it has closed. */
export function roundSentence(stops: number, openMinutes: readonly number[]): string {
  if (stops === 0) return 'No visit is on your round today.';
  const open = openMinutes.length;
  const minutes = openMinutes.reduce((sum, one) => sum + one, 0);
  const count = `${stops} ${stops === 1 ? 'visit' : 'visits'}`;
  if (open === 0) return `${count} today, none is left.`;
  const left = open === stops ? `${count} today` : `${open} of ${count} are left`;
  return `${open === 1 && stops > 1 ? `1 of ${count} is left` : left}, ${showMinutes(minutes)} of work at the ponds.`;
}
