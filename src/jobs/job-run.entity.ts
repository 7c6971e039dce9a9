import { Column, Entity, PrimaryColumn } from 'typeorm';
import { instantColumn, keyColumn, textColumn } from '../database/columns.js';

/** One firing of a recurring job: the key is unique, so each due instant fires once. */
@Entity('job_run')
export class JobRunEntity {
  @PrimaryColumn(keyColumn('run_key'))
  runKey!: string;

  @Column(textColumn('state'))
  state!: 'claimed' | 'finished' | 'failed';

  @Column(instantColumn('claimed_at'))
  claimedAt!: string;

  @Column(instantColumn('finished_at', { nullable: true }))
  finishedAt!: string | null;

  @Column(textColumn('outcome'))
  outcome!: string;
}
