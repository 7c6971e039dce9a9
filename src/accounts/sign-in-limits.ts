import { TooManyAttemptsError } from './accounts.errors.js';

interface Limit {
  readonly most: number;
  readonly windowS: number;
}

/** Failures of one account from one address; of one address over all accounts; of one account over all addresses. */
const LIMITS = {
  accountFromAddress: { most: 5, windowS: 15 * 60 },
  address: { most: 20, windowS: 60 },
  // Wider, so that a stranger who fails on purpose does not lock the owner of the account out.
  account: { most: 50, windowS: 15 * 60 },
} as const satisfies Record<string, Limit>;
const MOST_KEYS = 50_000;

export interface SignInAttempt {
  readonly email: string;
  /** Network address of the visitor; empty where there is none. */
  readonly address: string;
  /** Milliseconds since 1970. */
  readonly atMs: number;
}

/**
 * Failed sign-ins in fixed windows, kept in memory: a restart forgets them, and each process counts for itself.
 * An attempt counts when it begins, so that a hundred at once are not all let through before the first has failed.
 */
export class SignInLimits {
  private readonly windows = new Map<string, { startedMs: number; count: number }>();

  /** @throws TooManyAttemptsError with the seconds until the window ends */
  begin(attempt: SignInAttempt): void {
    const keys = keysOf(attempt);
    const waits = keys.map(({ key, limit }) => this.waitS(key, limit, attempt.atMs));
    const waitS = Math.max(...waits);
    if (waitS > 0) throw new TooManyAttemptsError(Math.ceil(waitS));
    for (const { key } of keys) this.count(key, attempt.atMs);
  }

  /** The password was right: nothing of this attempt counts, and the pair of account and address starts anew. */
  succeeded(attempt: SignInAttempt): void {
    for (const { key, limit } of keysOf(attempt)) {
      const window = this.windows.get(key);
      if (!window) continue;
      if (limit === LIMITS.accountFromAddress) this.windows.delete(key);
      else window.count = Math.max(0, window.count - 1);
    }
  }

  private waitS(key: string, limit: Limit, atMs: number): number {
    const window = this.windows.get(key);
    if (!window) return 0;
    const leftS = limit.windowS - Math.abs(atMs - window.startedMs) / 1000;
    if (leftS <= 0) this.windows.delete(key);
    return window.count >= limit.most ? leftS : 0;
  }

  private count(key: string, atMs: number): void {
    const window = this.windows.get(key);
    if (window) {
      window.count++;
      return;
    }
    if (this.windows.size >= MOST_KEYS) this.windows.delete(this.windows.keys().next().value!); // the oldest
    this.windows.set(key, { startedMs: atMs, count: 1 });
  }
}

function keysOf({ email, address }: SignInAttempt): { key: string; limit: Limit }[] {
  const keys: { key: string; limit: Limit }[] = [
    { key: `pair ${email} ${address}`, limit: LIMITS.accountFromAddress },
    { key: `account ${email}`, limit: LIMITS.account },
  ];
  if (address !== '') keys.push({ key: `address ${address}`, limit: LIMITS.address });
  return keys;
}
