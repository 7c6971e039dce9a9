import { Inject, Injectable, type OnApplicationBootstrap, type OnApplicationShutdown } from '@nestjs/common';
import { type ScheduledTask, schedule, validate } from 'node-cron';
import { JOB_SCHEDULES, type JobSchedule, SETTINGS, type Settings, SettingsError } from '../config/index.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { AppLogger } from '../platform/logger.js';
import { type Claim, JobClaims } from './job-claims.js';
import { lastDueBefore } from './last-due.js';

/** One firing of a job. */
export interface Firing {
  /** Instant at which it was due, ISO 8601 UTC. */
  readonly dueAt: string;
  /** Aborts when the program stops: finish the piece at hand, leave the rest to the next firing. */
  readonly signal: AbortSignal;
}

/** Does what is due and not yet done, and says in a sentence what that was. It may be called twice for the same work. */
export type JobHandler = (firing: Firing) => Promise<string>;

const STALE_MINUTES = 10;
const SIGN_OF_LIFE_EVERY_MS = 60_000;
const LOOK_FOR_STALE_EVERY_MS = 5 * 60_000;
const KEPT_DAYS = 30;
/** A busy process may reach a firing late; up to this it still counts as that firing. */
const LATE_TOLERANCE_MS = 50_000;
const STOP_WITHIN_MS = 4_000;

/**
 * Fires the recurring jobs of `config/jobs.yaml`. Each due instant fires once over all processes on one database: the
 * first to write its row runs it. A process that dies in the middle leaves a stale claim, which another takes over after
 * ten minutes; firings missed while nothing ran are made up for by one run at start. Both can repeat work, so
 * handlers look for what is due instead of counting on the firing.
 */
@Injectable()
export class JobsService implements OnApplicationBootstrap, OnApplicationShutdown {
  private readonly claims: JobClaims;
  private readonly handlers = new Map<string, JobHandler>();
  private readonly tasks: ScheduledTask[] = [];
  private readonly turns = new Map<string, Promise<void>>();
  private readonly running = new Set<Promise<void>>();
  private readonly stopping = new AbortController();
  private staleTimer: NodeJS.Timeout | undefined;

  constructor(
    database: Database,
    private readonly clock: Clock,
    private readonly logger: AppLogger,
    @Inject(JOB_SCHEDULES) private readonly schedules: readonly JobSchedule[],
    @Inject(SETTINGS) private readonly settings: Pick<Settings, 'jobs'>,
  ) {
    this.claims = new JobClaims(database, clock);
  }

  /** Called by the feature that owns the job, before the application is up. */
  register(name: string, handler: JobHandler): void {
    if (this.handlers.has(name)) throw new Error(`The job ${name} has two handlers.`);
    this.handlers.set(name, handler);
  }

  onApplicationBootstrap(): void {
    if (this.settings.jobs) this.start();
  }

  /** @throws SettingsError when `config/jobs.yaml` names a job nobody handles, or a handler has no line there */
  start(): void {
    this.requirePairs();
    for (const job of this.schedules) {
      const task = schedule(job.schedule, ({ date }) => this.track(this.run(job.name, date)), {
        name: job.name,
        timezone: job.timeZone,
        noOverlap: true,
        unref: true,
        missedExecutionTolerance: LATE_TOLERANCE_MS,
        suppressMissedWarning: true,
      });
      this.tasks.push(task);
      this.track(this.makeUpFor(job.name, task));
    }
    this.staleTimer = setInterval(() => this.track(this.tidy()), LOOK_FOR_STALE_EVERY_MS);
    this.staleTimer.unref();
    this.track(this.tidy());
  }

  /** Runs one firing unless it has been taken; waits until it has ended. */
  async run(name: string, due: Date): Promise<void> {
    const runKey = `${name}:${due.toISOString()}`;
    const claim = await this.claims.take(runKey);
    if (claim) await this.inTurn(name, claim);
  }

  /** Takes over firings whose process died, and runs them again. */
  async runStale(): Promise<void> {
    for (const claim of await this.claims.takeStale(STALE_MINUTES)) {
      this.logger.warn(`${claim.runKey} was left unfinished and runs again`, 'jobs');
      await this.inTurn(splitKey(claim.runKey)[0], claim);
    }
  }

  /** Stops firing, tells running jobs to end, and waits for them for a few seconds. */
  async onApplicationShutdown(): Promise<void> {
    this.stopping.abort();
    clearInterval(this.staleTimer);
    for (const task of this.tasks.splice(0)) await task.destroy();
    let timer: NodeJS.Timeout | undefined;
    const limit = new Promise<void>((done) => {
      timer = setTimeout(done, STOP_WITHIN_MS);
    });
    await Promise.race([Promise.allSettled(this.running), limit]);
    clearTimeout(timer);
  }

  /** One run of a job at a time in this process; a failed one is noted and does not stop the next. */
  private inTurn(name: string, claim: Claim): Promise<void> {
    const turn = this.track((this.turns.get(name) ?? Promise.resolve()).then(() => this.perform(claim)));
    this.turns.set(name, turn);
    return turn;
  }

  private async perform(claim: Claim): Promise<void> {
    const [name, dueAt] = splitKey(claim.runKey);
    const handler = this.handlers.get(name);
    const alive = this.keepAlive(claim);
    try {
      if (!handler) throw new Error(`Nobody handles the job ${name} any more.`);
      const outcome = await handler({ dueAt, signal: this.stopping.signal });
      await this.claims.end(alive.stop(), 'finished', outcome);
      this.logger.info(`${claim.runKey}: ${outcome}`, 'jobs');
    } catch (error) {
      this.logger.error(error, claim.runKey, 'jobs');
      await this.claims.end(alive.stop(), 'failed', error instanceof Error ? error.message : String(error));
    }
  }

  private keepAlive(first: Claim): { stop(): Claim } {
    let claim = first;
    const timer = setInterval(async () => {
      try {
        claim = (await this.claims.renew(claim)) ?? claim;
      } catch (error) {
        this.logger.warn(error, 'jobs');
      }
    }, SIGN_OF_LIFE_EVERY_MS);
    timer.unref();
    return {
      stop: () => {
        clearInterval(timer);
        return claim;
      },
    };
  }

  /** The last due instant, if it passed while nothing ran. Only that one: the job catches up with everything itself. */
  private async makeUpFor(name: string, task: Pick<ScheduledTask, 'match'>): Promise<void> {
    if (!(await this.claims.hasEverRun(name))) return;
    const due = lastDueBefore(this.clock.now(), (at) => task.match(at));
    if (due) await this.run(name, due);
  }

  private async tidy(): Promise<void> {
    await this.runStale();
    await this.claims.dropOlderThan(KEPT_DAYS);
  }

  private track(work: Promise<void>): Promise<void> {
    const noted = work
      .catch((error: unknown) => this.logger.error(error, 'jobs'))
      .finally(() => this.running.delete(noted));
    this.running.add(noted);
    return noted;
  }

  private requirePairs(): void {
    const faults: string[] = [];
    for (const { name, schedule: pattern } of this.schedules) {
      if (!this.handlers.has(name)) {
        faults.push(`config/jobs.yaml: ${name} is not a job. Known are ${[...this.handlers.keys()].join(', ')}.`);
      }
      if (!validate(pattern)) {
        faults.push(
          `config/jobs.yaml, ${name}: schedule is ${JSON.stringify(pattern)}, which never comes. Check its five fields.`,
        );
      }
    }
    for (const name of this.handlers.keys()) {
      if (!this.schedules.some((job) => job.name === name)) {
        faults.push(`config/jobs.yaml: ${name} has no line, so it would never run. Give it a schedule.`);
      }
    }
    if (faults.length > 0) throw new SettingsError(faults);
  }
}

function splitKey(runKey: string): [name: string, dueAt: string] {
  const colon = runKey.indexOf(':');
  return [runKey.slice(0, colon), runKey.slice(colon + 1)];
}
