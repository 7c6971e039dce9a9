import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/index.js';
import { CareCalendarModule } from '../care-calendar/index.js';
import { PondsModule } from '../ponds/index.js';
import { VisitCareTasks } from './visit-care-tasks.js';
import { VisitClosings } from './visit-closings.js';
import { VisitNews } from './visit-news.js';
import { VisitPlanning } from './visit-planning.js';
import { VisitProposals } from './visit-proposals.js';
import { VisitRecords } from './visit-records.js';
import { VisitReports } from './visit-reports.js';
import { VisitsService } from './visits.service.js';

@Module({
  imports: [AccountsModule, PondsModule, CareCalendarModule],
  providers: [
    VisitCareTasks,
    VisitClosings,
    VisitNews,
    VisitPlanning,
    VisitProposals,
    VisitRecords,
    VisitReports,
    VisitsService,
  ],
  exports: [VisitsService, VisitNews],
})
export class VisitsModule {}
