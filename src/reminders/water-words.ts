import type { OutlookSummary } from '../care-calendar/index.js';
import { type CivilDay, civilDay } from '../core/units/civil-day.js';
import { showTemperature, type UnitSystem } from '../core/units/show.js';

/** A change of the weekly mean that is worth a word, as on the year wheel. [°C a week] */
const NOTABLE_CHANGE_C = 0.3;
const WEEK = 7;

/**
 * "The water is about 59 °F and falling.": today's median as on the year wheel, and where the 7-day mean goes in the
 * coming week. Nothing where the forecast has no such day.
 */
export function waterWords(outlook: OutlookSummary | null, today: CivilDay, units: UnitSystem): string | null {
  if (outlook === null) return null;
  const index = today - civilDay(outlook.firstDay);
  const todayC = outlook.p50C[index];
  if (todayC === undefined) return null;
  const now = outlook.median7dMeanC[index];
  const later = outlook.median7dMeanC[index + WEEK];
  const goes = now === undefined || later === undefined ? '' : ` and ${trend(later - now)}`;
  return `The water is about ${showTemperature(todayC, units)}${goes}.`;
}

function trend(changeC: number): string {
  if (Math.abs(changeC) < NOTABLE_CHANGE_C) return 'steady';
  return changeC > 0 ? 'rising' : 'falling';
}
