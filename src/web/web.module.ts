import { type MiddlewareConsumer, Module, type NestModule } from '@nestjs/common';
import { APP_FILTER, APP_GUARD } from '@nestjs/core';
import { AccountsModule } from '../accounts/index.js';
import { CareCalendarModule } from '../care-calendar/index.js';
import { ClimateModule } from '../climate/index.js';
import { FeedsModule } from '../feeds/index.js';
import { PondsModule } from '../ponds/index.js';
import { RemindersModule } from '../reminders/index.js';
import { VisitsModule } from '../visits/index.js';
import { PondsApiController } from './api/ponds-api.controller.js';
import { SessionApiController } from './api/session-api.controller.js';
import { CheckInController } from './check-in/check-in.controller.js';
import { FEED_CONTROLLERS } from './feeds/index.js';
import { HOMEOWNER_CONTROLLERS, HOMEOWNER_PROVIDERS } from './homeowner/index.js';
import { HOW_IT_IS_COMPUTED_CONTROLLERS, HOW_IT_IS_COMPUTED_PROVIDERS } from './how-it-is-computed/index.js';
import { MailReportsController } from './mail-reports/mail-reports.controller.js';
import { MESSAGES_CONTROLLERS } from './office/messages/index.js';
import { OFFICE_CONTROLLERS, OFFICE_PROVIDERS } from './office/office-pages.js';
import { VISIT_CONTROLLERS } from './office/visits/index.js';
import { HANDOVER_CONTROLLERS, HANDOVER_PROVIDERS, PAPER_CONTROLLERS, PAPER_PROVIDERS } from './papers/index.js';
import { PHOTO_CONTROLLERS } from './photos/index.js';
import { AccessGuard } from './shell/access.guard.js';
import { DomainErrorFilter } from './shell/domain-error.filter.js';
import { FormTokenGuard } from './shell/form-token.guard.js';
import { SessionMiddleware } from './shell/session.middleware.js';
import { DemoLinkController } from './sign-in/demo-link.controller.js';
import { FirstAccountController } from './sign-in/first-account.controller.js';
import { SignInController } from './sign-in/sign-in.controller.js';
import { TECHNICIAN_CONTROLLERS, TECHNICIAN_PROVIDERS } from './technician/index.js';

/** All pages and the JSON API. Each person's folder says which controllers it has. */
@Module({
  imports: [AccountsModule, ClimateModule, PondsModule, CareCalendarModule, VisitsModule, RemindersModule, FeedsModule],
  controllers: [
    SignInController,
    DemoLinkController,
    FirstAccountController,
    ...FEED_CONTROLLERS,
    ...HOMEOWNER_CONTROLLERS,
    ...MESSAGES_CONTROLLERS,
    ...VISIT_CONTROLLERS,
    ...TECHNICIAN_CONTROLLERS,
    ...PHOTO_CONTROLLERS,
    ...PAPER_CONTROLLERS,
    ...HANDOVER_CONTROLLERS,
    CheckInController,
    MailReportsController,
    PondsApiController,
    SessionApiController,
    ...HOW_IT_IS_COMPUTED_CONTROLLERS,
    ...OFFICE_CONTROLLERS,
  ],
  providers: [
    ...HOMEOWNER_PROVIDERS,
    ...PAPER_PROVIDERS,
    ...HANDOVER_PROVIDERS,
    ...TECHNICIAN_PROVIDERS,
    ...HOW_IT_IS_COMPUTED_PROVIDERS,
    ...OFFICE_PROVIDERS,
    { provide: APP_GUARD, useClass: AccessGuard },
    { provide: APP_GUARD, useClass: FormTokenGuard },
    { provide: APP_FILTER, useClass: DomainErrorFilter },
  ],
})
export class WebModule implements NestModule {
  configure(consumer: MiddlewareConsumer): void {
    consumer.apply(SessionMiddleware).forRoutes('{*path}');
  }
}
