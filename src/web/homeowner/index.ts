import { FreshLinkController } from './fresh-link.controller.js';
import { MyPondController } from './my-pond.controller.js';
import { MyPondReader } from './my-pond.reader.js';
import { OpenedLinks } from './opened-link.service.js';
import { StopMailController } from './stop-mail.controller.js';
import { TaskLinkController } from './task-link.controller.js';
import { VisitAnswerController } from './visit-answer.controller.js';
import { VisitReportLinkController } from './visit-report.controller.js';

/** Pages behind signed links. */
export const HOMEOWNER_CONTROLLERS = [
  TaskLinkController,
  MyPondController,
  StopMailController,
  VisitReportLinkController,
  VisitAnswerController,
  FreshLinkController,
];
export const HOMEOWNER_PROVIDERS = [OpenedLinks, MyPondReader];

export { goTo, linkPage, sendLinkPage } from './link-page.js';
export { OpenedLinks } from './opened-link.service.js';
export { UnknownLinkFilter } from './unknown-link.filter.js';
