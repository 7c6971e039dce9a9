import { Column, Entity, PrimaryColumn } from 'typeorm';
import { idColumn, instantColumn, keyColumn, textColumn } from '../database/columns.js';
import type { PersonId } from '../platform/ids.js';

/**
 * Why no mail leaves. `paused`: a person wants it so. `restored`: the database is an older one than the last that sent
 * mail here. `clock`: the clock of the machine jumped.
 */
export type HoldReason = 'paused' | 'restored' | 'clock';

/** Mail of one company, or of all, is held until a person releases it. */
@Entity('mail_hold')
export class MailHoldEntity {
  /** Id of a company, or `service`. */
  @PrimaryColumn(keyColumn('scope'))
  scope!: string;

  @Column(textColumn('because'))
  because!: HoldReason;

  @Column(instantColumn('held_at'))
  heldAt!: string;

  @Column(idColumn('held_by', { nullable: true }))
  heldBy!: PersonId | null;
}
