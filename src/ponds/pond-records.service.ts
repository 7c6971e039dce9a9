import { Injectable } from '@nestjs/common';
import { In, IsNull } from 'typeorm';
import { Database } from '../database/index.js';
import type { CompanyId } from '../platform/ids.js';
import { AgreementTermEntity } from './agreement-term.entity.js';
import { byPond } from './by-pond.js';
import { EquipmentEntity } from './equipment.entity.js';
import type { PondEntity } from './pond.entity.js';
import { PondContactsService } from './pond-contacts.service.js';
import type { PondRecord } from './pond-record.js';
import { StockGroupEntity } from './stock-group.entity.js';

/** Whole pond records, few or many at a time, with four queries for all of them. */
@Injectable()
export class PondRecordsService {
  constructor(
    private readonly database: Database,
    private readonly contacts: PondContactsService,
  ) {}

  /** Records in the order of the ponds given. At most some hundred at a time: databases limit a list of keys. */
  async of(companyId: CompanyId, ponds: readonly PondEntity[]): Promise<PondRecord[]> {
    if (ponds.length === 0) return [];
    const store = this.database.company(companyId);
    const pondIds = ponds.map(({ id }) => id);
    const pondId = In(pondIds);
    const equipment = await store.find(EquipmentEntity, {
      where: { pondId, removedOn: IsNull() },
      order: { kind: 'ASC', name: 'ASC', id: 'ASC' },
    });
    const stock = await store.find(StockGroupEntity, {
      where: { pondId },
      order: { species: 'ASC', lengthCm: 'DESC', headCount: 'ASC', id: 'ASC' },
    });
    const agreement = await store.find(AgreementTermEntity, {
      where: { pondId },
      order: { ruleId: 'ASC', fromOn: 'ASC', id: 'ASC' },
    });
    const contacts = await this.contacts.of(companyId, pondIds);

    const groups = {
      equipment: byPond(equipment),
      stock: byPond(stock),
      agreement: byPond(agreement),
      contacts: byPond(contacts),
    };
    return ponds.map((pond) => ({
      pond,
      equipment: groups.equipment.get(pond.id) ?? [],
      stock: groups.stock.get(pond.id) ?? [],
      agreement: groups.agreement.get(pond.id) ?? [],
      contacts: groups.contacts.get(pond.id) ?? [],
    }));
  }
}
