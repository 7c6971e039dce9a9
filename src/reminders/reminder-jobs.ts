import { Injectable, type OnModuleInit } from '@nestjs/common';
import { type Firing, JobsService } from '../jobs/index.js';
import { MailDelivery } from './mail-delivery.service.js';
import { MailGuards } from './mail-guards.service.js';
import { ReminderSweep } from './reminder-sweep.service.js';

export const REMINDER_SWEEP_JOB = 'reminder-sweep';
export const MAIL_DELIVERY_JOB = 'mail-delivery';

/** The two recurring jobs of this folder; when they run stands in `config/jobs.yaml`. */
@Injectable()
export class ReminderJobs implements OnModuleInit {
  constructor(
    private readonly jobs: JobsService,
    private readonly sweep: ReminderSweep,
    private readonly delivery: MailDelivery,
    private readonly guards: MailGuards,
  ) {}

  onModuleInit(): void {
    this.jobs.register(REMINDER_SWEEP_JOB, (firing) => this.sweepReminders(firing));
    this.jobs.register(MAIL_DELIVERY_JOB, (firing) => this.deliverMail(firing));
  }

  async sweepReminders({ signal }: Pick<Firing, 'signal'>): Promise<string> {
    await this.guards.look();
    const { digests, urgent, nothingDue, failed, toCall } = await this.sweep.run({ signal });
    return `${digests} digests and ${urgent} urgent mails written, ${nothingDue} homeowners with nothing to do, ${toCall} to call, ${failed} failed`;
  }

  async deliverMail({ signal }: Pick<Firing, 'signal'>): Promise<string> {
    await this.guards.look();
    await this.guards.mark();
    const { sent, deferred, bounced, inDoubt, expired, dead } = await this.delivery.run({ signal });
    return `${sent} sent, ${deferred} put off, ${bounced} came back, ${inDoubt} in doubt, ${expired} too late, ${dead} unsendable`;
  }
}
