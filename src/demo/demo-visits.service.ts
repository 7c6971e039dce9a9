import { Injectable } from '@nestjs/common';
import { addDays, type CivilDay, isoDateOf } from '../core/units/civil-day.js';
import type { CompanyId, PersonId } from '../platform/ids.js';
import { PondsService } from '../ponds/index.js';
import { VisitsService } from '../visits/index.js';
import { DEMO_PLACES, type DemoPlace } from './demo-ponds.js';

const VISITS_PER_DAY = 4;
const DAYS_AHEAD = 12;

/** Plans the coming visits of the demo: today's rounds are published, the later ones wait for the office. */
@Injectable()
export class DemoVisits {
  constructor(
    private readonly ponds: PondsService,
    private readonly visits: VisitsService,
  ) {}

  async plan(companyId: CompanyId, crew: ReadonlyMap<DemoPlace, PersonId>): Promise<void> {
    const placeOfPond = new Map<string, DemoPlace>();
    const { rows } = await this.ponds.list(companyId, { pageSize: 100 });
    for (const { pond } of rows) {
      const place = (Object.keys(DEMO_PLACES) as DemoPlace[]).find((key) => DEMO_PLACES[key].town === pond.town);
      if (place) placeOfPond.set(pond.id, place);
    }
    const taken = new Map<string, number>();
    for (const proposal of await this.visits.proposalsFor(companyId)) {
      const place = placeOfPond.get(proposal.pond.id);
      const technicianId = place && crew.get(place);
      const first = proposal.visits[0];
      if (!place || !technicianId || !first) continue;
      const { today } = proposal;
      const day = this.freeDay(place, today, first.dueWindow.earliest, taken);
      if (day === null) continue;
      const hour = 8 + 2 * ((taken.get(`${place} ${day}`) ?? 1) - 1);
      const { visit } = await this.visits.create(companyId, {
        pondId: proposal.pond.id,
        taskIds: first.taskIds,
        plannedOn: isoDateOf(day),
        fromTime: `${String(hour).padStart(2, '0')}:00`,
        toTime: `${String(hour + 2).padStart(2, '0')}:00`,
        technicianId,
      });
      if (day <= today + 1) await this.visits.publish(companyId, visit.id);
    }
  }

  /** The first day of the coming fortnight, not before the tasks open, on which the technician has room. */
  private freeDay(place: DemoPlace, today: CivilDay, earliest: CivilDay, taken: Map<string, number>): CivilDay | null {
    for (let day = Math.max(today, earliest) as CivilDay; day <= today + DAYS_AHEAD; day = addDays(day, 1)) {
      const key = `${place} ${day}`;
      const count = taken.get(key) ?? 0;
      if (count >= VISITS_PER_DAY) continue;
      taken.set(key, count + 1);
      return day;
    }
    return null;
  }
}
