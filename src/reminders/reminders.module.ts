import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/index.js';
import { CareCalendarModule } from '../care-calendar/index.js';
import { SETTINGS, type Settings } from '../config/index.js';
import { JobsModule } from '../jobs/index.js';
import { PondsModule } from '../ponds/index.js';
import { VisitsModule } from '../visits/index.js';
import { AskedTasks } from './asked-tasks.service.js';
import { BouncesService } from './bounces.service.js';
import { CareWords } from './care-words.service.js';
import { ComingDays } from './coming-days.service.js';
import { DigestComposer } from './digest-composer.service.js';
import { FreshLinks } from './fresh-links.service.js';
import { HomeownerLinks } from './homeowner-links.service.js';
import { HomeownerWords } from './homeowner-words.service.js';
import { HomeownersService } from './homeowners.service.js';
import { MailDelivery, RETRY_SPREAD, type RetrySpread } from './mail-delivery.service.js';
import { MailGuards } from './mail-guards.service.js';
import { MailHolds } from './mail-holds.service.js';
import { MailPreview } from './mail-preview.service.js';
import { MailWishesService } from './mail-wishes.service.js';
import { OutboxService } from './outbox.service.js';
import { ReminderJobs } from './reminder-jobs.js';
import { ReminderSweep } from './reminder-sweep.service.js';
import { ReportHolds } from './report-holds.service.js';
import { SeasonNotes } from './season-notes.service.js';
import { TaskAnswers } from './task-answers.service.js';
import { MailTransport, NoMailServer } from './transport/mail-transport.js';
import { SmtpTransport } from './transport/smtp-transport.js';
import { UrgentDue } from './urgent-due.service.js';
import { VisitNoticeMails } from './visit-notice.service.js';
import { VisitReportMails } from './visit-report.service.js';

const SERVICES = [
  AskedTasks,
  BouncesService,
  CareWords,
  ComingDays,
  DigestComposer,
  FreshLinks,
  HomeownerLinks,
  HomeownersService,
  HomeownerWords,
  MailDelivery,
  MailGuards,
  MailHolds,
  MailPreview,
  MailWishesService,
  OutboxService,
  ReminderSweep,
  SeasonNotes,
  TaskAnswers,
  UrgentDue,
  VisitNoticeMails,
  ReportHolds,
  VisitReportMails,
];

@Module({
  imports: [AccountsModule, JobsModule, PondsModule, CareCalendarModule, VisitsModule],
  providers: [
    ...SERVICES,
    ReminderJobs,
    {
      provide: MailTransport,
      inject: [SETTINGS],
      useFactory: ({ smtp, mailFrom, dkim, bounces }: Settings): MailTransport =>
        smtp === null ? new NoMailServer() : new SmtpTransport(smtp, mailFrom.address, { dkim, bounces }),
    },
    { provide: RETRY_SPREAD, useValue: Math.random satisfies RetrySpread },
  ],
  exports: SERVICES,
})
export class RemindersModule {}
