import { numberField, textField } from '../../../ponds/index.js';
import type { VisitListRow, VisitStatement } from '../../../visits/index.js';
import { stateWord } from '../../technician/stop.view-model.js';

const LINE_END = '\r\n';
const BYTE_ORDER_MARK = '\ufeff';

/** One visit of an export, the same fields in both forms. */
export function exportedVisit({ visit, pond, technicianName, taskTitles, isFlagged }: VisitListRow) {
  return {
    id: visit.id,
    plannedOn: visit.plannedOn,
    arrivalFrom: visit.fromTime ?? '',
    arrivalTo: visit.toTime ?? '',
    pond: pond.name,
    town: pond.town,
    technician: technicianName ?? '',
    state: stateWord(visit),
    minutes: visit.minutes,
    tasks: taskTitles.join('; '),
    arrivedAt: visit.arrivedAt ?? '',
    closedAt: visit.closedAt ?? '',
    needsALook: isFlagged ? 'yes' : '',
  };
}

/** UTF-8 with a byte order mark, CRLF, quoted as RFC 4180 asks; cells that would be formulas are guarded. */
export function csvText(rows: readonly Readonly<Record<string, string | number>>[], head: readonly string[]): string {
  const lines = rows.map((row) =>
    head.map((name) => {
      const value = row[name] ?? '';
      return typeof value === 'number' ? numberField(value) : textField(value);
    }),
  );
  return BYTE_ORDER_MARK + [head, ...lines].map((fields) => fields.join(',') + LINE_END).join('');
}

export const VISIT_COLUMNS = [
  'id',
  'plannedOn',
  'arrivalFrom',
  'arrivalTo',
  'pond',
  'town',
  'technician',
  'state',
  'minutes',
  'tasks',
  'arrivedAt',
  'closedAt',
  'needsALook',
] as const;

export const STATEMENT_COLUMNS = [
  'visitId',
  'plannedOn',
  'pondRef',
  'pond',
  'technician',
  'what',
  'amount',
  'unit',
  'lot',
  'note',
] as const;

/** A line for the hours of each visit and one for each part used on it. */
export function statementRows({
  visits,
}: VisitStatement): Record<(typeof STATEMENT_COLUMNS)[number], string | number>[] {
  return visits.flatMap((visit) => {
    const about = {
      visitId: visit.visitId,
      plannedOn: visit.plannedOn,
      pondRef: visit.pondRef ?? '',
      pond: visit.pondName,
      technician: visit.technicianName,
    };
    const hours = Math.round((visit.minutes / 60) * 100) / 100;
    const note = visit.isMeasured ? '' : 'planned time: arrival or leaving is not known';
    return [
      { ...about, what: 'Work on site', amount: hours, unit: 'h', lot: '', note },
      ...visit.parts.map(({ name, amount, unit, lot }) => ({ ...about, what: name, amount, unit, lot, note: '' })),
    ];
  });
}
