import type { DateTime } from 'luxon';
import type { CareTaskView } from '../../../care-calendar/index.js';
import { taskTitle } from '../../../core/care/explain.js';
import { civilDayIn, instantFrom } from '../../../platform/clock.js';
import {
  type CallListRow,
  type HoldReason,
  type MailHead,
  type MailHoldEntity,
  type MailKind,
  type MailState,
  shortDay,
  WHOLE_SERVICE,
} from '../../../reminders/index.js';
import { type Choice, type EmptyList, type ListPages, listPages } from '../../shell/list-pages.js';

/** A choice of states with a word of its own; "needs a look" is what a person must decide on. */
export const MAIL_VIEWS = {
  all: { words: 'all', states: [] },
  look: { words: 'to look at', states: ['bounced', 'in_doubt', 'dead', 'expired'] },
  waiting: { words: 'on their way', states: ['due', 'claimed', 'handing_over', 'deferred'] },
  sent: { words: 'sent', states: ['sent'] },
  kept: { words: 'kept here', states: ['kept'] },
} as const satisfies Readonly<Record<string, { words: string; states: readonly MailState[] }>>;
export type MailView = keyof typeof MAIL_VIEWS;

export const KIND_WORDS: Readonly<Record<MailKind, string>> = {
  digest: 'weekly mail',
  urgent: 'urgent task',
  'visit-report': 'visit report',
  'visit-notice': 'visit notice',
  account: 'fresh link',
};

export interface MessagesAddress {
  readonly view: MailView;
  readonly kind: MailKind | 'all';
  readonly search: string;
  readonly page: number;
}

export interface MessageLine {
  readonly href: string;
  readonly subject: string;
  readonly toName: string;
  readonly toAddress: string;
  readonly kind: string;
  readonly when: string;
  readonly state: string;
  readonly detail: string;
  readonly needsAction: boolean;
}

export interface MessagesModel {
  readonly sentence: string;
  readonly search: string;
  readonly kind: string;
  readonly kinds: readonly { readonly value: string; readonly label: string }[];
  readonly view: MailView;
  readonly views: readonly Choice[];
  readonly rows: readonly MessageLine[];
  readonly pages: ListPages | null;
  readonly empty: EmptyList | null;
  readonly callList: string;
  /** Mails of the last day on their way; null where none is. */
  readonly progress: { readonly done: number; readonly total: number; readonly words: string } | null;
  /** Why no mail leaves, where none does. */
  readonly held: readonly string[];
  /** The switch of this company: what pressing it would do. */
  readonly holdAct: 'hold' | 'release' | null;
}

export function messagesModel(
  found: {
    readonly rows: readonly MailHead[];
    readonly total: number;
    readonly counts: ReadonlyMap<MailState, number>;
    readonly toCall: number;
    readonly progress: { readonly written: number; readonly waiting: number };
    readonly holds: readonly MailHoldEntity[];
  },
  address: MessagesAddress,
  given: { readonly pageSize: number; readonly timeZone: string; readonly sendsMail: boolean },
): MessagesModel {
  const { rows, total, counts } = found;
  const countOf = (view: MailView) => countOfStates(counts, MAIL_VIEWS[view].states);
  return {
    sentence: sentenceOf(countOf('all'), countOf('look'), given.sendsMail),
    search: address.search,
    kind: address.kind,
    kinds: [
      { value: 'all', label: 'every kind' },
      ...Object.entries(KIND_WORDS).map(([value, label]) => ({ value, label })),
    ],
    view: address.view,
    views: (Object.keys(MAIL_VIEWS) as MailView[]).map((view) => ({
      words: `${MAIL_VIEWS[view].words} (${countOf(view)})`,
      href: addressOf({ ...address, view, page: 1 }),
      isCurrent: view === address.view,
    })),
    rows: rows.map((mail) => messageLine(mail, given.timeZone)),
    pages: listPages({ total, page: address.page, pageSize: given.pageSize }, (page) =>
      addressOf({ ...address, page }),
    ),
    empty: rows.length > 0 ? null : emptyWords(countOf('all'), address),
    progress: progressOf(found.progress),
    held: found.holds.map((hold) => heldWords(hold, given.timeZone)),
    holdAct: !given.sendsMail ? null : found.holds.some(({ scope }) => scope !== WHOLE_SERVICE) ? 'release' : 'hold',
    callList: found.toCall === 1 ? '1 homeowner to call' : `${found.toCall} homeowners to call`,
  };
}

function progressOf({ written, waiting }: { readonly written: number; readonly waiting: number }) {
  if (waiting === 0) return null;
  const done = written - waiting;
  return { done, total: written, words: `${done} of the ${written} mails of the last 24 hours have left.` };
}

function heldWords({ scope, because, heldAt }: MailHoldEntity, timeZone: string): string {
  const since = `since ${spokenInstant(heldAt, timeZone)}`;
  const release = scope === WHOLE_SERVICE ? ' Whoever runs the service releases it with: tarnkeep mail release.' : '';
  return `${HELD_WORDS[because]}, ${since}.${release}`;
}

const HELD_WORDS: Readonly<Record<HoldReason, string>> = {
  paused: 'No mail leaves: it was held by hand',
  restored: 'No mail leaves: the database is an older copy, and what it holds as due may have been sent already',
  clock: 'No mail leaves: the clock of the machine jumped by more than a day',
};

function countOfStates(counts: ReadonlyMap<MailState, number>, states: readonly MailState[]): number {
  const counted = states.length === 0 ? [...counts.keys()] : states;
  return counted.reduce((sum, state) => sum + (counts.get(state) ?? 0), 0);
}

function sentenceOf(all: number, look: number, sendsMail: boolean): string {
  const mails = all === 1 ? '1 mail' : `${all.toLocaleString('en-US')} mails`;
  const toLookAt = look === 0 ? 'None needs a look.' : look === 1 ? 'One needs a look.' : `${look} need a look.`;
  const kept = sendsMail ? '' : ' No mail leaves from here: each lies below as its homeowner would see it.';
  return `${mails}. ${toLookAt}${kept}`;
}

function emptyWords(all: number, { search }: MessagesAddress): EmptyList {
  if (all === 0) {
    return {
      title: 'No mail has been written yet.',
      sentence: 'Homeowners get one weekly mail when something is to be done, urgent tasks at once, and visit reports.',
    };
  }
  return {
    title: 'No mail matches.',
    sentence: search === '' ? 'Choose another word above.' : 'Names, addresses and subjects were looked through.',
  };
}

export function addressOf({ view, kind, search, page }: MessagesAddress): string {
  const query = new URLSearchParams();
  if (view !== 'all') query.set('view', view);
  if (kind !== 'all') query.set('kind', kind);
  if (search !== '') query.set('search', search);
  if (page > 1) query.set('page', String(page));
  const text = query.toString();
  return text === '' ? '/messages' : `/messages?${text}`;
}

export function messageLine(mail: MailHead, timeZone: string): MessageLine {
  const { words, detail } = stateWords(mail, timeZone);
  return {
    href: `/messages/${mail.id}`,
    subject: mail.subject,
    toName: mail.toName,
    toAddress: mail.toAddress,
    kind: KIND_WORDS[mail.kind],
    when: spokenInstant(mail.createdAt, timeZone),
    state: words,
    detail,
    needsAction: (MAIL_VIEWS.look.states as readonly MailState[]).includes(mail.state),
  };
}

function stateWords(mail: MailHead, timeZone: string): { words: string; detail: string } {
  const reply = mail.lastReply ?? '';
  switch (mail.state) {
    case 'due':
      return mail.sentAt === null
        ? { words: 'waits to leave', detail: `not before ${spokenInstant(mail.notBefore, timeZone)}` }
        : { words: 'in doubt, goes once more', detail: `at ${spokenInstant(mail.notBefore, timeZone)}` };
    case 'claimed':
    case 'handing_over':
      return { words: 'leaving now', detail: '' };
    case 'deferred':
      return { words: 'put off', detail: `next try ${spokenInstant(mail.notBefore, timeZone)}. ${reply}` };
    case 'sent':
      return { words: 'sent', detail: mail.sentAt === null ? '' : spokenInstant(mail.sentAt, timeZone) };
    case 'bounced':
      return { words: 'came back', detail: reply };
    case 'expired':
      return { words: 'ran out of time', detail: reply };
    case 'in_doubt':
      return { words: 'in doubt', detail: reply };
    case 'dead':
      return { words: 'could not be written', detail: reply };
    case 'kept':
      return { words: 'kept here', detail: '' };
  }
}

/** "Sat 3 Oct, 8:07". */
export function spokenInstant(isoInstant: string, timeZone: string): string {
  const at = instantFrom(isoInstant);
  const local = at.setZone(timeZone) as DateTime<true>;
  return `${shortDay(civilDayIn(at, timeZone))}, ${local.toFormat('H:mm')}`;
}

export interface CallLine {
  readonly name: string;
  readonly phone: string;
  readonly pondName: string;
  readonly pondHref: string;
  /** Titles of the tasks that are theirs to do this week. */
  readonly toTell: string;
  readonly because: string;
  readonly detail: string;
}

const BECAUSE_WORDS: Readonly<Record<CallListRow['because'], string>> = {
  'no-email': 'no email address',
  'mail-stopped': 'stopped our mail',
  'address-refused': 'address does not take mail',
};

export function callLine({ name, phone, pond, because, detail }: CallListRow, due: readonly CareTaskView[]): CallLine {
  const titles = due
    .filter(({ task }) => task.pondId === pond.id && !task.routineLine)
    .filter(({ isLate }) => !isLate)
    .map(({ task, rule }) => taskTitle(task.planned, rule));
  return {
    name,
    phone: phone === '' ? 'no phone number' : phone,
    pondName: pond.name,
    pondHref: `/ponds/${pond.id}`,
    toTell: titles.length === 0 ? 'nothing this week' : titles.join(', '),
    because: BECAUSE_WORDS[because],
    detail,
  };
}
