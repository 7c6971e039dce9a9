import { type CareTaskView, effectiveLatestOn, type ThisWeek } from '../../../care-calendar/index.js';
import { taskTitle, taskWords } from '../../../core/care/explain.js';
import { addDays, type CivilDay, civilDay } from '../../../core/units/civil-day.js';
import type { UnitSystem } from '../../../core/units/show.js';
import { civilDayIn, instantFrom } from '../../../platform/clock.js';
import type { CallListRow, MailHead, OpenHomeownerWord } from '../../../reminders/index.js';
import { fullDate, longDate, longWeekdayDate, shortDate, weekdayDate } from '../../charts/show-date.js';
import type { DecisionRow } from './decision-row.js';
import type { WeekVisits } from './week-visits.service.js';

export type { DecisionRow };

export interface DecisionGroup {
  readonly title: string;
  readonly sentence: string;
  readonly rows: readonly DecisionRow[];
  readonly empty: string;
}

export interface WeekModel {
  readonly days: string;
  readonly lead: string;
  readonly groups: readonly DecisionGroup[];
}

export interface WeekData {
  readonly today: CivilDay;
  readonly timeZone: string;
  readonly week: ThisWeek;
  readonly visitsPlanned: number;
  readonly troubledMail: readonly MailHead[];
  readonly callList: readonly CallListRow[];
  /** Asked for in two weekly mails, not answered, and still in time. */
  readonly unanswered: readonly CareTaskView[];
  /** What homeowners said and nobody has settled. */
  readonly said: readonly OpenHomeownerWord[];
  /** What visits left for the office. */
  readonly left: WeekVisits;
  readonly ponds: number;
}

export function weekModel(data: WeekData, units: UnitSystem): WeekModel {
  const { week } = data;
  const urgentIds = new Set(week.urgent.map(({ task }) => task.id));
  const groups: DecisionGroup[] = [
    {
      title: 'Water warnings',
      sentence: 'Urgent, from readings and forecast.',
      rows: week.urgent.map((view) => urgentRow(view, units)),
      empty: 'A reading beyond its limit, or heat and ice that cannot wait, stands here at once.',
    },
    ...(data.left.people.length === 0
      ? []
      : [
          {
            title: 'Working alone',
            sentence: 'A check-in time has passed.',
            rows: data.left.people,
            empty: '',
          },
        ]),
    {
      title: 'From homeowners',
      sentence: 'Questions, wishes and answers, oldest first.',
      rows: data.said.map(saidRow),
      empty: 'What a homeowner asks or answers from a mail stands here until it is settled.',
    },
    {
      title: 'Late',
      sentence: 'The window has closed.',
      rows: bundled(
        week.late.filter(({ task }) => !urgentIds.has(task.id)),
        lateRow,
      ),
      empty: 'A task whose last day has passed stands here until it is done or closed.',
    },
    {
      title: 'Visits to plan',
      sentence: 'The window closes within a week and no visit has it.',
      rows: bundled(
        week.atRisk.filter(({ task }) => !urgentIds.has(task.id)),
        riskRow,
      ),
      empty: 'Work for the crew stands here a week before its window closes.',
    },
    {
      title: 'From visits',
      sentence: 'Closings to look at, things noted, reports that wait.',
      rows: data.left.visits,
      empty: 'What a technician noted for later, and closings that do not fit the plan, stand here.',
    },
    {
      title: 'Not answered',
      sentence: 'Two weekly mails asked for it. It is mailed no more: call them.',
      rows: bundled(data.unanswered, unansweredRow),
      empty: 'What a homeowner was mailed twice about and did not answer stands here while there is still time.',
    },
    {
      title: 'Mail',
      sentence: 'What came back, and who has to be called.',
      rows: [...data.troubledMail.map((mail) => mailRow(mail, data.timeZone)), ...data.callList.map(callRow)],
      empty: 'Mail that comes back, and homeowners without an address, stand here.',
    },
  ];
  return { days: daysOf(data.today), lead: leadOf(data, groups), groups };
}

function daysOf(today: CivilDay): string {
  // Day 0, 1 January 1970, was a Thursday; weeks begin on Monday.
  const monday = addDays(today, -((((today + 3) % 7) + 7) % 7));
  return `${longWeekdayDate(monday)} to ${longWeekdayDate(addDays(monday, 6)).replace(/ \d+ .*/, '')} ${fullDate(addDays(monday, 6))}`;
}

function leadOf(data: WeekData, groups: readonly DecisionGroup[]): string {
  if (data.ponds === 0)
    return 'No pond is entered yet. Add the first one, or import your list: its year appears at once.';
  const waiting = groups.reduce((sum, { rows }) => sum + rows.length, 0);
  const now = groups.slice(0, 3).reduce((sum, { rows }) => sum + rows.length, 0);
  const decisions =
    waiting === 0
      ? 'Nothing waits for a decision.'
      : `${capital(countWords(waiting))} ${waiting === 1 ? 'thing needs' : 'things need'} a decision${now > 0 && now < waiting ? `, ${countWords(now)} of them today` : ''}.`;
  const visits =
    data.visitsPlanned === 1
      ? 'One visit is planned this week.'
      : `${data.visitsPlanned === 0 ? 'No' : data.visitsPlanned} visits are planned this week.`;
  return `${decisions} ${visits}`;
}

function urgentRow(view: CareTaskView, units: UnitSystem): DecisionRow {
  const words = taskWords({ task: view.task.planned, rule: view.rule, audience: 'technician', units });
  return {
    ...thing(view),
    why: [words.why, ...words.howMuch].join(' '),
    by: view.isLate ? lateWords(view) : dueWords(view),
    byDetail: doerWords(view),
    isLate: true,
    action: actionOf(view),
  };
}

function lateRow(view: CareTaskView): DecisionRow {
  return {
    ...thing(view),
    why: askedWords(view),
    by: lateWords(view),
    byDetail: `closed ${longDate(lastDay(view))}`,
    isLate: true,
    action: actionOf(view),
  };
}

function riskRow(view: CareTaskView): DecisionRow {
  return {
    ...thing(view),
    why: view.rule.reason,
    by: `closes ${weekdayDate(lastDay(view))}`,
    byDetail: dueWords(view),
    isLate: false,
    action: actionOf(view),
  };
}

function unansweredRow(view: CareTaskView): DecisionRow {
  return {
    ...thing(view),
    why: `${askedWords(view)} ${view.rule.reason}`,
    by: `closes ${weekdayDate(lastDay(view))}`,
    byDetail: dueWords(view),
    isLate: false,
    action: actionOf(view),
  };
}

/** From this many ponds on, the same work of the same people is one row. */
const BUNDLED_FROM = 4;

function bundled(views: readonly CareTaskView[], rowOf: (view: CareTaskView) => DecisionRow): DecisionRow[] {
  const alike = new Map<string, CareTaskView[]>();
  for (const view of views) {
    const key = `${view.task.ruleId} ${view.task.doneBy}`;
    alike.set(key, [...(alike.get(key) ?? []), view]);
  }
  return [...alike.values()].flatMap((same) => (same.length < BUNDLED_FROM ? same.map(rowOf) : [bundle(same, rowOf)]));
}

function bundle(views: readonly CareTaskView[], rowOf: (view: CareTaskView) => DecisionRow): DecisionRow {
  const rows = views.map((view) => ({ view, row: rowOf(view) }));
  const [first] = rows as [(typeof rows)[number], ...typeof rows];
  const { view, row } = first;
  const mailed = views.filter(({ task }) => task.mailedTimes > 0).length;
  const asked =
    view.task.doneBy === 'technician'
      ? 'For the crew.'
      : `For the homeowners, ${mailed === 0 ? 'not mailed yet' : `${mailed} of ${views.length} mailed`}.`;
  return {
    title: `${view.rule.title}, ${views.length} ponds`,
    why: `${asked} ${view.rule.reason}`,
    by: row.isLate ? `up to ${lateWords(view)}` : row.by,
    byDetail: row.isLate ? `first closed ${longDate(lastDay(view))}` : 'the first of them',
    isLate: row.isLate,
    action: {
      words: `See the ${views.length} ponds`,
      href: '',
      name: `See the ${views.length} ponds: ${view.rule.title}`,
    },
    members: rows.map(({ view: one, row: its }) => ({ name: one.pondName, detail: its.by, href: its.action.href })),
  };
}

function thing({ task, rule, pondName }: CareTaskView): Pick<DecisionRow, 'title'> {
  return { title: `${taskTitle(task.planned, rule)}, ${pondName}` };
}

function actionOf({ task, pondName }: CareTaskView): DecisionRow['action'] {
  if (task.visitId !== null)
    return { words: 'See the visit', href: `/visits/${task.visitId}`, name: `See the visit to ${pondName}` };
  if (task.doneBy === 'technician')
    return { words: 'Plan a visit', href: `/visits/plan?pond=${task.pondId}`, name: `Plan a visit to ${pondName}` };
  return {
    words: 'Open the task',
    href: `/ponds/${task.pondId}#task-${task.id}`,
    name: `Open the task of ${pondName}`,
  };
}

function askedWords({ task, rule }: CareTaskView): string {
  if (task.doneBy === 'technician')
    return task.visitId === null ? 'For the crew, on no visit.' : 'For the crew, on a visit that is not closed.';
  if (task.mailedTimes === 0) return `For the homeowner, who has not been mailed about it. ${rule.reason}`;
  return task.mailedTimes === 1
    ? 'Mailed to the homeowner once, not answered.'
    : `Mailed to the homeowner ${task.mailedTimes} times, not answered.`;
}

function doerWords({ task }: CareTaskView): string {
  return task.doneBy === 'technician' ? 'for the crew' : 'for the homeowner';
}

function lastDay({ task }: CareTaskView): CivilDay {
  return civilDay(effectiveLatestOn(task));
}

function lateWords(view: CareTaskView): string {
  const days = civilDay(view.today) - lastDay(view);
  return days === 1 ? '1 day late' : `${days} days late`;
}

function dueWords({ dueOn, today }: CareTaskView): string {
  if (dueOn === today) return 'due today';
  return dueOn < today ? `due since ${shortDate(civilDay(dueOn))}` : `due ${shortDate(civilDay(dueOn))}`;
}

const SAID_WORDS: Readonly<Record<OpenHomeownerWord['word']['kind'], string>> = {
  question: 'asks',
  'visit-wish': 'asks for a visit',
  'visit-suits': 'says the day suits',
  'visit-does-not-suit': 'says the day does not suit',
};

function saidRow({ word, name, phone, pond, visit }: OpenHomeownerWord): DecisionRow {
  const about = visit === null ? '' : `Visit on ${weekdayDate(civilDay(visit.plannedOn))}.`;
  const onVisit = visit !== null && visit.state !== 'CANCELLED';
  return {
    title: `${name} ${SAID_WORDS[word.kind]}, ${pond.name}`,
    why: [about, word.said === '' ? '' : `"${word.said}"`].filter(Boolean).join(' ') || 'Without further words.',
    by: `since ${weekdayDate(civilDayIn(instantFrom(word.saidAt), pond.timeZone))}`,
    byDetail: phone || 'no phone number',
    isLate: false,
    action: onVisit
      ? { words: 'See the visit', href: `/visits/${visit.id}`, name: `See the visit to ${pond.name}` }
      : word.kind === 'visit-wish'
        ? { words: 'Plan a visit', href: `/visits/plan?pond=${pond.id}`, name: `Plan a visit to ${pond.name}` }
        : { words: 'Open the pond', href: `/ponds/${pond.id}`, name: `Open ${pond.name}` },
    settle: {
      action: `/homeowner-words/${word.id}/settling`,
      words: word.kind === 'visit-suits' ? 'Seen' : 'Settled',
      name: `${word.kind === 'visit-suits' ? 'Seen' : 'Settled'}: ${name}, ${pond.name}`,
    },
  };
}

const MAIL_WORDS: Partial<Record<MailHead['state'], { by: string; why: string }>> = {
  bounced: { by: 'came back', why: 'The address was refused' },
  dead: { by: 'not written', why: 'It could not be composed' },
  in_doubt: { by: 'in doubt', why: 'Whether it arrived is not known' },
};

function mailRow(mail: MailHead, timeZone: string): DecisionRow {
  const { by, why } = MAIL_WORDS[mail.state] ?? { by: mail.state, why: 'It did not leave' };
  return {
    title: `${mail.subject}, to ${mail.toName || mail.toAddress}`,
    why: mail.lastReply ? `${why}: ${mail.lastReply}` : `${why}.`,
    by: `${by} ${shortDate(civilDayIn(instantFrom(mail.createdAt), timeZone))}`,
    byDetail: mail.toAddress,
    isLate: false,
    action: {
      words: 'See the mail',
      href: `/messages/${mail.id}`,
      name: `See the mail to ${mail.toName || mail.toAddress}`,
    },
  };
}

const CALL_WORDS: Readonly<Record<CallListRow['because'], string>> = {
  'no-email': 'No email address: what is due has to be told by phone.',
  'mail-stopped': 'Wants no mail.',
  'address-refused': 'The mail address was refused.',
};

function callRow({ name, phone, pond, because, detail }: CallListRow): DecisionRow {
  return {
    title: `Call ${name}, ${pond.name}`,
    why: [CALL_WORDS[because], detail].filter(Boolean).join(' '),
    by: phone || 'no phone number',
    byDetail: phone ? '' : 'ask for one',
    isLate: false,
    action: { words: 'See what is due', href: `/ponds/${pond.id}#calendar`, name: `See what is due at ${pond.name}` },
  };
}

const SMALL = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

function countWords(count: number): string {
  return SMALL[count] ?? count.toLocaleString('en-US');
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
