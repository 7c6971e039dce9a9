import { VisitReportPaperController } from './visit-report-paper.controller.js';
import { VisitReportPapers } from './visit-report-papers.service.js';

export const PAPER_CONTROLLERS = [VisitReportPaperController];
export const PAPER_PROVIDERS = [VisitReportPapers];

export { sendPaper } from './send-paper.js';
export { fileName, VisitReportPapers } from './visit-report-papers.service.js';
