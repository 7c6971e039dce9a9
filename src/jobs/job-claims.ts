import { IsNull, LessThan, Like, Not } from 'typeorm';
import { Database } from '../database/index.js';
import { type Clock, instantText } from '../platform/clock.js';
import { JobRunEntity } from './job-run.entity.js';

/** A firing that this process has taken on. `claimedAt` is its fencing mark: it moves on when another takes over. */
export interface Claim {
  readonly runKey: string;
  readonly claimedAt: string;
}

const LONGEST_OUTCOME = 2000;

/** The rows by which each due instant of a job fires once, however many processes run. */
export class JobClaims {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  /** Takes a firing, or answers null when another process or an earlier run has it. */
  async take(runKey: string): Promise<Claim | null> {
    const claimedAt = this.clock.instant();
    const row: JobRunEntity = { runKey, state: 'claimed', claimedAt, finishedAt: null, outcome: '' };
    try {
      await this.database.unitOfWork(`claim ${runKey}`, () => this.database.shared().insert(JobRunEntity, row));
      return { runKey, claimedAt };
    } catch (error) {
      if (Database.isUniqueViolation(error)) return null;
      throw error;
    }
  }

  /** Says that a long run is still alive. Null: the claim was taken over, and the run must not be noted as this one's. */
  async renew(claim: Claim): Promise<Claim | null> {
    const claimedAt = this.clock.instant();
    return (await this.change(claim, { claimedAt })) ? { ...claim, claimedAt } : null;
  }

  /** Notes how a run ended; false when another process has taken it over meanwhile. */
  async end(claim: Claim, state: 'finished' | 'failed', outcome: string): Promise<boolean> {
    const finishedAt = this.clock.instant();
    return this.change(claim, { state, finishedAt, outcome: outcome.slice(0, LONGEST_OUTCOME) });
  }

  /** Takes over what has been claimed for longer than `staleMinutes` without a sign of life. */
  async takeStale(staleMinutes: number): Promise<Claim[]> {
    const before = instantText(this.clock.now().minus({ minutes: staleMinutes }));
    const stale = await this.database.shared().find(JobRunEntity, { state: 'claimed', claimedAt: LessThan(before) });
    const taken: Claim[] = [];
    for (const { runKey, claimedAt } of stale) {
      const claim = await this.renew({ runKey, claimedAt });
      if (claim) taken.push(claim);
    }
    return taken;
  }

  /** Whether a job has run here before: if not, there is nothing it could have missed. */
  async hasEverRun(name: string): Promise<boolean> {
    return (await this.database.shared().count(JobRunEntity, { runKey: Like(`${name}:%`) })) > 0;
  }

  /** Drops what has ended more than `days` ago; answers how many rows. */
  async dropOlderThan(days: number): Promise<number> {
    const before = instantText(this.clock.now().minus({ days }));
    return this.database.unitOfWork('drop old job runs', () =>
      this.database.shared().remove(JobRunEntity, { state: Not('claimed'), finishedAt: LessThan(before) }),
    );
  }

  private async change(claim: Claim, change: Partial<JobRunEntity>): Promise<boolean> {
    const changed = await this.database.unitOfWork(`note ${claim.runKey}`, () =>
      this.database.shared().update(JobRunEntity, { ...claim, state: 'claimed', finishedAt: IsNull() }, change),
    );
    return changed === 1;
  }
}
