import { type CompanyEntity, PeopleService, SessionsService } from '../../../src/accounts/index.js';
import { CareCalendarService } from '../../../src/care-calendar/index.js';
import { isoDateOf } from '../../../src/core/units/civil-day.js';
import { PondsService, ReadingsService } from '../../../src/ponds/index.js';
import { VisitsService } from '../../../src/visits/index.js';
import { bundledAssets } from '../../support/browser.js';
import { aPond } from '../../support/typed-pond.js';
import { webApp } from '../../support/web-app.js';

/** Work of one visit: with power off, a product to measure out, and a lamp to fit. */
const WORK = ['biological-media-rinse', 'part-water-change', 'uv-lamp-replacement'];

/** The whole program near the time of this machine, with the phone's scripts. Close it. */
export async function phoneBench() {
  const assets = await bundledAssets(
    ['round', 'visit', 'phone-worker'].map((name) => `src/web/technician/${name}.client.ts`),
  );
  // A browser's clock is a real one: the program's must be near it.
  const app = await webApp({ at: new Date().toISOString(), assets: assets.directory });
  const company = await app.company();
  const { personId } = await app
    .get(PeopleService)
    .addMember({ companyId: company.id, email: 'dana@example.com', name: 'Dana Ruiz', role: 'technician' });
  const { token } = await app.get(SessionsService).start(personId, company.id, 'technician');
  const today = isoDateOf(app.clock.today(company.timeZone));

  const aVisit = async (name: string, fromTime: string, toTime: string) => {
    const place = { town: 'Phoenix', region: 'AZ', latitude: 33.45, longitude: -112.07, elevationM: 331 };
    const pondId = await app.get(PondsService).create(
      company.id,
      aPond({
        ...{ name, ...place, gateCode: '4711#', accessNotes: 'Gate on the left, latch sticks.', careSince: today },
        hazards: 'Dog, friendly.',
        contacts: [{ name: 'Ida Brandt', role: 'homeowner', phone: '+1 (602) 555-0142', email: 'ida@example.com' }],
      } as never),
    );
    await addReadings(app.get(ReadingsService), company, pondId);
    const tasks = await app.get(CareCalendarService).tasksOf(company.id, pondId);
    const taskIds = WORK.flatMap((id) => tasks.find(({ rule }) => rule.id === id)?.task.id ?? []);
    const visits = app.get(VisitsService);
    const { visit } = await visits.create(company.id, {
      ...{ pondId, taskIds, plannedOn: today, fromTime, toTime, technicianId: personId },
    });
    await visits.publish(company.id, visit.id);
    return visit.id;
  };
  return {
    app,
    company,
    personId,
    token,
    /** A published visit of today at a pond of its own. */
    aVisit,
    history: (visitId: string) => app.get(VisitsService).history(company.id, visitId),
    async close(): Promise<void> {
      await app.close();
      await assets.remove();
    },
  };
}
export type PhoneBench = Awaited<ReturnType<typeof phoneBench>>;

async function addReadings(readings: ReadingsService, company: CompanyEntity, pondId: string): Promise<void> {
  const ago = (days: number) => new Date(Date.now() - days * 86_400_000).toISOString();
  await readings.add(company.id, pondId, [
    { quantity: 'ph', value: 7.6, takenAt: ago(60) },
    { quantity: 'ph', value: 7.5, takenAt: ago(40) },
    { quantity: 'ph', value: 7.4, takenAt: ago(20) },
    { quantity: 'water-temperature', value: 14, takenAt: ago(20) },
    { quantity: 'total-ammonia', value: 0.2, takenAt: ago(20) },
  ]);
}
