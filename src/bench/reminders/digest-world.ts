import { CompaniesService } from '../../accounts/index.js';
import { CareCalendarService } from '../../care-calendar/index.js';
import { FixedClock } from '../../platform/clock.js';
import type { CompanyId } from '../../platform/ids.js';
import { PondImportService } from '../../ponds/index.js';
import { ReminderSweep } from '../../reminders/index.js';
import { pondFile } from '../pond-file.js';
import { digestServices } from './digest-services.js';

/** A Thursday: the ponds come in, and their calendars are made. */
const IMPORTED_AT = '2026-10-01T12:00:00.000Z';
/** The Saturday after, when it is past eight in the morning at all of them. */
export const DIGESTS_DUE_AT = '2026-10-03T16:30:00.000Z';

export interface DigestWorld {
  readonly companyId: CompanyId;
  /** Digests that are due, by the sweep itself in a dry run. */
  readonly due: number;
}

/** Fills a folder with a company whose homeowners do what either may do, each with one pond. */
export async function makeDigestWorld(
  directory: string,
  homeowners: number,
  say: (sentence: string) => void,
): Promise<DigestWorld> {
  const clock = FixedClock.at(IMPORTED_AT);
  const services = await digestServices({ directory, smtpPort: 9, clock });
  try {
    const get = <T>(service: abstract new (...parts: never[]) => T): T =>
      services.app.get(service, { strict: false }) as T;
    const company = await get(CompaniesService).create({
      name: 'Bench',
      postalAddress: '12 Mill Lane, Madison',
      timeZone: 'America/Chicago',
      units: 'us',
      defaultDoneBy: 'homeowner',
    });
    say(`Entering ${homeowners} ponds …`);
    const imported = await get(PondImportService).importCsv(company.id, {
      fileName: 'ponds.csv',
      text: pondFile(homeowners),
    });
    if (imported.report.pondsAdded !== homeowners) throw new Error('Not every pond came in.');
    say('Planning their care …');
    const planned = await get(CareCalendarService).replanAll(company.id);
    if (planned.failed.length > 0) throw new Error(`A pond could not be planned: ${planned.failed[0]?.reason}`);
    clock.set(DIGESTS_DUE_AT);
    say('Counting the digests that are due …');
    const { digests } = await get(ReminderSweep).run({ dryRun: true });
    return { companyId: company.id, due: digests };
  } finally {
    await services.close();
  }
}
