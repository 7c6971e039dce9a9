import { VisitRecordController } from './visit-record.controller.js';
import { VisitsController } from './visits.controller.js';

/** In this order: `/visits/plan` must be known before `/visits/:visitId`. */
export const VISIT_CONTROLLERS = [VisitsController, VisitRecordController];
