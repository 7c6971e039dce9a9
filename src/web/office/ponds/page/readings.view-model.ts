import type { ReadingQuantity } from '../../../../core/care/care-rule.js';
import type { UnitSystem } from '../../../../core/units/show.js';
import type { ReadingLevel } from '../../../../core/water/reading-verdict.js';
import { civilDayIn, instantFrom } from '../../../../platform/clock.js';
import type { PersonId } from '../../../../platform/ids.js';
import { PLAUSIBLE_READING, type ReadingEntity } from '../../../../ponds/index.js';
import { spokenReading } from '../../../../reminders/index.js';
import type { WaterReading } from '../../../charts/chart-figures.js';
import { shortDate } from '../../../charts/show-date.js';
import type { Option } from '../../../forms/fields.js';

export interface ReadingLine {
  readonly name: string;
  /** When and by whom. */
  readonly taken: string;
  readonly value: string;
  readonly level: ReadingLevel | null;
  /** Never without its limit; empty where there is nothing to judge by. */
  readonly verdict: string;
}

const ORDER: readonly ReadingQuantity[] = [
  'water-temperature',
  'total-ammonia',
  'unionised-ammonia',
  'nitrite',
  'nitrate',
  'ph',
  'alkalinity',
  'hardness',
  'dissolved-oxygen',
  'total-chlorine',
  'salinity',
  'pump-flow',
  'clarity',
  'algae-cover',
  'sludge-depth',
  'snow-depth',
  'weekly-top-up',
];

/** The last reading of each quantity, judged with what was measured on the same day. */
export function readingLines(
  readings: readonly ReadingEntity[],
  pond: { readonly timeZone: string; readonly elevationM: number },
  names: ReadonlyMap<PersonId, string>,
  units: UnitSystem,
): ReadingLine[] {
  const latest = new Map(readings.map((reading) => [reading.quantity, reading]));
  return ORDER.flatMap((quantity) => {
    const reading = latest.get(quantity);
    return reading ? [lineOf(reading, readings, pond, names, units)] : [];
  });
}

function lineOf(
  reading: ReadingEntity,
  all: readonly ReadingEntity[],
  pond: { readonly timeZone: string; readonly elevationM: number },
  names: ReadonlyMap<PersonId, string>,
  units: UnitSystem,
): ReadingLine {
  const dayOf = (one: ReadingEntity) => civilDayIn(instantFrom(one.takenAt), pond.timeZone);
  const day = dayOf(reading);
  const sameDay = (quantity: ReadingQuantity) =>
    all.findLast((one) => one.quantity === quantity && dayOf(one) === day)?.value;
  const temperatureC = sameDay('water-temperature');
  const ph = sameDay('ph');
  const sample = {
    elevationM: pond.elevationM,
    ...(temperatureC !== undefined && { temperatureC }),
    ...(ph !== undefined && { ph }),
  };
  const spoken = spokenReading(reading, sample, units);
  const by = reading.takenBy === null ? undefined : names.get(reading.takenBy);
  return {
    name: nameOf(reading.quantity),
    taken: by ? `${shortDate(day)}, ${by}` : shortDate(day),
    value: spoken.value,
    level: spoken.level === 'not-judged' ? null : spoken.level,
    verdict: spoken.level === 'not-judged' ? '' : spoken.meaning,
  };
}

/** Thermometer readings for the chart. */
export function temperatureReadings(readings: readonly ReadingEntity[], timeZone: string): WaterReading[] {
  return readings
    .filter(({ quantity }) => quantity === 'water-temperature')
    .map(({ takenAt, value }) => ({ on: civilDayIn(instantFrom(takenAt), timeZone), temperatureC: value }));
}

/** Quantities to choose from, each with the unit it is typed in. */
export function quantityOptions(units: UnitSystem): Option[] {
  return ORDER.map((quantity) => {
    const unit = typedUnit(quantity, units);
    return { value: quantity, label: unit === '' ? nameOf(quantity) : `${nameOf(quantity)}, ${unit}` };
  });
}

export function typedUnit(quantity: ReadingQuantity, units: UnitSystem): string {
  if (units === 'us' && quantity === 'water-temperature') return '°F';
  if (units === 'us' && quantity === 'pump-flow') return 'gal/h';
  return PLAUSIBLE_READING[quantity].unit;
}

function nameOf(quantity: ReadingQuantity): string {
  const { name } = PLAUSIBLE_READING[quantity];
  return name.startsWith('pH') ? name : name.charAt(0).toUpperCase() + name.slice(1);
}
