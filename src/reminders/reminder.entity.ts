import { Column, Entity, PrimaryColumn } from 'typeorm';
import type { WaterSeason } from '../core/care/water-season.js';
import { dateColumn, idColumn, instantColumn, jsonColumn, keyColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PersonId } from '../platform/ids.js';

/** That a person was reminded of these tasks by that mail; written in one transaction with it. */
@Entity('reminder')
export class ReminderEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('person_id'))
  personId!: PersonId;

  @Column(dateColumn('digest_on'))
  digestOn!: string;

  @Column(jsonColumn('task_ids'))
  taskIds!: string[];

  @Column(idColumn('outbox_id'))
  outboxId!: string;

  /** The season of the water it was written in; null where no note of the season was thought of. */
  @Column(textColumn('season', { nullable: true }))
  season!: WaterSeason | null;

  @Column(instantColumn('created_at'))
  createdAt!: string;
}
