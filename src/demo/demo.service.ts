import { Inject, Injectable } from '@nestjs/common';
import { DateTime } from 'luxon';
import { CompaniesService, type CompanyEntity, LinksService, PeopleService } from '../accounts/index.js';
import { CareCalendarService } from '../care-calendar/index.js';
import { SETTINGS, type Settings } from '../config/index.js';
import { Database } from '../database/index.js';
import type { DemoLoader, DemoSignIn } from '../demo-loader.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, type PersonId } from '../platform/ids.js';
import { PondContactEntity, PondEntity, PondRecordsService, PondWriterService, readPondInput } from '../ponds/index.js';
import { ReminderSweep } from '../reminders/index.js';
import { DemoHistory, type DemoRecord } from './demo-history.service.js';
import { demoPondInput } from './demo-pond-input.js';
import { DEMO_PLACES, DEMO_PONDS, type DemoPlace } from './demo-ponds.js';
import { DemoVisits } from './demo-visits.service.js';

const OFFICE = { email: 'office@example.com', name: 'Marit Lindqvist', role: 'owner' as const };
const CREW: readonly { place: DemoPlace; email: string; name: string; phone: string; skills: string[] }[] = [
  { place: 'madison', email: 'dana@example.com', name: 'Dana Ruiz', phone: '555-0101', skills: ['pumps and pipework'] },
  {
    place: 'phoenix',
    email: 'theo@example.com',
    name: 'Theo Amsel',
    phone: '555-0102',
    skills: ['pumps and pipework'],
  },
  {
    place: 'seattle',
    email: 'june@example.com',
    name: 'June Okada',
    phone: '555-0103',
    skills: ['pumps and pipework'],
  },
];
/** Whose page the homeowner link opens. */
const SHOWN_FAMILY = 'Haugen';
const SIGN_IN_DAYS = 30;

/** The demo company: invented people and ponds in three real places, stored, planned and reminded like any other. */
@Injectable()
export class DemoService implements DemoLoader {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly companies: CompaniesService,
    private readonly people: PeopleService,
    private readonly links: LinksService,
    private readonly writer: PondWriterService,
    private readonly records: PondRecordsService,
    private readonly calendar: CareCalendarService,
    private readonly history: DemoHistory,
    private readonly visits: DemoVisits,
    private readonly sweep: ReminderSweep,
    @Inject(SETTINGS) private readonly settings: Settings,
  ) {}

  async isLoaded(): Promise<boolean> {
    return (await this.company()) !== null;
  }

  async load(onProgress: (step: string) => void): Promise<void> {
    const past = this.history.begin();
    onProgress('Loading the demo: thirty ponds and a year of their history.');
    // In one unit of work: a start that is interrupted leaves no half demo behind.
    await this.database.unitOfWork('load the demo', async () => {
      const company = await this.companies.create({
        name: 'Sedge & Kettle',
        postalAddress: '40 Mill Race Row\nMadison, WI 53703\nUSA',
        replyToEmail: 'office@example.com',
        phone: '555-0100',
        units: 'us',
        timeZone: 'America/Chicago',
        defaultDoneBy: 'homeowner',
        isDemo: true,
      });
      const crew = await this.addCrew(company.id);
      await this.history.store(company, await this.addPonds(company), crew, past);
      await this.planAll(company.id);
      await this.visits.plan(company.id, crew);
      await this.sweep.run({ companyId: company.id, asOf: lastSaturdayMorning(this.clock.now()) });
    });
  }

  async signIns(): Promise<readonly DemoSignIn[]> {
    const company = await this.company();
    if (!company) return [];
    const members = await this.people.membersOf(company.id);
    const signIn = async (who: string, email: string) => {
      const personId = members.find((member) => member.email === email)?.personId ?? null;
      const token = await this.links.issue({
        purpose: 'demo-sign-in',
        companyId: company.id,
        personId,
        objectId: company.id,
        expiresAt: this.clock.now().plus({ days: SIGN_IN_DAYS }).toISO(),
      });
      return { who, url: `${this.settings.publicUrl}/l/demo-sign-in/${token}` };
    };
    return [
      await signIn('Office', OFFICE.email),
      await signIn('Technician', CREW[0]?.email ?? ''),
      await this.homeownerLink(company.id),
    ];
  }

  private async planAll(companyId: CompanyId): Promise<void> {
    const [fault] = (await this.calendar.replanAll(companyId)).failed;
    if (fault) throw new Error(`The demo pond ${fault.pondId} cannot be planned: ${fault.reason}`);
  }

  private async homeownerLink(companyId: CompanyId): Promise<DemoSignIn> {
    const contact = await this.database
      .company(companyId)
      .select(PondContactEntity, 'contact')
      .and('contact.name LIKE :name', { name: `% ${SHOWN_FAMILY}` })
      .rows();
    const { pondId = '', personId = null } = contact[0] ?? {};
    const token = await this.links.issue({
      purpose: 'my-pond',
      companyId,
      personId,
      objectId: pondId,
      expiresAt: null,
    });
    return { who: 'Homeowner', url: `${this.settings.publicUrl}/l/my-pond/${token}` };
  }

  private async company(): Promise<CompanyEntity | null> {
    return (await this.companies.all()).find((company) => company.isDemo) ?? null;
  }

  private async addCrew(companyId: CompanyId): Promise<ReadonlyMap<DemoPlace, PersonId>> {
    await this.people.addHashed({ companyId, ...OFFICE }, null);
    const crew = new Map<DemoPlace, PersonId>();
    for (const { place, ...technician } of CREW) {
      const member = await this.people.addHashed({ companyId, role: 'technician', ...technician }, null);
      crew.set(place, member.personId);
    }
    return crew;
  }

  private async addPonds(company: CompanyEntity): Promise<DemoRecord[]> {
    const typed = DEMO_PONDS.map((pond, place) => {
      const today = this.clock.today(DEMO_PLACES[pond.place].timeZone);
      return {
        id: newId(this.clock.now().toMillis()),
        pond,
        place,
        today,
        input: readPondInput(demoPondInput(pond, place, today)),
      };
    });
    const personIds = new Map<string, PersonId>();
    for (const { input } of typed) {
      for (const { email, name, phone } of input.contacts) {
        if (email !== null) personIds.set(email, (await this.people.ensurePerson({ email, name, phone })).id);
      }
    }
    await this.writer.insert(company.id, typed, personIds);
    const stored = await this.database.company(company.id).find(PondEntity);
    const records = new Map((await this.records.of(company.id, stored)).map((record) => [record.pond.id, record]));
    return typed.flatMap(({ id, pond, place, today }) => {
      const record = records.get(id);
      return record ? [{ record, pond, place, today }] : [];
    });
  }
}

/** The hour at which most digests of the demo went out last. */
function lastSaturdayMorning(now: DateTime<true>): string {
  const daysBack = (now.weekday + 1) % 7;
  return now.minus({ days: daysBack }).set({ hour: 18, minute: 0, second: 0, millisecond: 0 }).toUTC().toISO();
}
