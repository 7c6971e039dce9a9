import { Column, Entity, PrimaryColumn } from 'typeorm';
import { instantColumn, keyColumn, textColumn } from '../database/columns.js';

/** One email address. What they may do comes from memberships and from being a contact of ponds. */
@Entity('person')
export class PersonEntity {
  @PrimaryColumn(keyColumn('id'))
  id!: string;

  /** Lower case, trimmed. */
  @Column(textColumn('email'))
  email!: string;

  @Column(textColumn('name'))
  name!: string;

  @Column(textColumn('phone'))
  phone!: string;

  @Column(textColumn('language'))
  language!: string;

  @Column(textColumn('units', { nullable: true }))
  units!: 'us' | 'metric' | null;

  /** argon2id, or none for a homeowner who never signed in. */
  @Column(textColumn('password_hash', { nullable: true }))
  passwordHash!: string | null;

  @Column(instantColumn('disabled_at', { nullable: true }))
  disabledAt!: string | null;

  @Column(instantColumn('created_at'))
  createdAt!: string;
}
