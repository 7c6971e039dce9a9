export { ACTUAL_RANGES, plannedActuals } from '../core/visits/task-actuals.js';
export { CheckInEntity } from './check-in.entity.js';
export { CheckIns, type OverdueCheckIn } from './check-ins.service.js';
export type { ClosingAnswer } from './closing-answer.js';
export { uuidOf } from './closing-identity.js';
export { type ClosingConflict, type MergedRecord, type MergedTask, mergedClosings } from './closing-merge.js';
export type {
  CloseVisit,
  ClosingFlag,
  ClosingRecord,
  FittedSerial,
  GivenDose,
  NotedFollowUp,
  TaskOutcome,
  UsedPart,
} from './closing-record.js';
export { PartsShelf, type ShelfPartInput } from './parts/parts-shelf.service.js';
export { ShelfPartEntity } from './parts/shelf-part.entity.js';
export { VisitPartEntity } from './parts/visit-part.entity.js';
export { type PhotoSize, PhotoStore } from './photos/photo-store.js';
export { LARGEST_PHOTO_BYTES, tooLarge } from './photos/prepared-picture.js';
export { VisitPhotoEntity } from './photos/visit-photo.entity.js';
export { VisitPhotos } from './photos/visit-photos.service.js';
export { VisitEntity, type VisitState } from './visit.entity.js';
export type { VisitChangeEntity, VisitChangeStep } from './visit-change.entity.js';
export { VisitClosingEntity } from './visit-closing.entity.js';
export type { CorrectedRecord } from './visit-corrections.js';
export { type BrokenWindow, brokenWindows, type VisitTimes } from './visit-days.js';
export { VisitFollowUpEntity } from './visit-follow-up.entity.js';
export { VisitLeavings } from './visit-leavings.js';
export type { VisitListQuery } from './visit-list.js';
export { VisitNews, type VisitNewsItems, type VisitNewsKind, type VisitNewsListener } from './visit-news.js';
export type { NewVisit, PlannedVisit } from './visit-planning.js';
export { MINUTES_PER_VISIT, type PondProposal, type ProposedVisit, SET_UP_MINUTES } from './visit-proposals.js';
export type { TaskOnVisit, TrailLine, VisitHistory, VisitListRow, VisitReport } from './visit-reports.js';
export { isOpenlyFlagged } from './visit-reports.js';
export { VisitSettings, type VisitWishes } from './visit-settings.service.js';
export { type StatementVisit, type VisitStatement, VisitStatements } from './visit-statement.service.js';
export { mayTake, type VisitStep } from './visit-states.js';
export { VisitTaskEntity } from './visit-task.entity.js';
export * from './visits.errors.js';
export { VisitsModule } from './visits.module.js';
export { VisitsService } from './visits.service.js';
