import { requireWithin } from '../errors.js';
import { dayFromParts, dayOfYear } from '../units/civil-day.js';
import { daylightHours, extraterrestrialMjPerM2Day, solarFromSunshine } from './fao56.js';
import type { TwelveMonths } from './station.js';
import { twelveMonths } from './twelve-months.js';

const DAYS_OF_MONTH = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

/**
 * Share of the extraterrestrial radiation that reaches the ground, per month, from hours of sunshine.
 * Allen et al. (1998), FAO Irrigation and Drainage Paper 56, eq 34 and 35, at the middle of each month. [-]
 * @param site.sunshineHours Hours in the month; more than the daylight there is counts as all of it.
 */
export function sunShareFromSunshine(site: { latitude: number; sunshineHours: TwelveMonths }): TwelveMonths {
  return twelveMonths((month) => {
    requireWithin('sunshine, h a month', site.sunshineHours[month] as number, { min: 0, max: 744 });
    const middle = { latitude: site.latitude, dayOfYear: middleOf(month) };
    const extraterrestrial = extraterrestrialMjPerM2Day(middle);
    if (extraterrestrial === 0) return 0.25;
    const solar = solarFromSunshine({
      sunshineHours: Math.min(24, (site.sunshineHours[month] as number) / (DAYS_OF_MONTH[month] as number)),
      daylightHours: daylightHours(middle),
      extraterrestrialMjPerM2Day: extraterrestrial,
    });
    return solar / extraterrestrial;
  });
}

/**
 * The same share where no sunshine is recorded, from the Koeppen class. [-]
 * Derived (climate handbook section 10): desert 0.65, Mediterranean summer 0.60, continental and humid subtropical
 * 0.50, marine 0.45, cloudy cool coast 0.33. Steppe 0.55 and Mediterranean winter 0.50 are midpoints of ours.
 */
export function sunShareFromKoeppen(site: { latitude: number; koeppen: string | null }): TwelveMonths {
  const { koeppen } = site;
  return twelveMonths((month) => {
    if (koeppen === null) return 0.5;
    if (koeppen.startsWith('BW')) return 0.65;
    if (koeppen.startsWith('BS')) return 0.55;
    if (koeppen.startsWith('Cs')) return isSummerHalf(month, site.latitude) ? 0.6 : 0.5;
    if (koeppen === 'Cfb') return 0.45;
    return koeppen === 'Cfc' || koeppen === 'ET' ? 0.33 : 0.5;
  });
}

function isSummerHalf(month: number, latitude: number): boolean {
  return (month >= 3 && month <= 8) === latitude >= 0;
}

function middleOf(month: number): number {
  return dayOfYear(dayFromParts(2025, month + 1, 15));
}
