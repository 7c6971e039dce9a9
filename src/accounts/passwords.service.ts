import { Injectable } from '@nestjs/common';
import { hash, verify } from '@node-rs/argon2';
import { UnusablePasswordError } from './accounts.errors.js';
import { commonness } from './common-passwords.js';

/** argon2id with 19 MiB, two passes, one lane: the least the OWASP password storage cheat sheet advises. */
const PARAMETERS = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;
const PARAMETERS_IN_HASH = '$m=19456,t=2,p=1$';
/** Each hash takes 19 MiB; without a bound fifty sign-ins at once would take a gigabyte. */
const MOST_AT_ONCE = 4;
const LENGTH = { min: 8, max: 256 } as const;
/** Of a random text that nobody kept: an unknown address costs the same time as a known one. */
const NOBODYS_HASH =
  '$argon2id$v=19$m=19456,t=2,p=1$EUKTLh83ua5IBYF7B2mOOQ$LUFfvuzR3SLPmXEAOfNECgDWQ9VV/7PUlfPLcEjvN3Y';

@Injectable()
export class PasswordsService {
  private running = 0;
  private readonly waiting: (() => void)[] = [];

  /** @param ownAddress mail address of the person, which must not make up the password. @throws UnusablePasswordError */
  async hash(password: string, ownAddress: string): Promise<string> {
    requireUsable(password, ownAddress);
    return this.inTurn(() => hash(password, PARAMETERS));
  }

  /** Whether the password fits; with no stored hash it takes as long and answers no. */
  async verify(stored: string | null, password: string): Promise<boolean> {
    if (password.length > LENGTH.max) return false;
    const fits = await this.inTurn(() => verify(stored ?? NOBODYS_HASH, password));
    return stored !== null && fits;
  }

  /** Whether a stored hash was made with weaker parameters than today's. */
  isOutdated(stored: string): boolean {
    return !stored.startsWith('$argon2id$') || !stored.includes(PARAMETERS_IN_HASH);
  }

  /** A hash of a password that has just proved right, made with today's parameters and no further questions. */
  rehash(password: string): Promise<string> {
    return this.inTurn(() => hash(password, PARAMETERS));
  }

  private async inTurn<T>(work: () => Promise<T>): Promise<T> {
    if (this.running >= MOST_AT_ONCE) await new Promise<void>((go) => this.waiting.push(go));
    else this.running++;
    try {
      return await work();
    } finally {
      const next = this.waiting.shift();
      if (next) next();
      else this.running--;
    }
  }
}

function requireUsable(password: string, ownAddress: string): void {
  if (password.length < LENGTH.min || password.length > LENGTH.max) {
    throw new UnusablePasswordError(`Choose ${LENGTH.min} to ${LENGTH.max} characters; any sign counts.`);
  }
  const reason = commonness(password, ownAddress);
  if (reason)
    throw new UnusablePasswordError(`${reason} Choose another; four or five words in a row are easy to keep.`);
}
