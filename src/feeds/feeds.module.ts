import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/index.js';
import { CareCalendarModule } from '../care-calendar/index.js';
import { PondsModule } from '../ponds/index.js';
import { VisitsModule } from '../visits/index.js';
import { CalendarFeedsService } from './calendar-feeds.service.js';

@Module({
  imports: [AccountsModule, PondsModule, CareCalendarModule, VisitsModule],
  providers: [CalendarFeedsService],
  exports: [CalendarFeedsService],
})
export class FeedsModule {}
