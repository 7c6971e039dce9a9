import { type CivilDay, civilDay } from '../../../../core/units/civil-day.js';
import { showVolume, type UnitSystem } from '../../../../core/units/show.js';
import type { ReadingLevel } from '../../../../core/water/reading-verdict.js';
import { CERTAIN_FROM, LEAK_FROM_MM_PER_DAY } from '../../../../core/water-loss/leak-finder.js';
import { measuringDays } from '../../../../core/water-loss/measuring-time.js';
import { civilDayIn, instantFrom } from '../../../../platform/clock.js';
import type { JudgedLeakTest, PondRecord } from '../../../../ponds/index.js';
import { fullDate } from '../../../charts/show-date.js';
import { fieldId } from '../../../forms/fields.js';
import type { FormFaults } from '../../../forms/form-faults.js';
import type { TypedPond } from '../form/form-values.js';
import { rowNumbers } from '../form/typed-pond.js';
import type { FactLine } from '../page/fact-line.js';
import { certaintyWords, nextWords, showLevel, verdictWords } from './leak-words.js';

export interface LeakTestModel {
  readonly pondId: string;
  readonly pondName: string;
  readonly units: UnitSystem;
  readonly typed: TypedPond;
  readonly faults: FormFaults;
  readonly faultCount: number;
  readonly firstFault: string | null;
  readonly rows: readonly number[];
  /** How long to measure, before anything is. */
  readonly advice: string;
  readonly verdict: LeakVerdictModel | null;
  readonly earlier: readonly FactLine[];
  readonly isKept: boolean;
}

export interface LeakVerdictModel {
  readonly level: ReadingLevel;
  readonly words: string;
  readonly certainty: string;
  readonly next: string;
  readonly sums: readonly FactLine[];
}

export interface LeakTestPage {
  readonly record: PondRecord;
  readonly units: UnitSystem;
  readonly typed: TypedPond;
  readonly faults: FormFaults;
  readonly judged: JudgedLeakTest | null;
  readonly kept: readonly JudgedLeakTest[];
  /** From the climate, today. */
  readonly evaporationMmPerDay: number;
  readonly isKept: boolean;
}

const READY_ROWS = 3;
const MOST_ROWS = 30;

export function leakTestModel(page: LeakTestPage): LeakTestModel {
  const { record, units, typed, faults, judged } = page;
  const fields = Object.keys(faults).filter((field) => field !== '');
  return {
    pondId: record.pond.id,
    pondName: record.pond.name,
    units,
    typed,
    faults,
    faultCount: Math.max(fields.length, faults[''] ? 1 : 0),
    firstFault: fields[0] ? fieldId(fields[0]) : null,
    rows: rowsOf(typed),
    advice: adviceOf(page),
    verdict: judged ? verdictModel(judged, record, units) : null,
    earlier: [...page.kept].reverse().map((test) => earlierLine(test, record.pond.timeZone, units)),
    isKept: page.isKept,
  };
}

/** Rows in use and one to spare, at least three; one more where it was asked for. */
function rowsOf(typed: TypedPond): number[] {
  const used = rowNumbers(typed, 'level', 'below');
  const listed = rowNumbers(typed, 'level', 'at');
  const last = Math.max(-1, ...used, ...listed);
  const wanted = Math.max(READY_ROWS, last + 2) + (typed.more === 'level' ? 1 : 0);
  return Array.from({ length: Math.min(MOST_ROWS, wanted) }, (_, row) => row);
}

/** "Here about 4 mm a day evaporate now. Two levels 4 days apart tell a leak of 5 mm a day from a tight pond." */
function adviceOf({ record, evaporationMmPerDay, units }: LeakTestPage): string {
  const planned = { evaporationMmPerDay, hasWaterfall: record.pond.waterfall };
  const now = `Here about ${showLevel(evaporationMmPerDay, units)} a day evaporates at this time of the year.`;
  const leak = `a leak of ${showLevel(LEAK_FROM_MM_PER_DAY, units)} a day (${showVolume(LEAK_FROM_MM_PER_DAY * record.pond.surfaceAreaM2, units)})`;
  const alone = measuringDays({ ...planned, reference: 'climate' });
  const beside = measuringDays({ ...planned, reference: 'bucket' });
  if (alone !== null) {
    return `${now} Two levels ${alone} days apart tell ${leak} from a tight pond, with ${CERTAIN_FROM * 100} % certainty.`;
  }
  const withBucket = beside === null ? '' : ` With one, ${beside} days tell ${leak} from a tight pond.`;
  return `${now} That is too uncertain for a ruler alone: stand a bucket in the pond, half full, the water inside as high as outside.${withBucket}`;
}

const LEVELS = { leak: 'act', tight: 'in-order', undecided: 'watch', 'came-in': 'watch' } as const;

export function verdictModel(judged: JudgedLeakTest, record: PondRecord, units: UnitSystem): LeakVerdictModel {
  const { verdict, next } = judged;
  return {
    level: LEVELS[verdict.verdict],
    words: verdictWords(judged, units),
    certainty: certaintyWords(verdict, units),
    next: nextWords(next, units),
    sums: sumLines(judged, record, units),
  };
}

function sumLines(judged: JudgedLeakTest, { pond }: PondRecord, units: UnitSystem): FactLine[] {
  const { verdict, test, evaporationMmPerDay } = judged;
  const later = test.levels.slice(1);
  const rainMm = later.reduce((sum, { rainMm: mm }) => sum + mm, 0);
  const addedL = later.reduce((sum, { addedL: litres }) => sum + litres, 0);
  const from = test.bucketFallMm === null ? 'from the climate of the place' : 'from the bucket';
  const falls = pond.waterfall && test.pumps === 'on' ? ', a fifth more for the waterfall' : '';
  const rain = rainMm > 0 ? `, less ${showLevel(rainMm, units)} of rain` : '';
  const added = addedL > 0 ? `with ${showVolume(addedL, units)} that were added` : '';
  const days = `in ${dayWords(verdict.days)}`;
  return [
    {
      name: 'The pond lost',
      detail: [days, added].filter(Boolean).join(', '),
      value: showLevel(verdict.lostMm, units),
    },
    {
      name: 'Of it reckoned',
      detail: `${showLevel(evaporationMmPerDay, units)} a day evaporated, ${from}${falls}${rain}`,
      value: showLevel(verdict.reckonedMm, units),
    },
    {
      name: 'Without a reason, a day',
      detail: `give or take ${showLevel(verdict.sigmaMmPerDay, units)}, one standard deviation`,
      value: showLevel(verdict.unexplainedMmPerDay, units),
    },
    {
      name: 'As water, a day',
      detail: `give or take ${showVolume(verdict.sigmaLPerDay, units)}`,
      value: verdict.unexplainedLPerDay > 0 ? showVolume(verdict.unexplainedLPerDay, units) : 'none',
    },
  ];
}

/** One line on a kept test: its verdict, and when and how it was found. */
export function earlierLine(judged: JudgedLeakTest, timeZone: string, units: UnitSystem): FactLine {
  const { test, verdict } = judged;
  const how = test.bucketFallMm === null ? 'by the climate' : 'with a bucket';
  const detail = [fullDate(lastDay(judged, timeZone)), `pumps ${test.pumps}`, dayWords(verdict.days), how].join(', ');
  return { name: verdictWords(judged, units), detail, value: '' };
}

/** Whole days and tenths: nobody reads a level to the minute. */
function dayWords(days: number): string {
  const rounded = Number(days.toFixed(1));
  return rounded === 1 ? 'one day' : `${rounded} days`;
}

export function lastDay({ test }: JudgedLeakTest, timeZone: string): CivilDay {
  const at = test.levels.at(-1)?.at;
  return at ? civilDayIn(instantFrom(at), timeZone) : civilDay('1990-01-01');
}
