import { type CareTaskView, effectiveLatestOn, type PlanOutcomeEntity } from '../../care-calendar/index.js';
import { taskTitle } from '../../core/care/explain.js';
import type { PondInputTyped, PondListRow, PondRecord, ReadingEntity } from '../../ponds/index.js';

/** A row of the list. */
export function pondSummaryJson({ pond, winterClass, contactName }: PondListRow) {
  const { id, name, ref, state, town, region, country, latitude, longitude, volumeL, careSince, version } = pond;
  return {
    id,
    name,
    ref: ref ?? null,
    state,
    town,
    region,
    country,
    latitude,
    longitude,
    volumeL,
    winterClass,
    contactName,
    careSince,
    version,
  };
}

/** A record: what was typed, in the form in which it may be sent back, and what follows from it. */
export function pondJson({ pond }: PondRecord, typed: PondInputTyped) {
  const {
    id,
    state,
    version,
    createdAt,
    updatedAt,
    archivedAt,
    volumeL,
    volumeMethod,
    volumeSigmaPct,
    surfaceAreaM2,
    meanDepthM,
    maxDepthM,
  } = pond;
  const computed = {
    volumeL,
    volumeMethod,
    volumeSigmaPct,
    surfaceAreaM2,
    meanDepthM,
    maxDepthM,
    winterClass: pond.winterClass ?? null,
  };
  return { id, state, version, createdAt, updatedAt, archivedAt, pond: typed, computed };
}

export function readingJson({ id, quantity, value, takenAt, takenBy, visitId, replacesId }: ReadingEntity) {
  return { id, quantity, value, takenAt, takenBy, visitId, replacesId };
}

/** The open tasks with window, reason and quantities, and why other rules give none. */
export function calendarJson(tasks: readonly CareTaskView[], outcome: PlanOutcomeEntity | null) {
  return {
    plannedOn: outcome?.plannedOn ?? null,
    tasks: tasks.map(({ task, rule, dueOn, isLate }) => ({
      id: task.id,
      ruleId: task.ruleId,
      cycle: task.cycle,
      title: taskTitle(task.planned, rule),
      doneBy: task.doneBy,
      consequence: task.consequence,
      earliestOn: task.earliestOn,
      dueOn,
      latestOn: effectiveLatestOn(task),
      isLate,
      isHeld: task.heldDueOn !== null,
      confidence: task.planned.confidence,
      reason: task.planned.reason,
      quantities: task.planned.quantities,
      minutes: task.planned.minutes,
    })),
    notDue: outcome?.notDue ?? [],
    findings: outcome?.findings ?? [],
  };
}
