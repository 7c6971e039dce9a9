import { type DynamicModule, Module } from '@nestjs/common';
import { AccountsModule } from './accounts/index.js';
import { CareCalendarModule } from './care-calendar/index.js';
import { ClimateModule } from './climate/index.js';
import { DemoModule } from './demo/demo.module.js';
import { FeedsModule } from './feeds/index.js';
import { type Foundation, foundationModule } from './foundation.js';
import { JobsModule } from './jobs/index.js';
import { PondsModule } from './ponds/index.js';
import { RemindersModule } from './reminders/index.js';
import { VisitsModule } from './visits/index.js';

/** Everything but the web: what the command line works with. */
@Module({
  imports: [
    AccountsModule,
    JobsModule,
    ClimateModule,
    PondsModule,
    CareCalendarModule,
    VisitsModule,
    RemindersModule,
    FeedsModule,
    DemoModule,
  ],
})
export class ServicesModule {}

export function servicesModule(foundation: Foundation): DynamicModule {
  return { module: ServicesModule, imports: [foundationModule(foundation)] };
}
