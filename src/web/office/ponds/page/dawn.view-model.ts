import type { OutlookSummary } from '../../../../care-calendar/index.js';
import type { DawnForecast } from '../../../../core/care/dawn-forecast.js';
import { type CivilDay, civilDay } from '../../../../core/units/civil-day.js';
import { showTemperature, type UnitSystem } from '../../../../core/units/show.js';
import type { ReadingLevel } from '../../../../core/water/reading-verdict.js';
import { hoursWords } from '../what-if/year-words.js';

/** Water this warm holds so little oxygen that the dawn is worth a look (common practice). [°C] */
const HEAT_FROM_C = 20;

/** Oxygen to expect at the end of tonight; only in the heat. */
export interface DawnModel {
  readonly level: ReadingLevel;
  readonly oxygen: string;
  /** `between 5.5 and 7.5 mg/L` */
  readonly range: string;
  readonly verdict: string;
  readonly hours: string;
  readonly basis: string;
}

const VERDICTS: Readonly<Record<DawnModel['level'], string>> = {
  'in-order': 'in order, at 6 mg/L or more',
  watch: 'watch, below 6 mg/L',
  act: 'needs action, below 5 mg/L: aerate through the night',
  emergency: 'emergency, below 4 mg/L: aerate now',
};

export function dawnModel(
  dawn: DawnForecast | null,
  outlook: OutlookSummary,
  today: CivilDay,
  units: UnitSystem,
): DawnModel | null {
  const waterC = outlook.p50C[today - civilDay(outlook.firstDay)];
  if (dawn === null || waterC === undefined || waterC < HEAT_FROM_C) return null;
  const { level } = dawn.dawn;
  return {
    level,
    oxygen: `${dawn.range.likelyMgPerL.toFixed(1)} mg/L`,
    range: `between ${dawn.range.lowMgPerL.toFixed(1)} and ${dawn.range.highMgPerL.toFixed(1)} mg/L`,
    verdict: VERDICTS[level],
    hours: hoursWords(dawn.hoursWithoutPower),
    basis:
      `Worked out for the water at ${showTemperature(waterC, units)} and a calm night, not measured: between the pond’s uses low and high.` +
      (dawn.isAtLeast ? ' A fall or a pump’s return brings more air than is counted here.' : ''),
  };
}
