import { Column, Entity, PrimaryColumn } from 'typeorm';
import { flagColumn, instantColumn, keyColumn, textColumn } from '../database/columns.js';

/** The service business: the unit of isolation. */
@Entity('company')
export class CompanyEntity {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  @Column(textColumn('name'))
  name!: string;

  @Column(textColumn('postal_address'))
  postalAddress!: string;

  @Column(textColumn('reply_to_email'))
  replyToEmail!: string;

  @Column(textColumn('phone'))
  phone!: string;

  @Column(textColumn('units'))
  units!: 'us' | 'metric';

  @Column(textColumn('time_zone'))
  timeZone!: string;

  /** Product of `config/products/` that doses are printed for. */
  @Column(textColumn('dechlorinator_id'))
  dechlorinatorId!: string;

  /** Who does an `either` rule where a pond's agreement says nothing. */
  @Column(textColumn('default_done_by'))
  defaultDoneBy!: 'company' | 'homeowner';

  @Column(flagColumn('is_demo'))
  isDemo!: boolean;

  @Column(instantColumn('created_at'))
  createdAt!: string;
}
