import { civilDay, isoDateOf, monthOf, yearOf } from '../../../core/units/civil-day.js';
import { showMinutes } from '../../../core/units/show.js';
import type { ShelfPartEntity, VisitStatement } from '../../../visits/index.js';
import { monthName, shortDate } from '../../charts/show-date.js';
import type { FormFaults } from '../../forms/form-faults.js';

export interface StatementModel {
  readonly title: string;
  readonly sentence: string;
  readonly before: string;
  readonly after: string;
  readonly csv: string;
  readonly people: readonly { readonly name: string; readonly visits: string; readonly hours: string }[];
  readonly parts: readonly { readonly name: string; readonly amount: string }[];
  readonly visits: readonly {
    readonly href: string;
    readonly day: string;
    readonly pond: string;
    readonly who: string;
    readonly time: string;
    readonly isPlannedTime: boolean;
    readonly parts: string;
  }[];
  readonly shelf: readonly ShelfLine[];
  readonly typed: Readonly<Record<string, string>>;
  readonly faults: FormFaults;
}

export interface ShelfLine {
  readonly id: string;
  readonly name: string;
  readonly partRef: string;
  readonly unit: string;
  readonly onHand: string;
  readonly leadDays: string;
  readonly words: string;
  readonly isOut: boolean;
}

export function statementModel(page: {
  readonly statement: VisitStatement;
  readonly shelf: readonly ShelfPartEntity[];
  readonly typed: Readonly<Record<string, string>>;
  readonly faults: FormFaults;
}): StatementModel {
  const { statement, typed, faults } = page;
  const { month, visits } = statement;
  const first = civilDay(`${month}-01`);
  const minutes = visits.reduce((sum, visit) => sum + visit.minutes, 0);
  const unknown = visits.filter(({ isMeasured }) => !isMeasured).length;
  const to = (step: number) => {
    const [year = 0, number = 1] = month.split('-').map(Number);
    const index = year * 12 + number - 1 + step;
    const target = `${Math.floor(index / 12)}-${String((index % 12) + 1).padStart(2, '0')}`;
    return `/visits/statement?month=${target}`;
  };
  return {
    title: `${monthName(monthOf(first))} ${yearOf(first)}`,
    sentence:
      visits.length === 0
        ? 'No visit of this month is closed.'
        : `${visits.length === 1 ? 'One closed visit' : `${visits.length} closed visits`}, ${showMinutes(minutes)} on site.${
            unknown === 0 ? '' : ` Of ${unknown}, arrival or leaving is not known: the planned time stands.`
          }`,
    before: to(-1),
    after: to(1),
    csv: `/visits/statement/export.csv?month=${isoDateOf(first).slice(0, 7)}`,
    people: statement.hoursByTechnician.map((one) => ({
      name: one.name,
      visits: String(one.visits),
      hours: showMinutes(one.minutes),
    })),
    parts: statement.parts.map(({ name, amount, unit }) => ({
      name,
      amount: `${amount.toLocaleString('en-US')} ${unit}`,
    })),
    visits: visits.map((visit) => ({
      href: `/visits/${visit.visitId}`,
      day: shortDate(civilDay(visit.plannedOn)),
      pond: visit.pondName,
      who: visit.technicianName,
      time: showMinutes(visit.minutes),
      isPlannedTime: !visit.isMeasured,
      parts: visit.parts
        .map(({ name, amount, unit }) => `${amount.toLocaleString('en-US')} ${unit} ${name}`)
        .join('; '),
    })),
    shelf: page.shelf.map(shelfLine),
    typed,
    faults,
  };
}

function shelfLine({ id, name, partRef, unit, onHand, leadDays }: ShelfPartEntity): ShelfLine {
  const isOut = onHand !== null && onHand <= 0;
  const stock = onHand === null ? 'not counted' : `${onHand.toLocaleString('en-US')} ${unit}`;
  const lead = leadDays === 0 ? '' : `, ${leadDays} days to get`;
  return {
    id,
    name,
    partRef,
    unit,
    onHand: onHand === null ? '' : String(onHand),
    leadDays: String(leadDays),
    words: `${stock}${lead}${isOut ? ': order it' : ''}`,
    isOut,
  };
}
