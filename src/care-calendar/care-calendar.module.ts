import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/index.js';
import { ClimateModule } from '../climate/index.js';
import { JobsModule } from '../jobs/index.js';
import { PondsModule } from '../ponds/index.js';
import { CalendarStoreService } from './calendar-store.service.js';
import { CareCalendarService } from './care-calendar.service.js';
import { PlanningThreadsService } from './planning-threads.service.js';
import { PondPlannerService } from './pond-planner.service.js';
import { ReplanJob } from './replan-job.js';
import { ReplanningService } from './replanning.service.js';
import { TaskActsService } from './task-acts.service.js';
import { TaskViewsService } from './task-views.service.js';
import { YearAheadService } from './year-ahead.service.js';

@Module({
  imports: [AccountsModule, ClimateModule, JobsModule, PondsModule],
  providers: [
    CareCalendarService,
    CalendarStoreService,
    PlanningThreadsService,
    PondPlannerService,
    ReplanJob,
    ReplanningService,
    TaskActsService,
    TaskViewsService,
    YearAheadService,
  ],
  exports: [CareCalendarService, YearAheadService],
})
export class CareCalendarModule {}
