import { DomainError } from '../core/errors.js';
import type { VisitId } from '../platform/ids.js';
import type { VisitState } from './visit.entity.js';

/** No such visit in this company; also what a stranger to the company is told. */
export class VisitNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor(readonly visitId: VisitId) {
    super(`There is no visit ${visitId} here. It may belong to another company, or the address was cut short.`);
  }
}

export class VisitAlreadyClosedError extends DomainError {
  readonly code = 'visit-already-closed';

  constructor(
    readonly visitId: VisitId,
    readonly closedAt: string,
  ) {
    super(`This visit was closed at ${closedAt}. Reopen it before changing it.`);
  }
}

const STATE_WORDS: Readonly<Record<VisitState, string>> = {
  TENTATIVE: 'planned',
  CONFIRMED: 'confirmed',
  'IN-PROCESS': 'under way',
  COMPLETED: 'done',
  CANCELLED: 'cancelled',
};

/** A step this state does not allow. */
export class IllegalVisitStepError extends DomainError {
  readonly code = 'visit-state';

  constructor(
    readonly visitId: VisitId,
    readonly state: VisitState,
    step: string,
    allowedFrom: readonly VisitState[],
  ) {
    const allowed = allowedFrom.map((one) => STATE_WORDS[one]).join(' or ');
    super(`This visit is ${STATE_WORDS[state]}. Only a visit that is ${allowed} can ${step}. Nothing was changed.`);
  }
}

/** Somebody else changed the visit since the page was opened. */
export class VisitChangedMeanwhileError extends DomainError {
  readonly code = 'stale-version';

  constructor(
    readonly visitId: VisitId,
    readonly expectedVersion: number,
    readonly currentVersion: number,
  ) {
    super(
      `This visit was changed by somebody else after you opened it (version ${expectedVersion}, now ${currentVersion}). ` +
        'Nothing of yours was saved: look at it as it stands now and repeat the step.',
    );
  }
}

/** A task that cannot be taken on a visit, and why. */
export class TaskNotPlannableError extends DomainError {
  readonly code = 'task-not-plannable';

  constructor(
    readonly taskId: string,
    readonly because: 'unknown' | 'other-pond' | 'homeowner' | 'finished' | 'on-another-visit',
  ) {
    super(`Task ${taskId} cannot go on this visit: ${TASK_REASONS[because]}`);
  }
}

const TASK_REASONS: Readonly<Record<TaskNotPlannableError['because'], string>> = {
  unknown: 'there is no such task here.',
  'other-pond': 'it belongs to another pond. A visit is at one pond.',
  homeowner: 'the homeowner does it. Change the care agreement first.',
  finished: 'it is done or cancelled already.',
  'on-another-visit': 'it is on another visit that is still open. Take it off there first.',
};

/** An id made on a phone that already names something else. */
export class ClosingIdTakenError extends DomainError {
  readonly code = 'closing-id-taken';

  constructor(readonly closingId: string) {
    super(
      `Closing ${closingId} cannot be kept: an id in it already names something else. Nothing was saved; ` +
        'send it again with new ids.',
    );
  }
}
