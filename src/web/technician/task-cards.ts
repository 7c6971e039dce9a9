import { Inject, Injectable } from '@nestjs/common';
import { type CareTaskView, effectiveLatestOn } from '../../care-calendar/index.js';
import { CAUTIONS } from '../../config/index.js';
import type { Caution } from '../../core/care/caution.js';
import { taskWords } from '../../core/care/explain.js';
import { type CivilDay, civilDay } from '../../core/units/civil-day.js';
import { G_PER_LB } from '../../core/units/mass-units.js';
import { figures, type UnitSystem } from '../../core/units/show.js';
import { L_PER_US_GAL } from '../../core/units/volume-units.js';
import { ACTUAL_RANGES, plannedActuals } from '../../visits/index.js';
import { dateRange, shortDate } from '../charts/show-date.js';
import { chemicalDoses } from './chemical-dose.js';
import { needsPowerOff } from './power-fence.js';
import type { ActualField, TaskCard } from './task-card.js';

/** Care tasks as the people who do them need them: words, steps, cautions, parts. */
@Injectable()
export class TaskCards {
  private readonly cautions: ReadonlyMap<string, Caution>;

  constructor(@Inject(CAUTIONS) cautions: readonly Caution[]) {
    this.cautions = new Map(cautions.map((caution) => [caution.id, caution]));
  }

  /** In the order of work: what a rule wants done before another comes before it. */
  of(cares: readonly CareTaskView[], units: UnitSystem): TaskCard[] {
    return inOrderOfWork(cares).map((care) => this.card(care, units));
  }

  private card(care: CareTaskView, units: UnitSystem): TaskCard {
    const { task, rule, isLate } = care;
    const words = taskWords({ task: task.planned, rule, audience: 'technician', units });
    return {
      taskId: task.id,
      title: words.title,
      minutes: task.planned.minutes,
      people: task.planned.people,
      quantities: words.howMuch,
      steps: rule.steps,
      cautions: rule.cautions.flatMap((id) => this.cautions.get(id) ?? []),
      parts: [...rule.parts, ...productsOf(care)],
      skills: rule.skills,
      why: words.why,
      window: windowWords(care),
      isLate,
      isFinished: task.state !== 'NEEDS-ACTION',
      actuals: actualFields(care, units),
      needsPowerOff: needsPowerOff(rule),
      serialOf: serialOf(care),
      chemicals: chemicalDoses(task.planned.quantities, units),
    };
  }
}

/** What is poured or strewn has to be in the van too. */
function productsOf({ task }: CareTaskView): string[] {
  return [...new Set(task.planned.quantities.flatMap((quantity) => quantity.productName ?? []))];
}

function serialOf({ task }: CareTaskView): TaskCard['serialOf'] {
  const recipes = task.planned.quantities.map((quantity) => quantity.recipe);
  if (recipes.includes('lamp-hours')) return 'lamp';
  return recipes.includes('rinse-media-share') ? 'media' : null;
}

function windowWords({ task, today, isLate }: CareTaskView): string {
  const latest = civilDay(effectiveLatestOn(task));
  if (isLate) return `Late since ${shortDate(latest)}`;
  return dateRange(civilDay(task.earliestOn), latest, civilDay(today) as CivilDay);
}

function actualFields({ task }: CareTaskView, units: UnitSystem): ActualField[] {
  const planned = plannedActuals(task.planned);
  const fields: ActualField[] = [];
  if (planned.changedL !== undefined) {
    const perUnit = units === 'us' ? L_PER_US_GAL : 1;
    const unit = units === 'us' ? 'gal' : 'L';
    const shown = figures(planned.changedL / perUnit);
    fields.push({ name: 'changedL', label: 'Water changed', unit, planned: shown, perUnit, ...ACTUAL_RANGES.changedL });
  }
  if (planned.mediaShareRinsed !== undefined) {
    const shown = String(Math.round(planned.mediaShareRinsed * 100));
    fields.push({
      name: 'mediaShareRinsed',
      label: 'Media rinsed',
      unit: '%',
      planned: shown,
      perUnit: 0.01,
      ...ACTUAL_RANGES.mediaShareRinsed,
    });
  }
  if (planned.stockedKg !== undefined) {
    const perUnit = units === 'us' ? G_PER_LB / 1000 : 1;
    const shown = figures(planned.stockedKg / perUnit);
    const unit = units === 'us' ? 'lb' : 'kg';
    fields.push({
      name: 'stockedKg',
      label: 'Fish and turtles put in',
      unit,
      planned: shown,
      perUnit,
      ...ACTUAL_RANGES.stockedKg,
    });
  }
  return fields;
}

/**
 * Stable, except that what a rule wants done before another comes before it, and that work without power stays
 * together where no rule forbids it: the power is switched off once.
 */
function inOrderOfWork(cares: readonly CareTaskView[]): CareTaskView[] {
  const left = [...cares];
  const ordered: CareTaskView[] = [];
  while (left.length > 0) {
    const isFree = (one: CareTaskView) =>
      !left.some((other) => other !== one && other.rule.before.includes(one.rule.id));
    const isOff = ordered.length > 0 && needsPowerOff((ordered.at(-1) as CareTaskView).rule);
    const alike = left.findIndex((one) => isFree(one) && needsPowerOff(one.rule) === isOff);
    // Rules that want each other first: the order given decides.
    const next = alike === -1 ? Math.max(left.findIndex(isFree), 0) : alike;
    ordered.push(...left.splice(next, 1));
  }
  return ordered;
}
