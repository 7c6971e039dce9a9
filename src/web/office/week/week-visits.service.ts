import { Injectable } from '@nestjs/common';
import { type CivilDay, civilDay } from '../../../core/units/civil-day.js';
import { instantFrom } from '../../../platform/clock.js';
import type { CompanyId } from '../../../platform/ids.js';
import { PondsService } from '../../../ponds/index.js';
import { ReportHolds } from '../../../reminders/index.js';
import { CheckIns, VisitLeavings, VisitsService } from '../../../visits/index.js';
import { weekdayDate } from '../../charts/show-date.js';
import { clockWords } from '../../technician/clock-words.js';
import type { DecisionRow } from './decision-row.js';

/** What visits leave for the office to decide: people who have not checked in, follow-ups, flags, reports that wait. */
export interface WeekVisits {
  readonly people: readonly DecisionRow[];
  readonly visits: readonly DecisionRow[];
}

const MOST_ROWS = 20;

@Injectable()
export class WeekVisitsService {
  constructor(
    private readonly checkIns: CheckIns,
    private readonly leavings: VisitLeavings,
    private readonly visits: VisitsService,
    private readonly holds: ReportHolds,
    private readonly ponds: PondsService,
  ) {}

  async of(companyId: CompanyId, today: CivilDay, timeZone: string): Promise<WeekVisits> {
    const at = (instant: string) => clockWords(instantFrom(instant).setZone(timeZone).toFormat('HH:mm'));
    const day = (instant: string) => {
      return weekdayDate(civilDay(instantFrom(instant).setZone(timeZone).toISODate() as string));
    };
    const overdue = await this.checkIns.overdue(companyId);
    const people = overdue.map(({ checkIn, name, phone }): DecisionRow => {
      const call = phone === '' ? 'no phone number' : phone;
      return {
        title: `${name} has not checked in`,
        why: `They work alone and wanted to have said by ${at(checkIn.dueAt)} that all is well. Call them; if nobody answers, send help.`,
        by: `since ${at(checkIn.dueAt)}`,
        byDetail: call,
        isLate: true,
        action:
          phone === ''
            ? { words: 'See people', href: '/settings#people', name: `See how to reach ${name}` }
            : { words: 'Call', href: `tel:${phone.replace(/[^+\d]/g, '')}`, name: `Call ${name}` },
        settle: { action: `/check-ins/${checkIn.id}/settling`, words: 'Reached', name: `Reached: ${name}` },
      };
    });
    const flagged = await this.visits.list(companyId, { isFlagged: true, pageSize: MOST_ROWS });
    const followUps = (await this.leavings.openFollowUps(companyId)).slice(0, MOST_ROWS);
    const held = await this.holds.held(companyId);
    const pondNames = new Map<string, string>();
    for (const id of [...followUps, ...held].map(({ pondId }) => pondId)) {
      if (id !== null && !pondNames.has(id)) pondNames.set(id, (await this.ponds.pond(companyId, id)).name);
    }
    return {
      people,
      visits: [
        ...flagged.rows.map(
          ({ visit, pond }): DecisionRow => ({
            title: `Look at the closing, ${pond.name}`,
            why: 'It does not go together with what the office had planned, or with another closing of the visit. Nothing is lost.',
            by: `visit of ${weekdayDate(civilDay(visit.plannedOn))}`,
            byDetail: 'both are kept',
            isLate: false,
            action: { words: 'See the visit', href: `/visits/${visit.id}`, name: `See the visit to ${pond.name}` },
          }),
        ),
        ...followUps.map(({ id, what, untilOn, pondId, notedAt }): DecisionRow => {
          const pondName = pondNames.get(pondId) ?? '';
          const isLate = untilOn !== null && civilDay(untilOn) < today;
          return {
            title: `${what}, ${pondName}`,
            why: 'Noted by the technician on a visit.',
            by: untilOn === null ? `noted ${day(notedAt)}` : `by ${weekdayDate(civilDay(untilOn))}`,
            byDetail: isLate ? 'that day has passed' : '',
            isLate,
            action: { words: 'Plan a visit', href: `/visits/plan?pond=${pondId}`, name: `Plan a visit to ${pondName}` },
            settle: { action: `/follow-ups/${id}/settling`, words: 'Settled', name: `Settled: ${what}, ${pondName}` },
          };
        }),
        ...held.map(({ visitId, pondId, toName, leavesAt }): DecisionRow => {
          const pondName = (pondId && pondNames.get(pondId)) ?? '';
          return {
            title: `Report to ${toName}, ${pondName}`,
            why: 'It waits until you have looked at it, or until its time comes. A corrected record replaces it.',
            by: `leaves ${day(leavesAt)}, ${at(leavesAt)}`,
            byDetail: '',
            isLate: false,
            action: { words: 'See the visit', href: `/visits/${visitId}`, name: `See the visit to ${pondName}` },
            settle: {
              action: `/visits/${visitId}/report/release`,
              words: 'Send now',
              name: `Send the report to ${toName} now`,
            },
          };
        }),
      ],
    };
  }
}
