import { Column, Entity, PrimaryColumn } from 'typeorm';
import type { Species } from '../core/care/pond-facts.js';
import { idColumn, integerColumn, keyColumn, numberColumn, textColumn } from '../database/columns.js';
import type { CompanyOwned } from '../database/rows.js';
import type { CompanyId, PondId } from '../platform/ids.js';

/** Fish or turtles of one species and about one length. */
@Entity('stock_group')
export class StockGroupEntity implements CompanyOwned {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(idColumn('company_id'))
  companyId!: CompanyId;

  @Column(idColumn('pond_id'))
  pondId!: PondId;

  @Column(textColumn('species'))
  species!: Species;

  @Column(integerColumn('head_count'))
  headCount!: number;

  @Column(numberColumn('length_cm'))
  lengthCm!: number;
}
