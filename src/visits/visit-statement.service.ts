import { Injectable } from '@nestjs/common';
import { In } from 'typeorm';
import { PeopleService } from '../accounts/index.js';
import { InvalidValueError } from '../core/errors.js';
import { Database } from '../database/index.js';
import { instantFrom } from '../platform/clock.js';
import type { CompanyId, PersonId, PondId, VisitId } from '../platform/ids.js';
import { PondEntity } from '../ponds/index.js';
import { mergedClosings } from './closing-merge.js';
import { VisitEntity } from './visit.entity.js';
import { VisitClosingEntity } from './visit-closing.entity.js';
import { VisitLeavings } from './visit-leavings.js';

/** One closed visit as the accounts need it. */
export interface StatementVisit {
  readonly visitId: VisitId;
  readonly plannedOn: string;
  readonly pondId: PondId;
  readonly pondName: string;
  readonly pondRef: string | null;
  readonly technicianName: string;
  /** On site. [min] */
  readonly minutes: number;
  /** Whether arrival and leaving are known; else the planned time stands. */
  readonly isMeasured: boolean;
  readonly parts: readonly {
    readonly name: string;
    readonly amount: number;
    readonly unit: string;
    readonly lot: string;
  }[];
}

export interface VisitStatement {
  /** `YYYY-MM`. */
  readonly month: string;
  /** In order of day. */
  readonly visits: readonly StatementVisit[];
  readonly hoursByTechnician: readonly { readonly name: string; readonly visits: number; readonly minutes: number }[];
  readonly parts: readonly { readonly name: string; readonly amount: number; readonly unit: string }[];
}

const MONTH = /^\d{4}-(0[1-9]|1[0-2])$/;
/** A stay longer than this is a clock that was wrong, or a visit that was left open over night. [min] */
const LONGEST_STAY_MIN = 16 * 60;

/** Hours and parts of a month's closed visits, for the accounts. No prices: they are the accounts' own. */
@Injectable()
export class VisitStatements {
  constructor(
    private readonly database: Database,
    private readonly people: PeopleService,
    private readonly leavings: VisitLeavings,
  ) {}

  /** @param month `YYYY-MM`, by the planned day. @throws InvalidValueError */
  async of(companyId: CompanyId, month: string): Promise<VisitStatement> {
    if (!MONTH.test(month)) throw new InvalidValueError('month', month, 'Write year and month, for example 2026-11.');
    const closed = await this.database
      .company(companyId)
      .select(VisitEntity, 'visit')
      .and('visit.state = :state', { state: 'COMPLETED' })
      .and('visit.plannedOn BETWEEN :from AND :to', { from: `${month}-01`, to: `${month}-31` })
      .orderBy('plannedOn')
      .orderBy('id')
      .rows();
    const visits: StatementVisit[] = [];
    // Databases limit a list of keys.
    for (let from = 0; from < closed.length; from += 200) {
      visits.push(...(await this.lines(companyId, closed.slice(from, from + 200))));
    }
    return { month, visits, hoursByTechnician: hoursOf(visits), parts: partsOf(visits) };
  }

  private async lines(companyId: CompanyId, visits: readonly VisitEntity[]): Promise<StatementVisit[]> {
    const store = this.database.company(companyId);
    const ids = visits.map(({ id }) => id);
    const closings = await store.find(VisitClosingEntity, {
      where: { visitId: In(ids) },
      order: { closingVersion: 'ASC' },
    });
    const ponds = await store.find(PondEntity, { where: { id: In(visits.map(({ pondId }) => pondId)) } });
    const pondOf = new Map(ponds.map((pond) => [pond.id, pond]));
    const parts = await this.leavings.partsOf(companyId, ids);
    const workers = new Map(visits.map((visit) => [visit.id, workerOf(visit, closings)]));
    const people = await this.people.byIds([...new Set([...workers.values()].filter((id) => id !== null))]);
    return visits.map((visit) => {
      const standing = closings.filter(({ visitId, reopenedAt }) => visitId === visit.id && reopenedAt === null);
      const measured = stayMinutes(visit, standing);
      const worker = workers.get(visit.id) ?? null;
      const pond = pondOf.get(visit.pondId);
      return {
        visitId: visit.id,
        plannedOn: visit.plannedOn,
        pondId: visit.pondId,
        pondName: pond?.name ?? '',
        pondRef: pond?.ref ?? null,
        technicianName: (worker && people.get(worker)?.name) || 'not known',
        minutes: measured ?? visit.minutes,
        isMeasured: measured !== null,
        parts: parts
          .filter(({ visitId }) => visitId === visit.id)
          .map(({ name, amount, unit, lot }) => ({ name, amount, unit, lot })),
      };
    });
  }
}

/** Who was there: the closing says it better than the plan, and a correction by the office says nothing of it. */
function workerOf(visit: VisitEntity, closings: readonly VisitClosingEntity[]): PersonId | null {
  const own = closings.find(({ visitId, record }) => visitId === visit.id && record.editedBecause === undefined);
  return own?.closedBy ?? visit.technicianId;
}

/** From arrival to leaving, as far as they are known: what the phone noted, else what the server did. [min] */
function stayMinutes(visit: VisitEntity, standing: readonly VisitClosingEntity[]): number | null {
  const { arrivedAt, leftAt } = mergedClosings(standing);
  const from = arrivedAt ?? visit.arrivedAt;
  const to = leftAt ?? visit.closedAt;
  if (from === null || to === null) return null;
  const minutes = Math.round(instantFrom(to).diff(instantFrom(from), 'minutes').minutes);
  return minutes > 0 && minutes <= LONGEST_STAY_MIN ? minutes : null;
}

function hoursOf(visits: readonly StatementVisit[]): VisitStatement['hoursByTechnician'] {
  const names = [...new Set(visits.map(({ technicianName }) => technicianName))].sort();
  return names.map((name) => {
    const own = visits.filter(({ technicianName }) => technicianName === name);
    return { name, visits: own.length, minutes: own.reduce((sum, { minutes }) => sum + minutes, 0) };
  });
}

function partsOf(visits: readonly StatementVisit[]): VisitStatement['parts'] {
  const sums = new Map<string, { name: string; amount: number; unit: string }>();
  for (const { name, amount, unit } of visits.flatMap(({ parts }) => parts)) {
    const key = `${name}\n${unit}`;
    const before = sums.get(key)?.amount ?? 0;
    sums.set(key, { name, unit, amount: Math.round((before + amount) * 1000) / 1000 });
  }
  return [...sums.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
}
