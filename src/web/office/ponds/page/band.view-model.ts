import type { OutlookSummary } from '../../../../care-calendar/index.js';
import type { UnitSystem } from '../../../../core/units/show.js';

/** Whose uncertainty the band of the water forecast shows, in words. */
export interface BandModel {
  readonly rows: readonly BandRow[];
  /** What the readings have taught of this pond, or what they could. */
  readonly note: string;
}

export interface BandRow {
  readonly span: string;
  readonly width: string;
  readonly weather: string;
  readonly model: string;
  readonly thermometer: string;
}

const SPAN_WORDS: Readonly<Record<number, string>> = {
  14: 'Next two weeks',
  90: 'Next three months',
  365: 'Next year',
};
const MPH_PER_M_PER_S = 2.23694;

/** Null where the outlook was kept before the parts were known; the next planning brings them. */
export function bandOf(outlook: OutlookSummary, readings: number, units: UnitSystem): BandModel | null {
  if (!outlook.band || outlook.band.length === 0) return null;
  return {
    rows: outlook.band.map((part) => ({
      span: SPAN_WORDS[part.days] ?? `Next ${part.days} days`,
      width: `± ${units === 'us' ? `${(part.halfWidthC * 1.8).toFixed(1)} °F` : `${part.halfWidthC.toFixed(1)} °C`}`,
      weather: percent(part.weatherShare),
      model: percent(part.modelShare),
      thermometer: percent(part.thermometerShare),
    })),
    note: noteOf(outlook, readings, units),
  };
}

function noteOf({ learned }: OutlookSummary, readings: number, units: UnitSystem): string {
  if (learned) {
    return (
      `The readings point to ${windWords(learned.windAt2mMPerS, units)} of wind over the water and ` +
      `${Math.round(100 * learned.shadeShare)} % of the sun kept off; the forecast uses that.`
    );
  }
  if (readings === 0) return 'No reading yet: a first one takes a good part of the model’s share away.';
  return 'Four readings a season apart tell wind from shade.';
}

function windWords(windMPerS: number, units: UnitSystem): string {
  return units === 'us' ? `${(windMPerS * MPH_PER_M_PER_S).toFixed(1)} mph` : `${windMPerS.toFixed(1)} m/s`;
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
