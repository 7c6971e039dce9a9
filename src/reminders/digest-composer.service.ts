import { Injectable } from '@nestjs/common';
import { CareCalendarService, type CareTaskView, effectiveLatestOn } from '../care-calendar/index.js';
import type { WaterSeason } from '../core/care/water-season.js';
import { addDays, type CivilDay, civilDay } from '../core/units/civil-day.js';
import { AskedTasks } from './asked-tasks.service.js';
import { CareWords, inSentence, type SpokenTask } from './care-words.service.js';
import { ComingDays } from './coming-days.service.js';
import { type Choosable, chooseForDigest } from './digest-choice.js';
import type { MailLinks } from './homeowner-links.service.js';
import type { Homeowner } from './homeowners.service.js';
import { digestMail } from './messages/digest-mail.js';
import type { MailFooting, MailTask, WrittenMail } from './messages/mail-content.js';
import { urgentMail } from './messages/urgent-mail.js';
import { SeasonNotes } from './season-notes.service.js';
import { dayAndMonth, listed } from './spoken-dates.js';

/** A mail with the tasks it speaks of. */
export interface ComposedMail {
  readonly mail: WrittenMail;
  /** Those the homeowner is asked to do, standing lines left out. */
  readonly tasks: readonly CareTaskView[];
}

/** The weekly mail, with the season of the water it is written in. */
export interface ComposedDigest extends ComposedMail {
  readonly season: WaterSeason | null;
}

const WEEK_DAYS = 7;
const NUMBERS = ['No', 'One', 'Two', 'Three', 'Four', 'Five', 'Six'];

export type Chosen = Choosable & { readonly view: CareTaskView };

/** Writes digests and urgent mails. */
@Injectable()
export class DigestComposer {
  constructor(
    private readonly calendar: CareCalendarService,
    private readonly words: CareWords,
    private readonly coming: ComingDays,
    private readonly asked: AskedTasks,
    private readonly seasons: SeasonNotes,
  ) {}

  /**
   * The digest of a homeowner for the days from today until the next one, or null when nothing is to be told.
   * @param knownBefore With it, a task that was not there yet at this instant is no reason for a mail.
   */
  async digest(
    homeowner: Homeowner,
    days: {
      readonly today: CivilDay;
      readonly digestOn: CivilDay;
      readonly knownBefore: string | null;
      /** The season the last digest was written in. */
      readonly season: WaterSeason | null;
    },
    links: MailLinks,
  ): Promise<ComposedDigest | null> {
    const { today } = days;
    const to = addDays(days.digestOn, WEEK_DAYS - 1);
    const timesAsked = await this.asked.timesByTask(homeowner.company.id, homeowner.personId, today);
    const open = (await this.openTasks(homeowner)).map((one) => ({ ...one, askedTimes: timesAsked(one) }));
    const choice = chooseForDigest(open, { from: today, to });
    const reasons = [...choice.tasks, ...choice.routine];
    const { knownBefore } = days;
    if (!reasons.some(({ view }) => knownBefore === null || view.task.createdAt <= knownBefore)) return null;

    const asked = [...choice.urgent, ...choice.tasks];
    const told = new Set([...asked, ...choice.routine].map(({ taskId }) => taskId));
    const spoken = asked.map((one) => ({
      one,
      words: this.words.spoken(one.view, homeowner.units, languageOf(homeowner)),
    }));
    const routine = choice.routine.map((one) => ({
      one,
      words: this.words.spoken(one.view, homeowner.units, languageOf(homeowner)),
    }));
    const { company, ponds } = homeowner;
    const first = spoken[0] ?? routine[0]!;

    const { season, note } = await this.seasons.of(homeowner, { from: today, to }, days.season);

    const mail = digestMail({
      ...(await this.footing(homeowner, links)),
      subject: subjectOf(first.one.view.pondName, spoken.length > 0 ? spoken : routine),
      heading: headingOf(spoken, routine),
      about: `${aboutPonds(homeowner)}, week of ${dayAndMonth(today)}`,
      water: await this.coming.water(company.id, ponds, today, homeowner.units),
      season: note,
      tasks: await this.mailTasks(homeowner, spoken, links),
      routine: routine.map(({ one, words }) => ({
        title: words.title,
        pondName: ponds.length === 1 ? null : one.view.pondName,
        amounts: words.amounts,
      })),
      visits: await this.coming.nextVisits(company.id, ponds, today),
      comingUp: await this.coming.comingUp(company.id, ponds, today, told),
    });
    return { mail, tasks: asked.map(({ view }) => view), season };
  }

  /** One urgent task, on its own. */
  async urgent(homeowner: Homeowner, view: CareTaskView, today: CivilDay, links: MailLinks): Promise<ComposedMail> {
    const words = this.words.spoken(view, homeowner.units, languageOf(homeowner));
    const pond = homeowner.ponds.filter(({ id }) => id === view.task.pondId);
    const [task] = await this.mailTasks(homeowner, [{ one: { view }, words }], links);
    const mail = urgentMail({
      ...(await this.footing(homeowner, links)),
      subject: `${words.title}: ${view.pondName}`,
      heading: `${words.title}, now`,
      about: `${view.pondName}, ${dayAndMonth(today)}`,
      water: await this.coming.water(homeowner.company.id, pond, today, homeowner.units),
      task: task as MailTask,
    });
    return { mail, tasks: [view] };
  }

  /** What every mail to this homeowner ends with. */
  async footing(homeowner: Homeowner, links: MailLinks): Promise<MailFooting> {
    const { company } = homeowner;
    const whose = homeowner.ponds.length === 1 ? homeowner.ponds[0]!.name : 'your ponds';
    return {
      company: {
        name: company.name,
        postalAddress: company.postalAddress,
        phone: company.phone,
        replyTo: company.replyToEmail,
      },
      because: `You get this because ${company.name} looks after ${whose} and has this address for you.`,
      myPondUrl: await links.myPond(),
      stopUrl: await links.stop(),
    };
  }

  /** Open tasks of the homeowner's ponds that are theirs to do. */
  async openTasks(homeowner: Homeowner): Promise<Chosen[]> {
    const views: CareTaskView[] = [];
    for (const { id } of homeowner.ponds) views.push(...(await this.calendar.tasksOf(homeowner.company.id, id)));
    return views.filter(({ task }) => task.doneBy === 'homeowner').map(choosable);
  }

  private async mailTasks(
    homeowner: Homeowner,
    spoken: readonly { readonly one: { readonly view: CareTaskView }; readonly words: SpokenTask }[],
    links: MailLinks,
  ): Promise<MailTask[]> {
    const tasks: MailTask[] = [];
    for (const { one, words } of spoken) {
      tasks.push({
        ...words,
        pondName: homeowner.ponds.length === 1 ? null : one.view.pondName,
        doneUrl: await links.done(words),
        notNowUrl: one.view.task.consequence === 'urgent' ? null : await links.notNow(words),
      });
    }
    return tasks;
  }
}

/** What the choice needs to know of a stored task; how often it was asked for is known per person only. */
export function choosable(view: CareTaskView): Chosen {
  const { task } = view;
  return {
    view,
    taskId: task.id,
    consequence: task.consequence,
    routineLine: task.routineLine,
    isIdle: task.planned.quantities.length > 0 && task.planned.quantities.every(({ amount }) => amount === 0),
    due: civilDay(view.dueOn),
    latest: civilDay(effectiveLatestOn(task)),
    putOffUntil: task.putOffUntil === null ? null : civilDay(task.putOffUntil),
    askedTimes: 0,
  };
}

function aboutPonds({ ponds }: Homeowner): string {
  const [pond] = ponds;
  return ponds.length === 1 && pond ? `${pond.name}, ${pond.town}` : `${ponds.length} ponds`;
}

type Worded = { readonly words: SpokenTask };

/** Names the task and the pond: "Haugen pond: change the feed, and 2 more". */
function subjectOf(pondName: string, asked: readonly Worded[]): string {
  const more = asked.length - 1;
  return `${pondName}: ${inSentence(asked[0]!.words.title)}${more === 0 ? '' : `, and ${more} more`}`;
}

function headingOf(asked: readonly Worded[], routine: readonly Worded[]): string {
  const titles = (list: readonly Worded[]) => listed(list.map(({ words }) => inSentence(words.title)));
  if (asked.length === 0) return `This week: ${titles(routine)}`;
  if (asked.length === 1) return `One thing this week: ${titles(asked)}`;
  return `${NUMBERS[asked.length] ?? asked.length} things this week`;
}

/** Mail speaks the language of the first contact. */
function languageOf({ contacts }: Pick<Homeowner, 'contacts'>): string | undefined {
  return contacts[0]?.language;
}
