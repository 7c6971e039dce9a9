import { Column, Entity, PrimaryColumn } from 'typeorm';
import { integerColumn, keyColumn } from '../database/columns.js';

/** How often mail has been delivered from this database; the same number stands in a file beside it. */
@Entity('mail_mark')
export class MailMarkEntity {
  @PrimaryColumn(keyColumn('name'))
  name!: 'delivery';

  @Column(integerColumn('runs'))
  runs!: number;
}
