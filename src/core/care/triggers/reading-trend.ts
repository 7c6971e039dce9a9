import type { PondReading } from '../care-plan.js';

/** Readings further back than this are of other weather and other feeding. [days] */
const SPAN_DAYS = 60;
/** A line through fewer readings, or over fewer days, is no trend. */
const FEWEST_READINGS = 3;
const SHORTEST_SPAN_DAYS = 7;

/**
 * Days from the latest reading to the day on which the straight line through the readings of the last 60 days
 * (least squares, common practice) passes a limit; null where there is no trend towards it: fewer than three days of
 * readings over a week, one of the last three going back, or a line that leads away.
 * @param readings Oldest first, none of the latest beyond the limit.
 */
export function daysToLimit(readings: readonly PondReading[], limit: number, when: 'above' | 'below'): number | null {
  const latest = readings.at(-1);
  if (!latest) return null;
  const recent = onePerDay(readings.filter((reading) => latest.on - reading.on <= SPAN_DAYS));
  const [first] = recent;
  if (!first || recent.length < FEWEST_READINGS || latest.on - first.on < SHORTEST_SPAN_DAYS) return null;

  const towards = when === 'above' ? 1 : -1;
  const lastThree = recent.slice(-FEWEST_READINGS).map(({ value }) => towards * value);
  const [a = 0, b = 0, c = 0] = lastThree;
  if (a > b || b > c || a === c) return null;

  const slope = leastSquaresSlope(recent);
  if (towards * slope <= 0) return null;
  const days = (limit - latest.value) / slope;
  return days >= 0 ? Math.ceil(days) : 0;
}

/** The last one of each day. */
function onePerDay(readings: readonly PondReading[]): readonly PondReading[] {
  return readings.filter((reading, index) => readings[index + 1]?.on !== reading.on);
}

/** Change per day of the line through the readings. */
function leastSquaresSlope(readings: readonly PondReading[]): number {
  const meanDay = readings.reduce((sum, { on }) => sum + on, 0) / readings.length;
  const meanValue = readings.reduce((sum, { value }) => sum + value, 0) / readings.length;
  let covariance = 0;
  let variance = 0;
  for (const { on, value } of readings) {
    covariance += (on - meanDay) * (value - meanValue);
    variance += (on - meanDay) ** 2;
  }
  return covariance / variance;
}
