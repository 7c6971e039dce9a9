import type { OutlookSummary } from '../care-calendar/index.js';
import { type CivilDay, civilDay } from '../core/units/civil-day.js';
import { showTemperature, type UnitSystem } from '../core/units/show.js';

/** A change of the weekly mean that is worth a word. [°C a week] */
const NOTABLE_CHANGE_C = 0.7;
const WEEK = 7;

/** "The water is about 59 °F and falling." from the median of the forecast; nothing where it has no such day. */
export function waterWords(outlook: OutlookSummary | null, today: CivilDay, units: UnitSystem): string | null {
  if (outlook === null) return null;
  const index = today - civilDay(outlook.firstDay);
  const now = outlook.median7dMeanC[index];
  const later = outlook.median7dMeanC[index + WEEK];
  if (now === undefined) return null;
  return `The water is about ${showTemperature(now, units)}${later === undefined ? '' : ` and ${trend(later - now)}`}.`;
}

function trend(changeC: number): string {
  if (Math.abs(changeC) < NOTABLE_CHANGE_C) return 'steady';
  return changeC > 0 ? 'rising' : 'falling';
}
