import type { CarePreview } from '../../../../care-calendar/index.js';
import type { SiteClimate } from '../../../../core/climate/station.js';
import { addDays, type CivilDay } from '../../../../core/units/civil-day.js';
import { showTemperature, type UnitSystem } from '../../../../core/units/show.js';
import type { FeedSpan } from '../../../charts/chart-figures.js';
import { iceRuns } from '../../../charts/forecast-geometry.js';
import { longDate } from '../../../charts/show-date.js';
import { dailyWater, feedSpans } from '../year.view-model.js';
import type { SaidLine } from './said-lines.js';

const KM_PER_MILE = 1.609344;
const YEAR_DAYS = 364;

/** Which station speaks for the place, and once the pond can be planned, what its winter does to the water. */
export function whereLine(climate: SiteClimate, preview: CarePreview | null, units: UnitSystem): SaidLine {
  const [nearest] = climate.stations;
  const place = nearest ? `${nearest.name}, ${distanceWords(nearest.distanceKm, units)}` : 'No station';
  const zone = `Hardiness zone ${climate.hardinessZone}${climate.koeppen ? `, climate ${climate.koeppen}` : ''}.`;
  const far = climate.warnings.length > 0;
  const farWords = far ? 'That is far, or at another height: readings of this water will count for more.' : '';
  return {
    tone: far ? 'act' : 'fact',
    lead: `${place}.`,
    text: [zone, farWords, preview ? winterWords(preview, units) : ''].filter(Boolean).join(' '),
  };
}

function distanceWords(distanceKm: number, units: UnitSystem): string {
  return units === 'us' ? `${Math.round(distanceKm / KM_PER_MILE)} miles` : `${Math.round(distanceKm)} km`;
}

function winterWords({ plan, outlook }: CarePreview, units: UnitSystem): string {
  const { today } = plan;
  const cold = feedSpans(outlook, today, true).filter(({ kind }) => kind === 'none');
  const ice = iceRuns(dailyWater(outlook), today, addDays(today, YEAR_DAYS)).length > 0;
  const limit = showTemperature(10, units);
  if (cold.length === 0) return `The water is likely to stay above ${limit} all year.`;
  const iceWords = ice ? 'Ice is likely.' : 'Lasting ice is not likely.';
  return `The water is likely below ${limit} ${coldWords(cold, today)}. ${iceWords}`;
}

/** The year begins today, which may lie in the middle of the cold. */
function coldWords(cold: readonly FeedSpan[], today: CivilDay): string {
  const [first, ...later] = cold as [FeedSpan, ...FeedSpan[]];
  if (first.until - first.from >= YEAR_DAYS - 1) return 'all year';
  const words =
    first.from === today
      ? `until ${longDate(first.until)}`
      : `from ${longDate(first.from)} to ${longDate(first.until)}`;
  const again = later.at(-1);
  return again ? `${words}, and again from ${longDate(again.from)}` : words;
}
