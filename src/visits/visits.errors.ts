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

export class ShelfPartNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor(readonly partId: string) {
    super(`There is no part ${partId} on this shelf. It may belong to another company.`);
  }
}

export class FollowUpNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor(readonly followUpId: string) {
    super(`There is no follow-up ${followUpId} here. It may belong to another company.`);
  }
}

export class CheckInNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor(readonly checkInId: string) {
    super(`There is no check-in time ${checkInId} here. It may belong to another company.`);
  }
}

export class PhotoNotFoundError extends DomainError {
  readonly code = 'not-found';

  constructor(readonly photoId: string) {
    super(`There is no photo ${photoId} on this visit. It may have been removed.`);
  }
}

/** A picture that cannot be kept, and what to do instead. */
export class PhotoRefusedError extends DomainError {
  readonly code: `photo-${'too-large' | 'kind' | 'unreadable' | 'id-taken'}`;

  constructor(
    readonly because: 'too-large' | 'kind' | 'unreadable' | 'id-taken',
    sentence: string,
  ) {
    super(`${sentence} Nothing was kept.`);
    this.code = `photo-${because}`;
  }
}

/** No room left where photos are kept. */
export class PhotoStoreFullError extends DomainError {
  readonly code = 'storage-full';

  constructor() {
    super(
      'There is no room left for photos. The photo stays on the phone; send it again when the office has made room.',
    );
  }
}
