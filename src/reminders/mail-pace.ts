/** How fast mail may leave. Null: as fast as it goes. */
export interface MailPaceLimits {
  /** Mails of one company. [1/s] */
  readonly perCompanyPerSecond: number | null;
  /** Mails to addresses at one host, all companies together. [1/min] */
  readonly perHostPerMinute: number | null;
}

export const NO_PACE: MailPaceLimits = { perCompanyPerSecond: null, perHostPerMinute: null };

/** What may leave at once after a pause. [s of the rate] */
const BURST_SECONDS = 5;
const LONGEST_WAIT_MS = 5_000;
const SHORTEST_WAIT_MS = 50;

/**
 * Keeps mail to a rate, so that a backlog is no flood: a bucket for each company and for each receiving host, filled by
 * time that only goes forward. Each process keeps its own.
 */
export class MailPace {
  private readonly companies: Buckets | null;
  private readonly hosts: Buckets | null;

  /** @param nowMs Milliseconds of a clock that is never set back. */
  constructor(limits: MailPaceLimits, nowMs: () => number) {
    const { perCompanyPerSecond, perHostPerMinute } = limits;
    this.companies = perCompanyPerSecond === null ? null : new Buckets(perCompanyPerSecond, nowMs);
    this.hosts = perHostPerMinute === null ? null : new Buckets(perHostPerMinute / 60, nowMs);
  }

  /** How many mails of a company may leave now. */
  allowedFor(companyId: string): number {
    return this.companies === null ? Number.POSITIVE_INFINITY : Math.floor(this.companies.level(companyId));
  }

  allowsHost(host: string): boolean {
    return this.hosts === null || this.hosts.level(host) >= 1;
  }

  /** Hosts that get no more for now. */
  fullHosts(): string[] {
    return this.hosts?.empty() ?? [];
  }

  spend(companyId: string, host: string): void {
    this.companies?.take(companyId);
    this.hosts?.take(host);
  }

  /** How long until something may leave again. [ms] */
  waitMs(): number {
    const waits = [this.companies?.waitMs() ?? 0, this.hosts?.waitMs() ?? 0];
    return Math.min(LONGEST_WAIT_MS, Math.max(SHORTEST_WAIT_MS, ...waits));
  }
}

/** The receiving host of an address, in small letters. */
export function hostOf(address: string): string {
  return address.slice(address.lastIndexOf('@') + 1).toLowerCase();
}

class Buckets {
  private readonly levels = new Map<string, { level: number; atMs: number }>();
  private readonly capacity: number;

  constructor(
    private readonly perSecond: number,
    private readonly nowMs: () => number,
  ) {
    this.capacity = Math.max(1, perSecond * BURST_SECONDS);
  }

  level(key: string): number {
    const found = this.levels.get(key);
    if (!found) return this.capacity;
    const level = found.level + ((this.nowMs() - found.atMs) / 1000) * this.perSecond;
    if (level < this.capacity) return level;
    this.levels.delete(key);
    return this.capacity;
  }

  take(key: string): void {
    this.levels.set(key, { level: this.level(key) - 1, atMs: this.nowMs() });
  }

  empty(): string[] {
    return [...this.levels.keys()].filter((key) => this.level(key) < 1);
  }

  /** Until the first of the empty ones has one again. [ms] */
  waitMs(): number {
    const missing = this.empty().map((key) => 1 - this.level(key));
    return missing.length === 0 ? 0 : (Math.min(...missing) / this.perSecond) * 1000;
  }
}
