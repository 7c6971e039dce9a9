import { type INestApplicationContext } from '@nestjs/common';
import { CompaniesService } from '../accounts/index.js';
import { instantFrom, instantText } from '../platform/clock.js';
import { MailDelivery, MailGuards, ReminderSweep, type SweepOutcome } from '../reminders/index.js';
import { COMPANY_OPTION, readOptions, SETTINGS_OPTIONS } from './options.js';
import { Progress } from './progress.js';
import { type Command, CommandError, type Terminal, UsageError } from './terminal.js';
import { chosenCompany, withServices } from './with-services.js';

const OPTIONS = {
  ...SETTINGS_OPTIONS,
  ...COMPANY_OPTION,
  'as-of': { type: 'string' },
  'dry-run': { type: 'boolean', default: false },
} as const;

export const command: Command = {
  help: `tarnkeep remind [--as-of INSTANT] [--dry-run] [--company ID] [--data DIR]

Writes the mails that are due into the outbox, one for each homeowner, and delivers them. It may be called at any time:
nobody is reminded twice of the same. Without --company for every company.

  --dry-run         writes and sends nothing; prints what would go
  --as-of INSTANT   as if it were then, e.g. 2027-04-01T13:00:00Z; outside the demo only with --dry-run

Example: tarnkeep remind --as-of 2027-04-01T13:00:00Z --dry-run
`,
  async run(words, terminal) {
    const { values } = readOptions('remind', words, OPTIONS);
    const asOf = values['as-of'] === undefined ? undefined : instantOf(values['as-of']);
    const dryRun = values['dry-run'];
    return withServices(terminal, values, async (services) => {
      const companyId = values.company === undefined ? undefined : (await chosenCompany(services, values.company)).id;
      if (asOf !== undefined && !dryRun) await requireDemo(services, companyId);
      if (!dryRun) await services.get(MailGuards, { strict: false }).look();
      const progress = new Progress(terminal);
      const outcome = await services.get(ReminderSweep, { strict: false }).run({
        ...(asOf !== undefined && { asOf }),
        ...(companyId !== undefined && { companyId }),
        dryRun,
        onProgress: ({ done, total }) => progress.show('Homeowners looked at', done, total),
      });
      progress.end();
      tell(outcome, dryRun, terminal);
      if (!dryRun) await deliver(services, terminal);
      return outcome.failed > 0 ? 1 : 0;
    });
  },
};

function instantOf(text: string): string {
  try {
    return instantText(instantFrom(text));
  } catch {
    throw new UsageError(
      `--as-of: ${text} is not an instant. Write a date and time in UTC, e.g. 2027-04-01T13:00:00Z.`,
    );
  }
}

/** A mail "as of" another time would tell real people wrong dates. */
async function requireDemo(services: INestApplicationContext, companyId: string | undefined): Promise<void> {
  const all = await services.get(CompaniesService, { strict: false }).all();
  const swept = companyId === undefined ? all : all.filter((company) => company.id === companyId);
  const real = swept.find((company) => !company.isDemo);
  if (real) {
    throw new CommandError(
      `${real.name} is not the demo, so --as-of goes only with --dry-run: its homeowners would read wrong dates.`,
    );
  }
}

function tell(outcome: SweepOutcome, dryRun: boolean, terminal: Terminal): void {
  for (const mail of dryRun ? outcome.mails : []) {
    terminal.out(`To: ${mail.toName} <${mail.toAddress}>\nSubject: ${mail.subject}\n\n${mail.plainText}\n\n`);
  }
  const { digests, urgent, nothingDue, toCall, failed } = outcome;
  const verb = dryRun ? 'would be written' : 'written';
  const line = `${digests} digests and ${urgent} urgent mails ${verb}, ${nothingDue} homeowners with nothing to do, ${toCall} to call, ${failed} failed.\n`;
  if (dryRun) terminal.err(line);
  else terminal.out(line);
}

async function deliver(services: INestApplicationContext, terminal: Terminal): Promise<void> {
  await services.get(MailGuards, { strict: false }).mark();
  const { sent, deferred, bounced, inDoubt, expired, dead } = await services
    .get(MailDelivery, { strict: false })
    .run({});
  terminal.out(
    `${sent} sent, ${deferred} put off, ${bounced} came back, ${inDoubt} in doubt, ${expired} too late, ${dead} unsendable.\n`,
  );
}
