import { Inject, Injectable } from '@nestjs/common';
import type { Actor } from '../../accounts/index.js';
import type { CareTaskView } from '../../care-calendar/index.js';
import { CARE_RULES } from '../../config/index.js';
import type { CareRule } from '../../core/care/care-rule.js';
import { addDays, type CivilDay, civilDay } from '../../core/units/civil-day.js';
import { showArea, showLength, showVolume, type UnitSystem } from '../../core/units/show.js';
import type { PondId } from '../../platform/ids.js';
import { CareWords } from '../../reminders/index.js';
import { dateRange, fullDate } from '../charts/show-date.js';
import { SPECIES_WORDS, TAP_WORDS } from '../office/ponds/form/pond-form-words.js';
import { machineLines } from '../office/ponds/page/machinery.view-model.js';
import { pondPageModel } from '../office/ponds/page/pond-page.view-model.js';
import { type PondPageData, PondPageDataService } from '../office/ponds/page/pond-page-data.service.js';
import { type HandoverPack, handoverPaper, type PackTask } from './handover-pack.paper.js';
import { printedPaper } from './paper.js';
import { yearWheelDrawing } from './year-wheel.paper.js';

const FIRST_YEAR_DAYS = 365;

/** What is handed over with a new pond, as a paper. */
@Injectable()
export class HandoverPacks {
  constructor(
    private readonly data: PondPageDataService,
    private readonly words: CareWords,
    @Inject(CARE_RULES) private readonly rules: readonly CareRule[],
  ) {}

  async pdf(actor: Actor, pondId: PondId): Promise<{ readonly pondName: string; readonly pdf: Buffer }> {
    const data = await this.data.of(actor.companyId, pondId);
    const pack = this.packOf(data, actor.units);
    return { pondName: pack.pondName, pdf: await printedPaper(handoverPaper(pack)) };
  }

  private packOf(data: PondPageData, units: UnitSystem): HandoverPack {
    const { record, company, today } = data;
    const { pond } = record;
    const { year } = pondPageModel(data, this.rules, units);
    const firstYear = data.tasks
      .filter(({ dueOn }) => civilDay(dueOn) <= addDays(today, FIRST_YEAR_DAYS))
      .sort((a, b) => (a.dueOn < b.dueOn ? -1 : 1));
    const ownerTasks = this.ownerTasks(firstYear, units);
    return {
      pondName: pond.name,
      place: [pond.street, pond.town, pond.region].filter(Boolean).join(', '),
      madeOn: fullDate(today),
      sender: company,
      sheet: units === 'us' ? 'LETTER' : 'A4',
      cautions: distinct(ownerTasks.flatMap(({ cautions }) => cautions)),
      asBuilt: asBuiltRows(data, units),
      equipment: equipmentRows(data, units),
      wheel: year === null ? null : yearWheelDrawing(year.wheel),
      yearInWords: year?.words ?? [],
      calendar: firstYear.map(({ task, rule }) => ({
        name: windowOf(task.earliestOn, task.latestOn, today),
        words: rule.title,
        more: task.doneBy === 'technician' ? 'our crew' : 'you',
      })),
      ownerTasks,
    };
  }

  /** Each kind of work once, with the first time it is due. Its cautions stand before its steps. */
  private ownerTasks(tasks: readonly CareTaskView[], units: UnitSystem): PackTask[] {
    const firsts = new Map<string, CareTaskView>();
    for (const view of tasks) {
      if (view.task.doneBy === 'homeowner' && !firsts.has(view.task.ruleId)) firsts.set(view.task.ruleId, view);
    }
    return [...firsts.values()].map((view) => {
      const { title, when, why, amounts, cautions, steps } = this.words.spoken(view, units);
      return {
        title,
        when: `First time: ${when.charAt(0).toLowerCase()}${when.slice(1)}`,
        why,
        amounts,
        cautions: cautions.map(({ first, more }) => ({ first, lines: more })),
        steps,
      };
    });
  }
}

function asBuiltRows({ record, today }: PondPageData, units: UnitSystem): HandoverPack['asBuilt'] {
  const { pond, stock } = record;
  const day = (on: string | null) => (on === null ? 'not yet' : fullDate(civilDay(on)));
  const fish = stock.map(({ headCount, species, lengthCm }) => {
    return `${headCount} ${SPECIES_WORDS[species].toLowerCase()} of ${showLength(lengthCm / 100, units)}`;
  });
  return [
    { name: 'Volume', words: showVolume(pond.volumeL, units), more: `by ${pond.volumeMethod.replaceAll('-', ' ')}` },
    { name: 'Surface', words: showArea(pond.surfaceAreaM2, units) },
    {
      name: 'Depth',
      words: `${showLength(pond.maxDepthM, units)} at its deepest, ${showLength(pond.meanDepthM, units)} on average`,
    },
    { name: 'Filled and running since', words: day(pond.commissionedOn) },
    { name: 'First livestock', words: fish.length === 0 && pond.stockedOn === null ? 'none yet' : day(pond.stockedOn) },
    ...(fish.length === 0 ? [] : [{ name: 'Livestock', words: fish.join('; ') }]),
    { name: 'Tap water', words: TAP_WORDS[pond.tapSource] },
    { name: 'In our care since', words: fullDate(civilDay(pond.careSince)) },
    { name: 'Made up', words: fullDate(today) },
  ];
}

function equipmentRows(data: PondPageData, units: UnitSystem): HandoverPack['equipment'] {
  const machines = data.record.equipment.filter(({ removedOn }) => removedOn === null);
  const planned = { tasks: data.tasks, notDue: data.outcome?.notDue ?? [] };
  const lines = machineLines(machines, planned, data.record.pond, data.today, units);
  return machines.map(({ installedOn, warrantyUntil }, i) => ({
    name: lines[i]?.name ?? '',
    words: [
      installedOn === null ? 'day of fitting not known' : `fitted ${fullDate(civilDay(installedOn))}`,
      warrantyUntil === null ? 'no warranty noted' : `warranty until ${fullDate(civilDay(warrantyUntil))}`,
    ].join('; '),
    more: lines[i]?.detail ?? '',
  }));
}

function windowOf(earliestOn: string, latestOn: string, today: CivilDay): string {
  return dateRange(civilDay(earliestOn), civilDay(latestOn), today);
}

function distinct<T extends { readonly first: string }>(list: readonly T[]): T[] {
  return [...new Map(list.map((one) => [one.first, one])).values()];
}
