import { Column, Entity, PrimaryColumn } from 'typeorm';
import { dateColumn, idColumn, instantColumn, jsonColumn, keyColumn } from '../database/columns.js';
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

  @Column(instantColumn('created_at'))
  createdAt!: string;
}
