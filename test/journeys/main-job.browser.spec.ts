import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { PeopleService, SessionsService } from '../../src/accounts/index.js';
import { CareCalendarService } from '../../src/care-calendar/index.js';
import { civilDay } from '../../src/core/units/civil-day.js';
import { PondsService } from '../../src/ponds/index.js';
import { MailDelivery, ReminderSweep } from '../../src/reminders/index.js';
import { bundledAssets, openPage, startBrowser } from '../support/browser.js';
import { mailCatcher } from '../support/mail-catcher.js';
import { type WebApp, webApp } from '../support/web-app.js';

/** Three climates: severe winter, desert without frost, and the other half of the world. */
const PONDS_CSV = `pond_ref,pond_name,town,country,latitude,longitude,elevation_m,time_zone,outline,length_m,width_m,depth_kind,mean_depth_m,max_depth_m,direct_sun_hours,wind_shelter,trees_near,tap_source,tap_total_chlorine_mg_per_l,filled_on,stocked_on,care_since,contact_name,contact_role,contact_email,contact_digest_weekday,contact_digest_hour,contact_since,equipment_kind,equipment_name,equipment_installed_on,equipment_flow_l_per_h,equipment_media_l,stock_species,stock_count,stock_length_cm
P1,Lake Street pond,Madison,US,43.07,-89.40,262,America/Chicago,rectangle,5,3,average,1,1.3,9,suburban,yes,chloramine,1.8,2023-05-01,2023-07-01,2026-09-14,Ada Norling,homeowner,ada.norling@example.com,6,8,2026-09-14,pump,Filter pump,2025-05-01,16000,,koi,10,38
P1,,,,,,,,,,,,,,,,,,,,,,,,,,,,mechanical-filter,Foam chamber,2025-05-01,,60,,,
P1,,,,,,,,,,,,,,,,,,,,,,,,,,,,uv-lamp,UV unit,2024-05-01,,,,,
P2,Mesa pond,Phoenix,US,33.45,-112.07,331,America/Phoenix,rectangle,5,3,average,1,1.3,9,suburban,no,chlorine,1.1,2023-05-01,2023-07-01,2026-09-14,Bo Castell,homeowner,bo.castell@example.com,6,8,2026-09-14,pump,Filter pump,2025-05-01,16000,,koi,10,38
P3,Hills pond,Adelaide,AU,-34.93,138.60,48,Australia/Adelaide,rectangle,5,3,average,1,1.3,9,suburban,no,chlorine,1.0,2023-05-01,2023-07-01,2026-09-14,Cleo Marsh,homeowner,cleo.marsh@example.com,6,8,2026-09-14,pump,Filter pump,2025-05-01,16000,,koi,10,38
`;

describe('the main job', () => {
  let app: WebApp;
  let browser: Browser;
  let post: Awaited<ReturnType<typeof mailCatcher>>;
  let assets: Awaited<ReturnType<typeof bundledAssets>>;

  beforeAll(async () => {
    post = await mailCatcher();
    assets = await bundledAssets([
      'src/web/technician/visit.client.ts',
      'src/web/office/ponds/import-progress.client.ts',
    ]);
    app = await webApp({
      at: '2026-10-09T15:00:00Z',
      assets: assets.directory,
      environment: {
        TARNKEEP_SMTP_URL: `smtp://127.0.0.1:${post.port}`,
        TARNKEEP_MAIL_FROM_ADDRESS: 'care@example.com',
      },
    });
    browser = await startBrowser();
  }, 120_000);

  afterAll(async () => {
    await browser?.close();
    await app?.close();
    await assets?.remove();
    await post?.close();
  });

  it('runs from a list of ponds to mail, a visit and a calendar that has learned', async () => {
    const company = await app.company();
    const calendar = app.get(CareCalendarService);
    const office = await sessionOf('office', 'Marit Lindqvist');
    const technician = await sessionOf('technician', 'Dana Ruiz');

    // 1. A list of ponds comes in through the page.
    const desk = await openPage(browser, {
      url: `${app.url}/ponds/import`,
      width: 1280,
      theme: 'light',
      session: office.token,
    });
    await desk.setInputFiles('input[type=file]', {
      name: 'ponds.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(PONDS_CSV),
    });
    await desk.getByRole('button', { name: 'Check and import' }).click();
    await desk.getByText('Imported: 3 ponds added').waitFor();
    const ponds = new Map((await app.get(PondsService).list(company.id)).rows.map(({ pond }) => [pond.ref, pond]));
    expect([...ponds.keys()].sort()).toEqual(['P1', 'P2', 'P3']);

    // 2. Each has the calendar of its own climate.
    await calendar.replanAll(company.id);
    const rulesOf = async (ref: string) =>
      (await calendar.tasksOf(company.id, ponds.get(ref)!.id)).map(({ task }) => task.ruleId);
    expect(await rulesOf('P1')).toEqual(
      expect.arrayContaining(['winter-pump-shutdown', 'spring-start-up', 'feed-stop']),
    );
    expect(await rulesOf('P2')).not.toContain('winter-pump-shutdown');
    const outcome = await calendar.outcomeOf(company.id, ponds.get('P2')!.id);
    expect(outcome?.notDue).toContainEqual(
      expect.objectContaining({ ruleId: 'winter-pump-shutdown', because: expect.stringMatching(/climate/) }),
    );
    const south = await calendar.tasksOf(company.id, ponds.get('P3')!.id);
    expect(south.map(({ task }) => task.ruleId)).not.toContain('winter-pump-shutdown');

    // 3. Each homeowner gets one digest, at eight on Saturday where they live.
    const sweepAt = async (instant: string) => {
      app.clock.set(instant);
      await app.get(ReminderSweep).run();
      await app.get(MailDelivery).run();
    };
    await sweepAt('2026-10-09T22:00:00Z'); // Saturday 8:30 in Adelaide
    expect(post.mails.filter(({ mail }) => isDigest(mail)).map(({ to }) => to)).toEqual(['cleo.marsh@example.com']);
    await sweepAt('2026-10-10T13:05:00Z'); // Saturday 8:05 in Madison, 6:05 in Phoenix
    await sweepAt('2026-10-10T15:05:00Z'); // Saturday 8:05 in Phoenix
    await sweepAt('2026-10-10T15:20:00Z');
    const digests = post.to('ada.norling@example.com').filter(isDigest);
    expect(digests).toHaveLength(1);
    expect(post.to('bo.castell@example.com').filter(isDigest)).toHaveLength(1);
    const digest = digests[0]!;
    expect(digest.headers.get('auto-submitted')).toBe('auto-generated');
    expect(digest.text).toContain('40 Mill Race Row');

    // 4. One press on "done" in a real browser; looking at the page alone changes nothing.
    const kitchen = await openPage(browser, { url: `${app.url}/sign-in`, width: 390, theme: 'light' });
    for (const url of linksTo(digest.text ?? '', '/l/task-done/')) {
      // The mail names the public address; this test listens on a port of its own.
      await kitchen.goto(url.replace(/^https?:\/\/[^/]+/, app.url));
      if (/residual-current/.test((await kitchen.locator('h1').textContent()) ?? '')) break;
    }
    const before = await openTask('P1', 'residual-current-test');
    expect(before.task.state).toBe('NEEDS-ACTION');
    await kitchen.getByRole('button', { name: 'Yes, it is done' }).click();
    await kitchen.getByText(/done/i).first().waitFor();
    const finished = await calendar.task(company.id, before.task.id);
    expect(finished.task).toMatchObject({ state: 'COMPLETED', finishedOn: '2026-10-10' });

    // 5. The crew's work becomes a visit, planned and published at the desk.
    await signInAgain(desk, office);
    await desk.goto(`${app.url}/visits/plan?pond=${ponds.get('P1')!.id}`);
    const form = desk.locator('form.plan-visit').first();
    await form.getByLabel('Day', { exact: true }).fill('2026-10-12');
    await form.getByLabel('Who goes').selectOption({ label: 'Dana Ruiz' });
    await form.getByRole('button', { name: 'Plan and publish' }).click();
    await desk.waitForLoadState();
    const planned = (await calendar.tasksOf(company.id, ponds.get('P1')!.id)).filter(
      ({ task }) => task.visitId !== null,
    );
    expect(planned.length).toBeGreaterThan(0);
    expect(planned.every(({ task }) => task.promisedOn === '2026-10-12')).toBe(true);

    // 6. The technician closes it on a phone.
    app.clock.set('2026-10-12T14:00:00Z');
    const phone = await openPage(browser, {
      url: `${app.url}/my-round`,
      width: 390,
      theme: 'light',
      session: technician.token,
    });
    await phone.getByRole('link', { name: /Open the visit/ }).click();
    for (const box of await phone.locator('ul.check input[type=checkbox]').all()) await box.check();
    await phone.getByLabel('Water', { exact: true }).fill('58.6');
    await phone.getByLabel('pH', { exact: true }).fill('7.8');
    await phone.getByLabel('Total ammonia, as N').fill('0.1');
    await phone.locator('textarea[name=note]').fill('Net frame holds. Fish lively.');
    expect(await phone.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    await phone.getByRole('button', { name: 'Close the visit' }).click();
    await phone
      .getByText(/closed/i)
      .first()
      .waitFor();

    // 7. The calendar has learned: what was done restarts from the day it was done.
    const taught = planned[0]!;
    const closed = await calendar.task(company.id, taught.task.id);
    expect(closed.task).toMatchObject({ state: 'COMPLETED', finishedOn: '2026-10-12' });
    const readings = await calendar.outcomeOf(company.id, ponds.get('P1')!.id);
    expect(readings?.plannedOn).toBe('2026-10-12');
    let restarted = 0;
    for (const { task } of planned) {
      const next = (await calendar.tasksOf(company.id, ponds.get('P1')!.id)).find(
        (one) => one.task.ruleId === task.ruleId,
      );
      if (!next) continue;
      restarted += 1;
      expect(next.task.cycle).not.toBe(task.cycle);
      expect(civilDay(next.task.dueOn)).toBeGreaterThan(civilDay('2026-10-12'));
      expect(next.task.planned.reason.inputs.length).toBeGreaterThan(0);
    }
    expect(restarted).toBeGreaterThan(0);
    const again = (await calendar.tasksOf(company.id, ponds.get('P1')!.id)).find(
      (one) => one.task.ruleId === before.task.ruleId,
    );
    expect(again?.task.cycle).not.toBe(before.task.cycle);
    expect(again?.task.dueOn).toBe('2026-11-09'); // thirty days after it was really done

    // 8. The homeowner reads what was done.
    await app.get(MailDelivery).run();
    const report = post
      .to('ada.norling@example.com')
      .find((mail) => !isDigest(mail) && /Fish lively/.test(mail.text ?? ''));
    expect(report?.text).toContain('7.8');

    /** An office session ends after two hours without a request, and the clock has been moved. */
    async function signInAgain(page: Page, { personId }: { personId: string }) {
      const { token } = await app.get(SessionsService).start(personId, company.id, 'office');
      await page.context().addCookies([{ name: 'tarnkeep_session', value: token, url: app.url }]);
    }

    async function sessionOf(role: 'office' | 'technician', name: string) {
      const email = `${name.split(' ')[0]!.toLowerCase()}@example.com`;
      const member = await app.get(PeopleService).addMember({ companyId: company.id, email, name, role });
      return app.get(SessionsService).start(member.personId, company.id, role);
    }

    async function openTask(ref: string, ruleId: string) {
      const tasks = await calendar.tasksOf(company.id, ponds.get(ref)!.id);
      const found = tasks.find(({ task }) => task.ruleId === ruleId);
      if (!found) throw new Error(`No open task ${ruleId} among ${tasks.map(({ task }) => task.ruleId).join(', ')}`);
      return found;
    }
  }, 180_000);
});

const isDigest = (mail: { text?: string | undefined }): boolean => /, week of \d/.test(mail.text ?? '');

function linksTo(text: string, path: string): string[] {
  const urls = text.split(/\s+/).filter((word) => word.includes(path));
  if (urls.length === 0) throw new Error(`No link to ${path} in the mail:\n${text}`);
  return urls;
}
