export { CareTaskDateError, CareTaskNotFoundError, CareTaskStateError } from './care-calendar.errors.js';
export { CareCalendarModule } from './care-calendar.module.js';
export { CareCalendarService } from './care-calendar.service.js';
export { CareTaskEntity } from './care-task.entity.js';
export { type CareTaskView, effectiveDueOn, effectiveLatestOn } from './care-task-view.js';
export type { OutlookSummary } from './outlook-summary.js';
export { PlanLogEntity } from './plan-log.entity.js';
export { PlanOutcomeEntity } from './plan-outcome.entity.js';
export { FORECAST_DAYS, HORIZON_DAYS, type PlannedPond } from './pond-planner.service.js';
export type { CarePreview, ReplanAllReport, ReplanOptions } from './replanning.service.js';
export type { ActOptions, TaskDone } from './task-acts.service.js';
export type { DueQuery, ThisWeek } from './task-views.service.js';
export {
  type WhatIf,
  type WhatIfComparison,
  type YearAhead,
  YearAheadService,
  type YearSide,
} from './year-ahead.service.js';
