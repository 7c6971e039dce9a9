import { UnprocessableEntityException } from '@nestjs/common';
import type { z } from 'zod';

/** What was sent does not have the asked form; nothing was changed. */
export class InvalidFormError extends UnprocessableEntityException {
  readonly faults: readonly { readonly pointer: string; readonly detail: string }[];

  constructor(issues: readonly z.core.$ZodIssue[]) {
    super('Some fields cannot be used. Nothing was changed.');
    this.faults = issues.map((issue) => ({ pointer: `#/${issue.path.map(String).join('/')}`, detail: issue.message }));
  }
}
