import { showMass, showVolume, type UnitSystem } from '../../core/units/show.js';
import { type AdvisedPond, type ReadingAction, readingAdvice } from '../../core/visits/reading-advice.js';
import { unionisedAmmoniaMgNPerL } from '../../core/water/ammonia.js';
import {
  inOrderRange,
  type ReadingLevel,
  type ReadingVerdict,
  readingVerdict,
  UNIONISED_AMMONIA_LIMITS_MG_N_PER_L,
} from '../../core/water/reading-verdict.js';
import type { ReadingField } from './reading-fields.js';
import { shown } from './typed-reading.js';

/** What the words are about: the pond, its dechlorinator, and how the person reads figures. */
export interface SaidFor extends AdvisedPond {
  readonly units: UnitSystem;
  readonly productName: string;
  readonly elevationM: number;
}

/** Temperature and pH of the same sample, where they were typed. */
export interface Sample {
  readonly temperatureC?: number;
  readonly ph?: number;
}

/** A reading in words. `block` asks for the set-apart form, with what to do now. */
export interface SaidReading {
  readonly level: ReadingLevel;
  readonly form: 'line' | 'block';
  /** E.g. "Watch", or "Emergency, now". */
  readonly levelWord: string;
  /** The figure that decides, e.g. "Un-ionised ammonia 0.031 mg/L". */
  readonly headline: string;
  /** Its limit, e.g. "Above 0.02 mg/L." */
  readonly limit: string;
  readonly actions: readonly string[];
}

const LEVEL_WORDS: Readonly<Record<ReadingLevel, string>> = {
  'in-order': 'In order',
  watch: 'Watch',
  act: 'Act today',
  emergency: 'Emergency: now',
};

/** Judges a plausible value and says what it means, with its limit, and what to do. */
export function sayReading(field: ReadingField, value: number, sample: Sample, about: SaidFor): SaidReading {
  const verdict = readingVerdict({ quantity: field.quantity, value, ...sample, elevationM: about.elevationM });
  const base = { level: verdict.level, levelWord: LEVEL_WORDS[verdict.level] };
  if (verdict.level === 'in-order' || verdict.limit === null) {
    return { ...base, form: 'line', headline: '', limit: aimWords(field, sample), actions: [] };
  }
  const told = decidingFigure(field, value, { ...verdict, limit: verdict.limit }, sample);
  const side = verdict.direction === 'below' ? 'Below' : told.value > told.limit ? 'Above' : 'At';
  const unit = told.unit && ` ${told.unit}`;
  return {
    ...base,
    form: 'block',
    headline: `${told.of} ${told.show(told.value)}${unit}`,
    limit: `${side} ${told.show(told.limit)}${unit}${told.note}.`,
    actions: actionWords(field, verdict, about),
  };
}

/** One line of a reading in order: "In order, below 0.1 mg/L". */
export function lineOf(said: SaidReading): string {
  return said.limit === '' ? 'Noted, without a limit' : `${said.levelWord}, ${said.limit}`;
}

/** The figure that decided and its limit: of total ammonia that may be its un-ionised part. */
function decidingFigure(
  field: ReadingField,
  value: number,
  verdict: ReadingVerdict & { limit: number },
  sample: Sample,
) {
  const { temperatureC, ph } = sample;
  if (field.quantity === 'total-ammonia' && temperatureC !== undefined && ph !== undefined) {
    const unionised = (totalAmmoniaMgNPerL: number) =>
      unionisedAmmoniaMgNPerL({ totalAmmoniaMgNPerL, ph, temperatureC: Math.max(0, temperatureC) });
    const limit = UNIONISED_AMMONIA_LIMITS_MG_N_PER_L[verdict.level as 'watch'];
    if (Math.abs(unionised(verdict.limit) - limit) < 1e-9) {
      const note = `, which at this temperature and pH is ${figure(verdict.limit)} of total ammonia`;
      return { of: 'Un-ionised ammonia', value: unionised(value), limit, unit: 'mg/L', note, show: figure };
    }
  }
  const show = (stored: number) => limitFigure(field, stored);
  return { of: capital(field.inWords), value, limit: verdict.limit, unit: field.unit, note: '', show };
}

/** The range in which this quantity is in order, e.g. "7 to 8.5"; empty where it has none. */
export function aimWords(field: ReadingField, sample: Sample): string {
  const { min, max } = inOrderRange({ quantity: field.quantity, ...sample });
  const unit = field.unit && ` ${field.unit}`;
  if (min !== null && max !== null) return `${limitFigure(field, min)} to ${limitFigure(field, max)}${unit}`;
  if (max !== null) return `below ${limitFigure(field, max)}${unit}`;
  return min === null ? '' : `above ${limitFigure(field, min)}${unit}`;
}

function actionWords(field: ReadingField, verdict: ReadingVerdict, about: SaidFor): string[] {
  const { actions, change } = readingAdvice(field.quantity, verdict, about);
  return actions.map((action) => {
    if (action !== 'change-water' || !change) return ACTION_WORDS[action];
    const water = showVolume(change.waterL, about.units);
    const share = `${Math.round(change.share * 100)} %`;
    const of = `of ${showVolume(about.volumeL, about.units)}`;
    if (change.doseG === 0) return `Change at most ${share}, ${water} ${of}.`;
    const dose = showMass(Math.ceil(change.doseG), about.units);
    return `Change at most ${share}, ${water} ${of}, with ${dose} of ${inSentence(about.productName)}.`;
  });
}

const ACTION_WORDS: Readonly<Record<ReadingAction, string>> = {
  aerate: 'Give air now.',
  'stop-feed': 'No feed until it is in order.',
  'half-feed': 'Half the feed.',
  'no-filling': 'Stop any filling hose.',
  'treat-chlorine': 'Treat the water with dechlorinator, then test again.',
  'no-livestock': 'No fish and no turtle goes in.',
  'change-water': 'Change at most a quarter of the water.',
  'larger-next-change': 'Make the next water change larger.',
  'test-alkalinity': 'Test alkalinity first.',
  'test-ammonia': 'Test ammonia: at this pH more of it harms.',
  'leave-ph-alone': 'Do not raise or lower pH today.',
  'raise-alkalinity': 'Raise alkalinity by at most 20 mg/L a day; the calendar has the dose.',
  'leave-deep-water': 'Leave the deep water undisturbed.',
  'test-at-dawn': 'Test again at dawn.',
  'test-in-hours': 'Test again in 2 to 6 hours.',
  'test-tomorrow': 'Test again tomorrow.',
  'test-in-two-days': 'Test again in 2 days.',
  'tell-office': 'Tell the office before you leave.',
};

function limitFigure(field: ReadingField, stored: number): string {
  return field.decimals === 0 ? shown(field, stored) : figure(field.fromStored(stored));
}

/** At most two significant digits after zeros, and no more than three decimals. */
function figure(value: number): string {
  const digits = Math.abs(value) >= 10 ? 3 : 2;
  return String(Number(Number(value.toPrecision(digits)).toFixed(3)));
}

function inSentence(name: string): string {
  return /^[A-Z][a-z]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

function capital(words: string): string {
  return words === 'pH' ? words : words.charAt(0).toUpperCase() + words.slice(1);
}
