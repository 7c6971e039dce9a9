import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/index.js';
import { CareCalendarModule } from '../care-calendar/index.js';
import { ClimateModule } from '../climate/index.js';
import { DEMO_LOADER } from '../demo-loader.js';
import { PondsModule } from '../ponds/index.js';
import { RemindersModule } from '../reminders/index.js';
import { VisitsModule } from '../visits/index.js';
import { DemoService } from './demo.service.js';
import { DemoHistory } from './demo-history.service.js';
import { DemoVisits } from './demo-visits.service.js';

@Module({
  imports: [AccountsModule, ClimateModule, PondsModule, CareCalendarModule, VisitsModule, RemindersModule],
  providers: [DemoHistory, DemoVisits, { provide: DEMO_LOADER, useClass: DemoService }],
  exports: [DEMO_LOADER],
})
export class DemoModule {}
