import { FormConclusionsService } from './ponds/form/form-conclusions.service.js';
import { PondFormController } from './ponds/form/pond-form.controller.js';
import { HappenedController } from './ponds/happened/happened.controller.js';
import { LeakTestController } from './ponds/leak-test/leak-test.controller.js';
import { PondPageController } from './ponds/page/pond-page.controller.js';
import { PondPageDataService } from './ponds/page/pond-page-data.service.js';
import { PondTaskActsController } from './ponds/page/task-acts.controller.js';
import { PondImportController } from './ponds/pond-import.controller.js';
import { PondListController } from './ponds/pond-list.controller.js';
import { WhatIfController } from './ponds/what-if/what-if.controller.js';
import { ReportWishController } from './settings/report-wish.controller.js';
import { SettingsController } from './settings/settings.controller.js';
import { VisitAttentionController } from './week/visit-attention.controller.js';
import { WeekController } from './week/week.controller.js';
import { WeekVisitsService } from './week/week-visits.service.js';

/** The office's pages of ponds, week and settings. `ponds/:pondId` comes last: it would take `ponds/new` for an id. */
export const OFFICE_CONTROLLERS = [
  WeekController,
  VisitAttentionController,
  ReportWishController,
  PondListController,
  PondImportController,
  PondFormController,
  PondTaskActsController,
  LeakTestController,
  HappenedController,
  WhatIfController,
  PondPageController,
  SettingsController,
];
export const OFFICE_PROVIDERS = [WeekVisitsService, FormConclusionsService, PondPageDataService];
