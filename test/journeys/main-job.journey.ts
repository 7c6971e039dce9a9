import assert from 'node:assert/strict';
import type { Browser, Page } from 'playwright-core';
import { type CompanyEntity, PeopleService, SessionsService } from '../../src/accounts/index.js';
import { CareCalendarService, type CareTaskView } from '../../src/care-calendar/index.js';
import { civilDay } from '../../src/core/units/civil-day.js';
import { type PondEntity, PondsService } from '../../src/ponds/index.js';
import { MailDelivery, ReminderSweep } from '../../src/reminders/index.js';
import { bundledAssets, openPage, startBrowser } from '../support/browser.js';
import { mailCatcher } from '../support/mail-catcher.js';
import { type WebApp, webApp } from '../support/web-app.js';
import type { Journey, Step } from './journey.js';

/** Three climates: severe winter, desert without frost, and the other half of the world. */
const PONDS_CSV = `pond_ref,pond_name,town,country,latitude,longitude,elevation_m,time_zone,outline,length_m,width_m,depth_kind,mean_depth_m,max_depth_m,direct_sun_hours,wind_shelter,trees_near,tap_source,tap_total_chlorine_mg_per_l,filled_on,stocked_on,care_since,contact_name,contact_role,contact_email,contact_digest_weekday,contact_digest_hour,contact_since,equipment_kind,equipment_name,equipment_installed_on,equipment_flow_l_per_h,equipment_media_l,stock_species,stock_count,stock_length_cm
P1,Lake Street pond,Madison,US,43.07,-89.40,262,America/Chicago,rectangle,5,3,average,1,1.3,9,suburban,yes,chloramine,1.8,2023-05-01,2023-07-01,2026-09-14,Ada Norling,homeowner,ada.norling@example.com,6,8,2026-09-14,pump,Filter pump,2025-05-01,16000,,koi,10,38
P1,,,,,,,,,,,,,,,,,,,,,,,,,,,,mechanical-filter,Foam chamber,2025-05-01,,60,,,
P1,,,,,,,,,,,,,,,,,,,,,,,,,,,,uv-lamp,UV unit,2024-05-01,,,,,
P2,Mesa pond,Phoenix,US,33.45,-112.07,331,America/Phoenix,rectangle,5,3,average,1,1.3,9,suburban,no,chlorine,1.1,2023-05-01,2023-07-01,2026-09-14,Bo Castell,homeowner,bo.castell@example.com,6,8,2026-09-14,pump,Filter pump,2025-05-01,16000,,koi,10,38
P3,Hills pond,Adelaide,AU,-34.93,138.60,48,Australia/Adelaide,rectangle,5,3,average,1,1.3,9,suburban,no,chlorine,1.0,2023-05-01,2023-07-01,2026-09-14,Cleo Marsh,homeowner,cleo.marsh@example.com,6,8,2026-09-14,pump,Filter pump,2025-05-01,16000,,koi,10,38
`;

/** From a list of ponds to mail, a visit, and a calendar that has learned: real database, mail server and browser. */
export const mainJob: Journey = {
  title: 'the main job',
  async go(step) {
    const post = await mailCatcher();
    const assets = await bundledAssets([
      'src/web/technician/round.client.ts',
      'src/web/technician/visit.client.ts',
      'src/web/office/ponds/import-progress.client.ts',
    ]);
    const app = await webApp({
      at: '2026-10-09T15:00:00Z',
      assets: assets.directory,
      environment: {
        TARNKEEP_SMTP_URL: `smtp://127.0.0.1:${post.port}`,
        TARNKEEP_MAIL_FROM_ADDRESS: 'care@example.com',
      },
    });
    let browser: Browser | null = null;
    try {
      browser = await startBrowser();
      await new MainJob(app, browser, post, await app.company()).go(step);
    } finally {
      await browser?.close();
      await app.close();
      await assets.remove();
      await post.close();
    }
  },
};

type Post = Awaited<ReturnType<typeof mailCatcher>>;
type Session = { readonly personId: string; readonly token: string };

class MainJob {
  private readonly calendar: CareCalendarService;
  private ponds: ReadonlyMap<PondEntity['ref'], PondEntity> = new Map();

  constructor(
    private readonly app: WebApp,
    private readonly browser: Browser,
    private readonly post: Post,
    private readonly company: CompanyEntity,
  ) {
    this.calendar = app.get(CareCalendarService);
  }

  async go(step: Step): Promise<void> {
    const office = await this.sessionOf('office', 'Marit Lindqvist');
    const technician = await this.sessionOf('technician', 'Dana Ruiz');
    const desk = await openPage(this.browser, {
      url: `${this.app.url}/ponds/import`,
      width: 1280,
      theme: 'light',
      session: office.token,
    });
    let pressed: CareTaskView | null = null;
    let planned: readonly CareTaskView[] = [];

    await step('a list of ponds comes in through the page', () => this.importPonds(desk));
    await step('each pond has the calendar of its own climate', () => this.compareClimates());
    await step('each homeowner gets one digest, at eight where they live', () => this.sweepThreeZones());
    await step('one press on "done" in the mail', async () => {
      pressed = await this.pressDone();
      return `${pressed.rule.title}, done on 2026-10-10`;
    });
    await step('the office plans and publishes a visit', async () => {
      planned = await this.planVisit(desk, office);
      return `${planned.length} tasks promised for 2026-10-12`;
    });
    await step('the technician closes it on a phone', () => this.closeVisit(technician));
    await step('the calendar counts from what was done', () => this.compareDates(planned, pressed as never));
    await step('the homeowner reads what was done', () => this.readReport());
  }

  private async importPonds(desk: Page): Promise<string> {
    await desk.setInputFiles('input[type=file]', {
      name: 'ponds.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(PONDS_CSV),
    });
    await desk.getByRole('button', { name: 'Check and import' }).click();
    await desk.getByText('Imported: 3 ponds added').waitFor();
    const { rows } = await this.app.get(PondsService).list(this.company.id);
    this.ponds = new Map(rows.map(({ pond }) => [pond.ref, pond]));
    assert.deepEqual([...this.ponds.keys()].sort(), ['P1', 'P2', 'P3']);
    return '3 ponds added';
  }

  private async compareClimates(): Promise<string> {
    await this.calendar.replanAll(this.company.id);
    const rulesOf = async (ref: string) => (await this.tasksOf(ref)).map(({ task }) => task.ruleId);
    const cold = await rulesOf('P1');
    for (const ruleId of ['winter-pump-shutdown', 'spring-start-up', 'feed-stop']) assert.ok(cold.includes(ruleId));
    for (const ref of ['P2', 'P3']) assert.ok(!(await rulesOf(ref)).includes('winter-pump-shutdown'), ref);
    const outcome = await this.calendar.outcomeOf(this.company.id, this.pondId('P2'));
    const why = outcome?.notDue.find(({ ruleId }) => ruleId === 'winter-pump-shutdown');
    assert.match(why?.because ?? '', /climate/);
    return `${cold.length} tasks in Madison; no pump shutdown in Phoenix (${why?.because}) and Adelaide`;
  }

  private async sweepThreeZones(): Promise<string> {
    await this.sweepAt('2026-10-09T22:00:00Z'); // Saturday 8:30 in Adelaide
    const first = this.post.mails.filter(({ mail }) => isDigest(mail)).map(({ to }) => to);
    assert.deepEqual(first, ['cleo.marsh@example.com']);
    await this.sweepAt('2026-10-10T13:05:00Z'); // Saturday 8:05 in Madison, 6:05 in Phoenix
    await this.sweepAt('2026-10-10T15:05:00Z'); // Saturday 8:05 in Phoenix
    await this.sweepAt('2026-10-10T15:20:00Z');
    assert.equal(this.post.to('bo.castell@example.com').filter(isDigest).length, 1);
    const digests = this.post.to('ada.norling@example.com').filter(isDigest);
    assert.equal(digests.length, 1);
    assert.equal(digests[0]?.headers.get('auto-submitted'), 'auto-generated');
    assert.ok(digests[0]?.text?.includes('40 Mill Race Row'));
    return `3 mails over SMTP; in Madison "${digests[0]?.subject}"`;
  }

  /** Looking at the page alone changes nothing. */
  private async pressDone(): Promise<CareTaskView> {
    const [digest] = this.post.to('ada.norling@example.com').filter(isDigest);
    const kitchen = await openPage(this.browser, { url: `${this.app.url}/sign-in`, width: 390, theme: 'light' });
    for (const url of linksTo(digest?.text ?? '', '/l/task-done/')) {
      // The mail names the public address; this program listens on a port of its own.
      await kitchen.goto(url.replace(/^https?:\/\/[^/]+/, this.app.url));
      if (/residual-current/.test((await kitchen.locator('h1').textContent()) ?? '')) break;
    }
    const tasks = await this.tasksOf('P1');
    const before = tasks.find(({ task }) => task.ruleId === 'residual-current-test');
    assert.ok(before, `no open task residual-current-test among ${tasks.map(({ task }) => task.ruleId).join(', ')}`);
    assert.equal(before.task.state, 'NEEDS-ACTION');
    await kitchen.getByRole('button', { name: 'Yes, it is done' }).click();
    await kitchen.getByText(/done/i).first().waitFor();
    const { task } = await this.calendar.task(this.company.id, before.task.id);
    assert.deepEqual([task.state, task.finishedOn], ['COMPLETED', '2026-10-10']);
    return before;
  }

  private async planVisit(desk: Page, office: Session): Promise<CareTaskView[]> {
    // An office session ends after two hours without a request, and the clock has been moved.
    const { token } = await this.app.get(SessionsService).start(office.personId, this.company.id, 'office');
    await desk.context().addCookies([{ name: 'tarnkeep_session', value: token, url: this.app.url }]);
    await desk.goto(`${this.app.url}/visits/plan?pond=${this.pondId('P1')}`);
    const form = desk.locator('form.plan-visit').first();
    await form.getByLabel('Day', { exact: true }).fill('2026-10-12');
    await form.getByLabel('Who goes').selectOption({ label: 'Dana Ruiz' });
    await form.getByRole('button', { name: 'Plan and publish' }).click();
    await desk.waitForLoadState();
    const planned = (await this.tasksOf('P1')).filter(({ task }) => task.visitId !== null);
    assert.ok(planned.length > 0);
    for (const { task } of planned) assert.equal(task.promisedOn, '2026-10-12');
    return planned;
  }

  private async closeVisit(technician: Session): Promise<string> {
    this.app.clock.set('2026-10-12T14:00:00Z');
    const phone = await openPage(this.browser, {
      url: `${this.app.url}/my-round`,
      width: 390,
      theme: 'light',
      session: technician.token,
    });
    await phone.getByRole('link', { name: /Open the visit/ }).click();
    const boxes = await phone.locator('ul.check input[type=checkbox]').all();
    for (const box of boxes) await box.check();
    await phone.getByLabel('Water', { exact: true }).fill('58.6');
    await phone.getByLabel('pH', { exact: true }).fill('7.8');
    await phone.getByLabel('Total ammonia, as N').fill('0.1');
    await phone.locator('textarea[name=note]').fill('Net frame holds. Fish lively.');
    const widthPx = await phone.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(widthPx <= 390, `${widthPx} px wide`);
    await phone.getByRole('button', { name: 'Close the visit' }).click();
    await phone.locator('#sent').getByText('All sent').waitFor();
    return `${boxes.length} tasks ticked at ${widthPx} px, 3 readings`;
  }

  private async compareDates(planned: readonly CareTaskView[], pressed: CareTaskView): Promise<string> {
    const open = await this.tasksOf('P1');
    const outcome = await this.calendar.outcomeOf(this.company.id, this.pondId('P1'));
    assert.equal(outcome?.plannedOn, '2026-10-12');
    const next = (ruleId: string) => open.find(({ task }) => task.ruleId === ruleId);
    const said: string[] = [];
    for (const { task } of planned) {
      const closed = await this.calendar.task(this.company.id, task.id);
      assert.deepEqual([closed.task.state, closed.task.finishedOn], ['COMPLETED', '2026-10-12']);
      const following = next(task.ruleId);
      if (!following) continue;
      assert.notEqual(following.task.cycle, task.cycle);
      assert.ok(civilDay(following.task.dueOn) > civilDay('2026-10-12'));
      assert.ok(following.task.planned.reason.inputs.length > 0);
      said.push(`${task.ruleId} ${following.task.dueOn}`);
    }
    assert.ok(said.length > 0);
    const again = next(pressed.task.ruleId);
    assert.notEqual(again?.task.cycle, pressed.task.cycle);
    assert.equal(again?.task.dueOn, '2026-11-09'); // thirty days after it was really done
    return `${pressed.task.ruleId} 2026-11-09; ${said.join('; ')}`;
  }

  private async readReport(): Promise<string> {
    await this.app.get(MailDelivery).run();
    const report = this.post
      .to('ada.norling@example.com')
      .find((mail) => !isDigest(mail) && /Fish lively/.test(mail.text ?? ''));
    assert.ok(report?.text?.includes('7.8'));
    return `"${report?.subject}"`;
  }

  private async sweepAt(instant: string): Promise<void> {
    this.app.clock.set(instant);
    await this.app.get(ReminderSweep).run();
    await this.app.get(MailDelivery).run();
  }

  private async sessionOf(role: 'office' | 'technician', name: string): Promise<Session> {
    const email = `${name.split(' ')[0]?.toLowerCase()}@example.com`;
    const member = await this.app.get(PeopleService).addMember({ companyId: this.company.id, email, name, role });
    const { token } = await this.app.get(SessionsService).start(member.personId, this.company.id, role);
    return { personId: member.personId, token };
  }

  private tasksOf(ref: string): Promise<CareTaskView[]> {
    return this.calendar.tasksOf(this.company.id, this.pondId(ref));
  }

  private pondId(ref: string): string {
    const pond = this.ponds.get(ref);
    assert.ok(pond, `pond ${ref}`);
    return pond.id;
  }
}

const isDigest = (mail: { text?: string | undefined }): boolean => /, week of \d/.test(mail.text ?? '');

function linksTo(text: string, path: string): string[] {
  const urls = text.split(/\s+/).filter((word) => word.includes(path));
  if (urls.length === 0) throw new Error(`No link to ${path} in the mail:\n${text}`);
  return urls;
}
