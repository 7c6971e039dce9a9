import { DomainError } from '../core/errors.js';

/** One answer for an unknown address, a wrong password, a disabled person and one without a place anywhere. */
export class SignInRefusedError extends DomainError {
  readonly code = 'sign-in-refused';

  constructor() {
    super('The address or the password is not right. Check both and try again.');
  }
}

export class TooManyAttemptsError extends DomainError {
  readonly code = 'too-many-attempts';

  constructor(readonly retryAfterS: number) {
    super(`There were too many tries to sign in. Try again in ${waitText(retryAfterS)}.`);
  }
}

/** A password that must not be taken. Never carries the password. */
export class UnusablePasswordError extends DomainError {
  readonly code = 'unusable-password';

  constructor(reason: string) {
    super(`password: it cannot be used. ${reason}`);
  }
}

export class PersonNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor(readonly personId: string) {
    super(`There is no person ${personId} here.`);
  }
}

export class CompanyNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor(readonly companyId: string) {
    super(`There is no company ${companyId} here.`);
  }
}

export class AlreadyMemberError extends DomainError {
  readonly code = 'already-member';

  constructor(readonly email: string) {
    super(`email: ${email} already belongs to this company. Change that member instead of adding another.`);
  }
}

/** The last account owner must stay: nobody else may add people. */
export class LastOwnerError extends DomainError {
  readonly code = 'last-owner';

  constructor() {
    super('This is the only account owner of the company. Make somebody else account owner first.');
  }
}

export class FirstAccountExistsError extends DomainError {
  readonly code = 'first-account-exists';

  constructor() {
    super('This installation already has its first account. Sign in with it.');
  }
}

function waitText(seconds: number): string {
  const minutes = Math.ceil(seconds / 60);
  return minutes > 1 ? `${minutes} minutes` : `${Math.ceil(seconds)} seconds`;
}
