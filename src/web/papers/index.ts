import { HandoverPackController } from './handover-pack.controller.js';
import { HandoverPacks } from './handover-packs.service.js';
import { VisitReportPaperController } from './visit-report-paper.controller.js';
import { VisitReportPapers } from './visit-report-papers.service.js';

export const PAPER_CONTROLLERS = [VisitReportPaperController];
export const PAPER_PROVIDERS = [VisitReportPapers];

/** Apart from the others: it asks the office's pond page for its figures. */
export const HANDOVER_CONTROLLERS = [HandoverPackController];
export const HANDOVER_PROVIDERS = [HandoverPacks];

export { sendPaper } from './send-paper.js';
export { fileName, VisitReportPapers } from './visit-report-papers.service.js';
