import type { Member } from '../../../accounts/index.js';
import { taskTitle } from '../../../core/care/explain.js';
import { addDays, type CivilDay, civilDay, isoDateOf } from '../../../core/units/civil-day.js';
import { showMinutes } from '../../../core/units/show.js';
import { type PondProposal, type ProposedVisit, SET_UP_MINUTES } from '../../../visits/index.js';
import { dateRange, weekdayDate } from '../../charts/show-date.js';
import type { FormFaults } from '../../forms/form-faults.js';
import { type ListPages, listPages } from '../../shell/list-pages.js';

/** One form: a proposed visit, or one without a task. */
export interface PlanForm {
  /** Ties a fault to its form. */
  readonly key: string;
  readonly title: string;
  readonly sentence: string;
  readonly tasks: readonly {
    readonly id: string;
    readonly title: string;
    readonly window: string;
    readonly isLate: boolean;
    readonly isTaken: boolean;
  }[];
  readonly plannedOn: string;
  readonly fromTime: string;
  readonly toTime: string;
  readonly technicianId: string;
  readonly note: string;
  readonly faults: FormFaults;
}

export interface PlannedPondModel {
  readonly id: string;
  readonly name: string;
  readonly town: string;
  readonly proof: string;
  /** What fits on a visit that is planned already. */
  readonly joins: readonly {
    readonly taskId: string;
    readonly words: string;
    readonly action: string;
    readonly name: string;
  }[];
  readonly forms: readonly PlanForm[];
}

export interface VisitPlanModel {
  readonly sentence: string;
  readonly ponds: readonly PlannedPondModel[];
  readonly people: readonly { readonly value: string; readonly label: string }[];
  /** Today in the company's zone, for the date fields. */
  readonly today: string;
  /** Where one pond is planned: its own way back. */
  readonly onePond: { readonly id: string; readonly name: string } | null;
  readonly pages: ListPages | null;
}

export const PONDS_PER_PAGE = 12;

/** What was typed into one of the forms, to be shown again with its faults. */
export interface TypedPlan {
  readonly key: string;
  readonly fields: Readonly<Record<string, string>>;
  readonly faults: FormFaults;
}

export function visitPlanModel(plan: {
  readonly proposals: readonly PondProposal[];
  readonly onePond: { readonly id: string; readonly name: string; readonly town: string } | null;
  readonly people: readonly Member[];
  readonly today: CivilDay;
  readonly page: number;
  readonly typed?: TypedPlan;
}): VisitPlanModel {
  const { proposals, onePond, typed } = plan;
  const pages = Math.max(1, Math.ceil(proposals.length / PONDS_PER_PAGE));
  const page = Math.min(Math.max(plan.page, 1), pages);
  const shown = proposals.slice((page - 1) * PONDS_PER_PAGE, page * PONDS_PER_PAGE);
  return {
    sentence: sentenceOf(proposals, onePond?.name ?? null),
    ponds:
      onePond === null
        ? shown.map((proposal) => pondModel(proposal, typed))
        : [onePondModel(onePond, proposals[0] ?? null, plan.today, typed)],
    people: peopleOptions(plan.people),
    today: isoDateOf(plan.today),
    onePond,
    pages: listPages({ total: proposals.length, page, pageSize: PONDS_PER_PAGE }, (to) => `/visits/plan?page=${to}`),
  };
}

/** Technicians first: they are who goes, as a rule. */
export function peopleOptions(people: readonly Member[]): { value: string; label: string }[] {
  const rank = (person: Member) => (person.role === 'technician' ? 0 : 1);
  const sorted = [...people].sort((a, b) => rank(a) - rank(b));
  return [
    { value: '', label: 'Nobody yet' },
    ...sorted.map(({ personId, name }) => ({ value: personId, label: name })),
  ];
}

function sentenceOf(proposals: readonly PondProposal[], onePond: string | null): string {
  const visits = proposals.reduce((sum, proposal) => sum + proposal.visits.length, 0);
  const joining = proposals.reduce((sum, proposal) => sum + proposal.joins.length, 0);
  if (visits === 0 && joining > 0) {
    return joining === 1
      ? 'One task fits on a visit that is planned already.'
      : `${joining} tasks fit on visits that are planned already.`;
  }
  if (visits === 0) {
    return onePond === null
      ? 'Every technician task of the coming six weeks is on a visit.'
      : 'No technician task waits here in the coming six weeks.';
  }
  const minutes = proposals.flatMap((proposal) => proposal.visits).reduce((sum, visit) => sum + visit.minutes, 0);
  const many = visits === 1 ? 'One visit' : `${visits} visits`;
  const where = onePond === null ? ` at ${proposals.length === 1 ? 'one pond' : `${proposals.length} ponds`}` : '';
  return `${many}${where} would do what is due in the coming six weeks, ${showMinutes(minutes)} of work.`;
}

function pondModel(proposal: PondProposal, typed: TypedPlan | undefined): PlannedPondModel {
  const { pond } = proposal;
  return {
    id: pond.id,
    name: pond.name,
    town: pond.town,
    proof: proofWords(proposal),
    joins: joinsOf(proposal),
    forms: proposal.visits.map((visit, i) => formOf(proposal, visit, i, typed)),
  };
}

function joinsOf({ joins, doneShares }: PondProposal): PlannedPondModel['joins'] {
  return joins.map(({ task: { task, rule }, visit }) => {
    const day = weekdayDate(civilDay(visit.plannedOn));
    const title = taskTitle(task.planned, rule);
    return {
      taskId: task.id,
      words: `${title}${restWords(doneShares.get(task.id))}: fits on the visit of ${day}`,
      action: `/visits/${visit.id}/tasks`,
      name: `Take along on ${day}: ${title}`,
    };
  });
}

/** E.g. ", the rest: 60 % is done". */
function restWords(doneShare: number | undefined): string {
  return doneShare === undefined ? '' : `, the rest: ${Math.round(doneShare * 100)} % is done`;
}

function proofWords({ visits, lowerBound, isProvenOptimal, oversize, lateForParts }: PondProposal): string {
  if (visits.length === 0) return '';
  const parts = lateForParts.length > 0 ? ' Parts that have to be ordered come after a window closes.' : '';
  const long = `${oversize.length > 0 ? ' One task is longer than a usual visit and has a visit of its own.' : ''}${parts}`;
  if (visits.length === 1) return `One visit does it all.${long}`;
  if (isProvenOptimal) return `${visits.length} visits are the fewest that meet every window.${long}`;
  return `${visits.length} visits meet every window; fewer than ${lowerBound} cannot.${long}`;
}

function formOf(proposal: PondProposal, visit: ProposedVisit, index: number, typed: TypedPlan | undefined): PlanForm {
  const { today, pond } = proposal;
  const { earliest, latest } = visit.dueWindow;
  const key = `${pond.id}:${visit.taskIds[0] ?? index}`;
  const plain = plainForm(key, today, typed);
  const isTyped = typed?.key === key;
  const taken = isTyped ? (typed.fields.task ?? '').split(',') : visit.taskIds;
  const people = visit.people === 2 ? ', two people' : '';
  const skills = visit.skills.length > 0 ? `, needs: ${visit.skills.join(', ')}` : '';
  const when = earliest === latest ? weekdayDate(earliest) : `any day ${dateRange(earliest, latest, today)}`;
  return {
    ...plain,
    plannedOn: isTyped ? plain.plannedOn : isoDateOf(suggestedDay(earliest, latest, today)),
    title: when.charAt(0).toUpperCase() + when.slice(1),
    sentence: `${showMinutes(visit.minutes)} with ${SET_UP_MINUTES} min to arrive, test and leave${people}${skills}.`,
    tasks: visit.tasks.map((care) => planTask(care, taken, today, proposal.doneShares)),
  };
}

/** The first working day of the window that is not today; else the last day of the window. */
export function suggestedDay(earliest: CivilDay, latest: CivilDay, today: CivilDay): CivilDay {
  for (let day = Math.max(earliest, today + 1) as CivilDay; day <= latest; day = addDays(day, 1)) {
    const weekday = (((day + 3) % 7) + 7) % 7;
    if (weekday < 5) return day;
  }
  return Math.max(latest, today) as CivilDay;
}

/**
 * One pond may also be visited without a task: somebody was asked to come and look. A form that was typed for a proposal
 * which is not made any more comes back as it was, in front.
 */
function onePondModel(
  pond: { id: string; name: string; town: string },
  proposal: PondProposal | null,
  today: CivilDay,
  typed: TypedPlan | undefined,
): PlannedPondModel {
  const model = proposal === null ? null : pondModel(proposal, typed);
  const free = plainForm(`${pond.id}:free`, today, typed);
  const forms = [
    ...(model?.forms ?? []),
    {
      ...free,
      title: 'A visit without a task',
      sentence: `Somebody comes, looks and tests: ${SET_UP_MINUTES} min.`,
    },
  ];
  if (typed && !forms.some((form) => form.key === typed.key)) forms.unshift(formAsTyped(typed, proposal, today));
  const { proof = '', joins = [] } = model ?? {};
  return { id: pond.id, name: pond.name, town: pond.town, proof, joins, forms };
}

function formAsTyped(typed: TypedPlan, proposal: PondProposal | null, today: CivilDay): PlanForm {
  const taken = (typed.fields.task ?? '').split(',');
  const waiting = proposal?.visits.flatMap((visit) => visit.tasks) ?? [];
  return {
    ...plainForm(typed.key, today, typed),
    title: 'As you had it',
    sentence: 'What is due here was put together anew meanwhile.',
    tasks: waiting.map((care) => planTask(care, taken, today)),
  };
}

function plainForm(key: string, today: CivilDay, typed: TypedPlan | undefined): PlanForm {
  const again = typed?.key === key ? typed : null;
  const fields = again?.fields ?? {};
  return {
    key,
    title: '',
    sentence: '',
    tasks: [],
    plannedOn: fields.plannedOn ?? isoDateOf(addDays(today, 1)),
    fromTime: fields.fromTime ?? '',
    toTime: fields.toTime ?? '',
    technicianId: fields.technicianId ?? '',
    note: fields.note ?? '',
    faults: again?.faults ?? {},
  };
}

function planTask(
  { task, rule, isLate }: ProposedVisit['tasks'][number],
  taken: readonly string[],
  today: CivilDay,
  doneShares: ReadonlyMap<string, number> = new Map(),
): PlanForm['tasks'][number] {
  const window = isLate
    ? `late since ${weekdayDate(civilDay(task.latestOn))}`
    : dateRange(civilDay(task.earliestOn), civilDay(task.latestOn), today);
  const title = `${taskTitle(task.planned, rule)}${restWords(doneShares.get(task.id))}`;
  return { id: task.id, title, window, isLate, isTaken: taken.includes(task.id) };
}
