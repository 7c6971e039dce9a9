import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import {
  accessibilityFaults,
  bundledAssets,
  openPage,
  sidewaysOverflowPx,
  startBrowser,
  type Theme,
} from '../../support/browser.js';
import { type WebStack, webStack } from './web-stack.js';

let web: WebStack;
let browser: Browser;
let assets: Awaited<ReturnType<typeof bundledAssets>>;
let page: Page;
let visitId: string;

beforeAll(async () => {
  web = await webStack();
  web.as(web.technician);
  assets = await bundledAssets(['src/web/technician/visit.client.ts']);
  browser = await startBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await assets?.remove();
  await web.close();
});

beforeEach(async () => {
  const { pondId, tasks } = await web.pondWithTasks();
  const { visit } = await web.visits.create(web.companyId, {
    pondId,
    taskIds: tasks.slice(0, 2).map(({ task }) => task.id),
    plannedOn: '2026-05-15',
    technicianId: web.technician.personId,
  });
  await web.visits.publish(web.companyId, visit.id);
  visitId = visit.id;
  page = await visitPage('light');
});

/** The visit's page on a phone, with script and style as the build makes them. */
async function visitPage(theme: Theme): Promise<Page> {
  const opened = await openPage(browser, { url: 'about:blank', width: 390, theme });
  await opened.route('**/assets/{visit.js,tarnkeep.css}*', async (route) => {
    const name = path.basename(new URL(route.request().url()).pathname);
    const contentType = name.endsWith('.js') ? 'text/javascript; charset=utf-8' : 'text/css; charset=utf-8';
    await route.fulfill({ body: await readFile(path.join(assets.directory, name)), contentType });
  });
  await opened.goto(`${web.base}/my-round/visits/${visitId}`);
  return opened;
}

const field = (name: string) => page.locator(`[name="${name}"]`);
const press = () => page.getByRole('button', { name: 'Close the visit' }).click();
const closings = async () => (await web.visits.history(web.companyId, visitId)).closings;

describe('the script of the visit page', () => {
  it('says at once what ammonia means at the typed temperature and pH', async () => {
    const said = page.locator('#said-total-ammonia');
    await field('reading:total-ammonia').fill('0.8');
    await said.getByText('In order, below 1 mg/L').waitFor();
    await field('reading:water-temperature').fill('57.6');
    await field('reading:ph').fill('8.2');
    await said.getByText('Un-ionised ammonia 0.031 mg/L').waitFor();
    await said.getByText('Half the feed. Test again in 2 days.').waitFor();
    await field('reading:ph').fill('71');
    await page.locator('#said-ph').getByText('Did you mean 7.1?').waitFor();
    await said.getByText('In order, below 1 mg/L').waitFor();
  });

  it('counts the open tasks and says that nothing is sent', async () => {
    await page.getByText('2 of 2 tasks are open.').waitFor();
    await page.locator('.check input[type="checkbox"]').first().check();
    await page.getByText('1 of 2 tasks is open.').waitFor();
    await page.locator('#sent').getByText('Typed, not sent').waitFor();
    expect(await closings()).toEqual([]);
  });

  it('loses nothing without signal, and closes once with it', async () => {
    await field('note').fill('Written without signal.');
    await page.context().setOffline(true);
    await press();
    await page.getByText('What you typed is still here. Press again to send it.').waitFor();
    await page.locator('#sent').getByText('Not sent').waitFor();
    expect(await field('note').inputValue()).toBe('Written without signal.');

    await page.context().setOffline(false);
    await press();
    await page.getByText('The visit is closed.').waitFor();
    expect((await closings()).map(({ record }) => record.note)).toEqual(['Written without signal.']);
  });

  it('closes once when the answer was lost and the button is pressed again', async () => {
    let isLost = false;
    await page.route('**/closing', async (route) => {
      if (isLost) {
        await route.continue();
        return;
      }
      isLost = true;
      await route.fetch({ maxRedirects: 0 });
      await route.abort('connectionreset');
    });
    await field('note').fill('Answer lost.');
    await press();
    await page.getByText('Press again to send it.').waitFor();
    await press();
    await page.getByText('The visit is closed.').waitFor();
    expect(await closings()).toHaveLength(1);
  });

  it('brings refused fields back on the page with all that was typed', async () => {
    await field('note').fill('Stays.');
    await field('reading:ph').fill('71');
    await press();
    await page.getByText('Nothing you typed is lost.').waitFor();
    expect(await field('note').inputValue()).toBe('Stays.');
    expect(await field('reading:ph').inputValue()).toBe('71');
    await field('reading:ph').fill('7.1');
    await press();
    await page.getByText('The visit is closed.').waitFor();
    expect((await closings())[0]?.record).toMatchObject({ note: 'Stays.', readings: [{ value: 7.1 }] });
  });
});

describe('the visit page on a phone', () => {
  it.each(['light', 'dark'] as const)('is readable for everybody in the %s theme', async (theme) => {
    const shown = await visitPage(theme);
    for (const summary of await shown.locator('summary').all()) await summary.click();
    await shown.locator('[name="reading:nitrite"]').fill('1.4');
    await shown.locator('[name="reading:ph"]').fill('71');
    await shown.locator('#said-nitrite').getByText('Emergency: now').waitFor();
    expect(await accessibilityFaults(shown)).toEqual([]);
    expect(await sidewaysOverflowPx(shown)).toBe(0);
    await shown.context().close();
  });

  it('has nothing to press that is smaller than a wet glove can hit', async () => {
    for (const summary of await page.locator('summary').all()) await summary.click();
    const small = await page.evaluate(() =>
      [
        ...document.querySelectorAll(
          'main :is(a, button, summary, select, textarea, label:has(input)), .foot button, .inp',
        ),
      ]
        .map((element) => ({ name: element.outerHTML.slice(0, 80), height: element.getBoundingClientRect().height }))
        .filter(({ height }) => height > 0 && height < 56),
    );
    expect(small).toEqual([]);
  });
});
