import type { CareRule } from '../../../../core/care/care-rule.js';
import { findingWords, taskTitle } from '../../../../core/care/explain.js';
import { type CivilDay, civilDay, isoDateOf } from '../../../../core/units/civil-day.js';
import { showLength, showMinutes, showTemperature, showVolume, type UnitSystem } from '../../../../core/units/show.js';
import { arrivalWords } from '../../../../reminders/index.js';
import type { VisitReport } from '../../../../visits/index.js';
import type { FeedSpan } from '../../../charts/chart-figures.js';
import { onDay } from '../../../charts/chart-figures.js';
import type { WaterForecastFigures } from '../../../charts/forecast-lines.js';
import { longDate, longWeekdayDate, monthName } from '../../../charts/show-date.js';
import type { YearWheelFigures } from '../../../charts/year-wheel.js';
import type { Option } from '../../../forms/fields.js';
import { conflictLines, type WhyNotLine, whyNotForOffice } from '../../../why-not/why-not.view-model.js';
import { SPECIES_WORDS } from '../form/pond-form-words.js';
import { methodWords } from '../form/said-lines.js';
import { shownWhatIf } from '../what-if/typed-what-if.js';
import { type WhatIfForm, whatIfForm } from '../what-if/what-if-form.view.js';
import { crewYear, crossings, dailyWater, feedSpans, trendWords, yearInWords } from '../year.view-model.js';
import { type BandModel, bandOf } from './band.view-model.js';
import { type CalendarGroup, calendarGroups } from './calendar.view-model.js';
import { type DawnModel, dawnModel } from './dawn.view-model.js';
import { type EnergyModel, energyModel } from './energy.view-model.js';
import type { FactLine } from './fact-line.js';
import { type HistoryLine, historyLines } from './history.view-model.js';
import { type LaterModel, laterMarks, laterModel } from './later.view-model.js';
import { type MachineLine, machineLines } from './machinery.view-model.js';
import { accessLines, agreementLines, contactLines, leakLine } from './people-and-place.view-model.js';
import type { PondPageData } from './pond-page-data.service.js';
import { quantityOptions, type ReadingLine, readingLines, temperatureReadings } from './readings.view-model.js';
import { stockLines } from './stock.view-model.js';

export interface PondPageModel {
  readonly id: string;
  readonly name: string;
  readonly lead: string;
  readonly facts: string;
  readonly isArchived: boolean;
  readonly findings: readonly string[];
  /** Null until the pond has been planned. */
  readonly year: {
    readonly wheel: YearWheelFigures;
    readonly words: readonly string[];
    readonly forecast: WaterForecastFigures;
    readonly feed: readonly FeedSpan[];
    readonly basis: string;
    readonly method: readonly string[];
    readonly band: BandModel | null;
  } | null;
  readonly readings: readonly ReadingLine[];
  readonly calendar: readonly CalendarGroup[];
  readonly notDue: readonly WhyNotLine[];
  readonly later: LaterModel;
  readonly dawn: DawnModel | null;
  readonly whatIf: WhatIfForm;
  readonly conflicts: readonly string[];
  readonly machines: readonly MachineLine[];
  readonly visits: readonly VisitLine[];
  readonly stock: readonly FactLine[];
  readonly contacts: readonly FactLine[];
  readonly access: readonly FactLine[];
  readonly agreement: readonly FactLine[];
  /** The newest leak test; null before the first. */
  readonly leakTest: FactLine | null;
  readonly energy: EnergyModel;
  readonly history: readonly HistoryLine[];
  readonly readingForm: {
    readonly options: readonly Option[];
    readonly takenAt: string;
    readonly quantity: string;
    readonly value: string;
    readonly fault: string;
  };
  readonly today: string;
}

export interface VisitLine {
  readonly title: string;
  readonly detail: string;
  readonly state: string;
  readonly href: string;
}

const VISIT_WORDS = {
  TENTATIVE: 'planned',
  CONFIRMED: 'confirmed',
  'IN-PROCESS': 'under way',
  COMPLETED: 'done',
  CANCELLED: 'cancelled',
} as const;

export function pondPageModel(
  data: PondPageData,
  rules: readonly CareRule[],
  units: UnitSystem,
  typedReading: Partial<PondPageModel['readingForm']> = {},
  typedPrice = '',
): PondPageModel {
  const { record, today, outcome } = data;
  const { pond } = record;
  const titles = new Map(rules.map((rule) => [rule.id, rule]));
  const calendar = pond.state === 'archived' ? [] : calendarGroups(data.tasks, pond, today, units);
  return {
    id: pond.id,
    name: pond.name,
    lead: leadOf(data, calendar, units),
    facts: factsOf(data, units),
    isArchived: pond.state === 'archived',
    findings: (outcome?.findings ?? []).map((finding) => findingWords(finding, units)),
    year: outcome ? yearOf(data, calendar, units) : null,
    readings: readingLines(data.readings, pond, data.names, units),
    calendar,
    notDue: whyNotForOffice(outcome, titles, data.tasks),
    conflicts: conflictLines(outcome, titles),
    later: laterModel(data.ahead?.later ?? [], titles, today),
    dawn: outcome ? dawnModel(data.ahead?.dawn ?? null, outcome.outlook, today, units) : null,
    whatIf: whatIfForm(record, { units, typed: shownWhatIf(record, units) }),
    machines: machineLines(record.equipment, { tasks: data.tasks, notDue: outcome?.notDue ?? [] }, pond, today, units),
    visits: data.visits.map(visitLine),
    stock: stockLines(data, units),
    contacts: contactLines(data),
    access: accessLines(data),
    leakTest: leakLine(data, units),
    energy: energyModel(record.equipment, typedPrice),
    agreement: agreementLines(data, titles),
    history: historyLines(data, titles, units),
    readingForm: {
      options: quantityOptions(units),
      takenAt: data.localNow,
      quantity: 'water-temperature',
      value: '',
      fault: '',
      ...typedReading,
    },
    today: isoDateOf(today),
  };
}

/** "The water is 59 °F and falling. One task needs action: the autumn feed. The next visit is on Friday 9 October." */
function leadOf(data: PondPageData, calendar: readonly CalendarGroup[], units: UnitSystem): string {
  const { record, outcome, today, visits } = data;
  if (record.pond.state === 'archived')
    return 'Archived: nothing is planned or mailed, and everything that was stays here.';
  const sentences: string[] = [];
  if (outcome) {
    const nowC = onDay(outcome.outlook.p50C, civilDay(outcome.outlook.firstDay), today);
    if (nowC !== null)
      sentences.push(`The water is likely ${showTemperature(nowC, units)} and ${trendWords(outcome.outlook, today)}.`);
  }
  const acting = calendar.flatMap(({ entries }) => entries).filter(({ mark, isLate }) => mark.needsAction || isLate);
  if (acting.length === 0) sentences.push('No task needs action today.');
  else if (acting.length === 1) sentences.push(`One task needs action: ${inSentence(acting[0]?.title ?? '')}.`);
  else sentences.push(`${acting.length} tasks need action, first: ${inSentence(acting[0]?.title ?? '')}.`);
  const next = visits
    .filter(({ visit }) => ['TENTATIVE', 'CONFIRMED', 'IN-PROCESS'].includes(visit.state))
    .sort((a, b) => (a.visit.plannedOn < b.visit.plannedOn ? -1 : 1))[0];
  if (next) sentences.push(nextVisitSentence(next));
  return sentences.join(' ');
}

function nextVisitSentence({ visit, technicianName }: VisitReport): string {
  const when = [
    longWeekdayDate(civilDay(visit.plannedOn)),
    technicianName,
    arrivalWords(visit.fromTime, visit.toTime),
  ].filter(Boolean);
  return `The next visit is on ${when.join(', ')}.`;
}

function factsOf({ record }: PondPageData, units: UnitSystem): string {
  const { pond, stock } = record;
  const address = [pond.street, pond.town, pond.region].filter(Boolean).join(', ');
  const built = pond.commissionedOn
    ? `Filled ${monthYear(civilDay(pond.commissionedOn))}`
    : `In your care since ${monthYear(civilDay(pond.careSince))}`;
  const volume = `${showVolume(pond.volumeL, units)} ${methodWords(pond.volumeMethod)} (give or take ${pond.volumeSigmaPct} %)`;
  const fish = stock.map(({ species, headCount }) => `${headCount} ${SPECIES_WORDS[species].toLowerCase()}`).join(', ');
  const facts = [built, volume, `${showLength(pond.maxDepthM, units)} deep`, fish || 'no livestock'].join(', ');
  return `${address ? `${address}. ` : ''}${facts}.`;
}

function yearOf(
  data: PondPageData,
  calendar: readonly CalendarGroup[],
  units: UnitSystem,
): NonNullable<PondPageModel['year']> {
  const { record, today, outcome, readings } = data;
  const { pond, stock } = record;
  const { outlook } = outcome as NonNullable<typeof outcome>;
  const hasFish = stock.some(({ species }) => species !== 'slider-turtle');
  const water = dailyWater(outlook);
  const feed = feedSpans(outlook, today, hasFish);
  const marks = calendar.flatMap(({ entries }) => entries).map(({ mark }) => mark);
  const temperatures = temperatureReadings(readings, pond.timeZone);
  const reasons = data.tasks.map(({ task }) => task.planned.reason);
  const common = { pondName: pond.name, today, units, water, marks };
  return {
    wheel: {
      ...common,
      id: 'wheel',
      latitude: pond.latitude,
      feed,
      hubWords: `and ${trendWords(outlook, today)}`,
      later: laterMarks(data.ahead?.later ?? []),
      readOut: { ofForecast: 'forecast' },
    },
    words: yearInWords({ outlook, today, units, feed, crew: crewYear(marks, today) }),
    forecast: {
      ...common,
      id: 'forecast',
      readings: temperatures,
      hasFish,
      crossings: hasFish ? crossings(outlook, today, units, reasons) : [],
    },
    feed,
    basis: basisOf(outlook, temperatures.length, units),
    method: methodOf(outlook),
    band: bandOf(outlook, temperatures.length, units),
  };
}

type Outlook = NonNullable<PondPageData['outcome']>['outlook'];

function basisOf(outlook: Outlook, readings: number, units: UnitSystem): string {
  const km = (distanceKm: number) =>
    units === 'us' ? `${Math.round(distanceKm / 1.609344)} miles` : `${Math.round(distanceKm)} km`;
  const stations = outlook.stations.map(
    ({ name, period, distanceKm }) =>
      `${name} (${period === '1991-2020' ? 'normals 1991–2020' : 'means 2003–2021'}, ${km(distanceKm)})`,
  );
  const corrected =
    readings === 0
      ? 'not yet corrected by a reading'
      : readings === 1
        ? 'corrected by one reading'
        : `corrected by ${readings} readings`;
  return `${stations.join(', ')}; ${corrected}.`;
}

function methodOf(outlook: Outlook): string[] {
  const place = `Hardiness zone ${outlook.hardinessZone}${outlook.koeppen ? `, climate class ${outlook.koeppen}` : ''}, winter class ${outlook.winterClass}.`;
  return [
    'Forty equally likely years of weather are made from the long-term figures of the stations named above, moved to the height of the pond. Each is driven through the heat balance of this pond: its depth, area, shade, wind, waterfall, ground and ice.',
    'The line is the median; 8 years in 10 lie inside the band. A thermometer reading corrects the pond’s own balance, so a few readings a year narrow the band.',
    place,
    ...outlook.warnings,
  ];
}

function visitLine({ visit, tasks, technicianName }: VisitReport): VisitLine {
  const names = tasks.map(({ care }) => taskTitle(care.task.planned, care.rule));
  const work = names.length > 0 ? names.join(', ') : 'no task yet';
  return {
    title: [longDate(civilDay(visit.plannedOn)), technicianName].filter(Boolean).join(', '),
    detail: `${work}; ${showMinutes(visit.minutes)}`,
    state: VISIT_WORDS[visit.state],
    href: `/visits/${visit.id}`,
  };
}

function monthYear(day: CivilDay): string {
  const [year, month] = isoDateOf(day).split('-');
  return `${monthName(Number(month))} ${year}`;
}

/** A title inside a sentence: its first letter small, unless it is an abbreviation. */
function inSentence(title: string): string {
  return /^[A-Z][a-z]/.test(title) ? title.charAt(0).toLowerCase() + title.slice(1) : title;
}
