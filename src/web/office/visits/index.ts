import { StatementController } from './statement.controller.js';
import { VisitRecordController } from './visit-record.controller.js';
import { VisitsController } from './visits.controller.js';

/** In this order: `/visits/plan` and `/visits/statement` must be known before `/visits/:visitId`. */
export const VISIT_CONTROLLERS = [StatementController, VisitsController, VisitRecordController];
