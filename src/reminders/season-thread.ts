import { createHash } from 'node:crypto';
import { seasonOf, seasonStart } from '../core/care/seasons.js';
import { type CivilDay, isoDateOf } from '../core/units/civil-day.js';
import type { Homeowner } from './homeowners.service.js';

/**
 * The conversation a reminder belongs to: one for each person, company and half of the pond's year, from solstice to
 * solstice. Mails that name the same one are shown together, though none of them answers another (RFC 5322, 3.6.4).
 */
export function seasonThread({ company, personId, ponds }: Homeowner, today: CivilDay): string {
  const latitude = ponds[0]?.latitude ?? 0;
  const starts = (['cooling', 'warming'] as const).map((half) =>
    seasonStart(seasonOf(half, today, latitude), latitude),
  );
  const since = isoDateOf(Math.max(...starts) as CivilDay);
  const who = createHash('sha256').update(`${company.id} ${personId} ${since}`).digest('hex').slice(0, 24);
  return `season-${since}-${who}`;
}
