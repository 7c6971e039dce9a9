import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/index.js';
import { CareCalendarModule } from '../care-calendar/index.js';
import { PondsModule } from '../ponds/index.js';
import { CheckIns } from './check-ins.service.js';
import { PartsShelf } from './parts/parts-shelf.service.js';
import { DiskPhotoStore } from './photos/disk-photo-store.js';
import { PhotoStore } from './photos/photo-store.js';
import { VisitPhotos } from './photos/visit-photos.service.js';
import { VisitAttendance } from './visit-attendance.js';
import { VisitCareTasks } from './visit-care-tasks.js';
import { VisitClosings } from './visit-closings.js';
import { VisitCorrections } from './visit-corrections.js';
import { VisitLeavings } from './visit-leavings.js';
import { VisitNews } from './visit-news.js';
import { VisitPlanning } from './visit-planning.js';
import { VisitProposals } from './visit-proposals.js';
import { VisitRecords } from './visit-records.js';
import { VisitReports } from './visit-reports.js';
import { VisitSettings } from './visit-settings.service.js';
import { VisitStatements } from './visit-statement.service.js';
import { VisitTrail } from './visit-trail.js';
import { VisitsService } from './visits.service.js';

@Module({
  imports: [AccountsModule, PondsModule, CareCalendarModule],
  providers: [
    { provide: PhotoStore, useClass: DiskPhotoStore },
    CheckIns,
    PartsShelf,
    VisitAttendance,
    VisitCareTasks,
    VisitClosings,
    VisitCorrections,
    VisitLeavings,
    VisitNews,
    VisitPhotos,
    VisitPlanning,
    VisitProposals,
    VisitRecords,
    VisitReports,
    VisitSettings,
    VisitStatements,
    VisitTrail,
    VisitsService,
  ],
  exports: [CheckIns, PartsShelf, VisitLeavings, VisitNews, VisitPhotos, VisitSettings, VisitStatements, VisitsService],
})
export class VisitsModule {}
