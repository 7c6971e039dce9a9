import { type CivilDay, civilDay, isoDateOf } from '../../core/units/civil-day.js';
import { showMinutes } from '../../core/units/show.js';
import type { PondContact, PondRecord } from '../../ponds/index.js';
import type { VisitEntity, VisitReport, VisitState } from '../../visits/index.js';
import { weekdayDate } from '../charts/show-date.js';
import { toldWords } from './clock-words.js';
import type { TaskCard } from './task-card.js';

/** One visit on a round. */
export interface StopView {
  readonly visitId: string;
  readonly href: string;
  readonly number: number;
  readonly pondName: string;
  readonly address: string;
  /** "Told 8:00 to 10:00", or "No time told". */
  readonly told: string;
  readonly minutes: string;
  readonly minutesCount: number;
  readonly stateWord: string;
  readonly state: VisitState;
  readonly isOpen: boolean;
  readonly tasks: readonly string[];
  readonly directionsHref: string;
  readonly call: { readonly name: string; readonly href: string; readonly shown: string } | null;
  readonly access: string;
  readonly hazards: string;
  readonly officeNote: string;
  /** Only on the day of the visit, and only while it is open. */
  readonly gateCode: string | null;
  /** On a page kept by a phone: where the phone puts the gate code it holds. */
  readonly isGatePlace: boolean;
  readonly cancelledBecause: string | null;
  /** E.g. "Wed 7 Oct". */
  readonly day: string;
}

const STATE_WORDS: Readonly<Record<VisitState, string>> = {
  TENTATIVE: 'planned',
  CONFIRMED: 'confirmed',
  'IN-PROCESS': 'under way',
  COMPLETED: 'done',
  CANCELLED: 'cancelled',
};

export function stateWord(visit: Pick<VisitEntity, 'state' | 'onTheWayAt'>): string {
  if (visit.state === 'CONFIRMED' && visit.onTheWayAt !== null) return 'on the way';
  return STATE_WORDS[visit.state];
}

export function stopView(
  report: VisitReport,
  about: { number: number; today: CivilDay; cards: readonly TaskCard[]; isKept?: boolean },
): StopView {
  const { visit, pond } = report;
  const isOpen = isOpenVisit(visit);
  const told = toldWords(visit);
  const gateCode = gateCodeToday(report, about.today);
  return {
    visitId: visit.id,
    href: `/my-round/visits/${visit.id}`,
    number: about.number,
    pondName: pond.pond.name,
    address: addressOf(pond),
    told: told === '' ? 'No time told' : `Told ${told}`,
    minutes: showMinutes(visit.minutes),
    minutesCount: visit.minutes,
    stateWord: stateWord(visit),
    state: visit.state,
    isOpen,
    tasks: about.cards.map((card) => card.title),
    directionsHref: directionsTo(pond),
    call: callOf(pond),
    access: pond.pond.accessNotes,
    hazards: pond.pond.hazards,
    officeNote: visit.officeNote,
    gateCode: about.isKept ? null : gateCode,
    isGatePlace: about.isKept === true && pond.pond.gateCode !== '',
    cancelledBecause: visit.cancelledBecause,
    day: weekdayDate(civilDay(visit.plannedOn)),
  };
}

const isOpenVisit = ({ state }: Pick<VisitEntity, 'state'>) =>
  state === 'CONFIRMED' || state === 'IN-PROCESS' || state === 'TENTATIVE';

/** The gate code, on the day of an open visit; null on any other. */
export function gateCodeToday({ visit, pond }: VisitReport, today: CivilDay): string | null {
  const isToday = visit.plannedOn === isoDateOf(today);
  return isToday && isOpenVisit(visit) && pond.pond.gateCode !== '' ? pond.pond.gateCode : null;
}

function addressOf({ pond }: PondRecord): string {
  return [pond.street, pond.town].filter((part) => part !== '').join(', ');
}

/** RFC 5870: opened by whichever map the phone has. Coordinates to about a metre. */
function directionsTo({ pond }: PondRecord): string {
  return `geo:${pond.latitude.toFixed(5)},${pond.longitude.toFixed(5)}`;
}

function callOf({ contacts }: PondRecord): StopView['call'] {
  const current = contacts.filter((contact) => contact.endedOn === null && contact.phone !== '');
  const contact = current.find((one) => one.role === 'homeowner') ?? (current[0] as PondContact | undefined);
  if (!contact) return null;
  const digits = contact.phone.replace(/(?!^\+)\D/g, '');
  return { name: contact.name, href: `tel:${digits}`, shown: contact.phone };
}
