import { Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import { Database } from '../database/index.js';
import type { PersonId } from '../platform/ids.js';
import type { Place, Role } from './actor.js';
import { MembershipEntity } from './membership.entity.js';

/** Finds places that accounts cannot see, e.g. those of homeowners. */
export type PlaceSource = (personId: PersonId) => Promise<readonly Place[]>;

const ORDER: readonly Role[] = ['owner', 'office', 'technician', 'homeowner'];

/** Where a person may act: memberships, and what other features add. Asked at every request, so that an end is felt at once. */
@Injectable()
export class PlacesService {
  private readonly sources: PlaceSource[] = [];

  constructor(private readonly database: Database) {}

  /** Adds a source of `homeowner` places. Without any, a homeowner's session is trusted until it expires. */
  addSource(source: PlaceSource): void {
    this.sources.push(source);
  }

  /** The widest role first, then the company joined first. */
  async of(personId: PersonId): Promise<Place[]> {
    const memberships = await this.database
      .shared()
      .find(MembershipEntity, { personId, endedAt: IsNull() }, { createdAt: 'ASC', id: 'ASC' });
    const places: Place[] = memberships.map(({ memberOfCompanyId, role }) => ({ companyId: memberOfCompanyId, role }));
    for (const source of this.sources) places.push(...(await source(personId)));
    return places.sort((a, b) => ORDER.indexOf(a.role) - ORDER.indexOf(b.role));
  }

  async stillHolds(personId: PersonId, place: Place): Promise<boolean> {
    if (place.role === 'homeowner' && this.sources.length === 0) return true;
    const places = await this.of(personId);
    return places.some(({ companyId, role }) => companyId === place.companyId && role === place.role);
  }
}
