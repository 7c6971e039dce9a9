import type { VisitEntity, VisitState } from './visit.entity.js';
import { IllegalVisitStepError, VisitAlreadyClosedError } from './visits.errors.js';

/** From which states a step may be taken. Closing is not here: it is accepted from every state. */
const ALLOWED_FROM = {
  'be given to somebody': ['TENTATIVE', 'CONFIRMED'],
  'be moved': ['TENTATIVE', 'CONFIRMED'],
  'take on a task': ['TENTATIVE', 'CONFIRMED', 'IN-PROCESS'],
  'let go of a task': ['TENTATIVE', 'CONFIRMED', 'IN-PROCESS'],
  'be published': ['TENTATIVE'],
  'be set out for': ['CONFIRMED'],
  'be started': ['CONFIRMED'],
  'be cancelled': ['TENTATIVE', 'CONFIRMED', 'IN-PROCESS'],
  'be reopened': ['COMPLETED'],
  'be corrected': ['COMPLETED'],
} as const satisfies Readonly<Record<string, readonly VisitState[]>>;
export type VisitStep = keyof typeof ALLOWED_FROM;

/** States in which a visit still holds its tasks. */
export const OPEN_STATES: readonly VisitState[] = ['TENTATIVE', 'CONFIRMED', 'IN-PROCESS'];

export function mayTake(step: VisitStep, visit: Pick<VisitEntity, 'state'>): boolean {
  return (ALLOWED_FROM[step] as readonly VisitState[]).includes(visit.state);
}

/** @throws VisitAlreadyClosedError, IllegalVisitStepError */
export function requireStep(step: VisitStep, visit: VisitEntity): void {
  if (mayTake(step, visit)) return;
  if (visit.state === 'COMPLETED') throw new VisitAlreadyClosedError(visit.id, visit.closedAt ?? '');
  throw new IllegalVisitStepError(visit.id, visit.state, step, ALLOWED_FROM[step]);
}
