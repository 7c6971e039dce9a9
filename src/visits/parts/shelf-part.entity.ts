import { Column, Entity, PrimaryColumn } from 'typeorm';
import {
  idColumn,
  instantColumn,
  integerColumn,
  jsonColumn,
  keyColumn,
  numberColumn,
  textColumn,
} from '../../database/columns.js';
import type { CompanyOwned } from '../../database/rows.js';
import type { CompanyId } from '../../platform/ids.js';

/** A part or product on the company's shelf. */
@Entity('shelf_part')
export class ShelfPartEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(textColumn('name'))
  name!: string;

  /** The company's own number for it; may be empty. */
  @Column(textColumn('part_ref'))
  partRef!: string;

  /** What it is counted in: piece, g, L, m. */
  @Column(textColumn('unit'))
  unit!: string;

  /** How many are there; null where nobody counts. */
  @Column(numberColumn('on_hand', { nullable: true }))
  onHand!: number | null;

  /** From order to shelf. [days] */
  @Column(integerColumn('lead_days'))
  leadDays!: number;

  /** Care rules whose work needs it. */
  @Column(jsonColumn('rule_ids'))
  ruleIds!: readonly string[];

  @Column(instantColumn('archived_at', { nullable: true }))
  archivedAt!: string | null;

  @Column(instantColumn('created_at'))
  createdAt!: string;
}
