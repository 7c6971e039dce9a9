import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser } from 'playwright-core';
import { PondEventsService, PondsService } from '../../../src/ponds/index.js';
import { bundledAssets, openPage, startBrowser } from '../../support/browser.js';
import { aPond } from '../../support/typed-pond.js';
import type { Visitor } from '../../support/visitor.js';
import { type WebApp, webApp } from '../../support/web-app.js';

describe('the leak test in a real browser', () => {
  let app: WebApp;
  let browser: Browser;
  let assets: Awaited<ReturnType<typeof bundledAssets>>;
  let office: Visitor;
  let companyId: string;
  let pondId: string;

  beforeAll(async () => {
    assets = await bundledAssets([]);
    [app, browser] = await Promise.all([webApp({ assets: assets.directory }), startBrowser()]);
    companyId = (await app.company('Sedge & Kettle', 'metric')).id;
    office = await app.signedIn(companyId);
    pondId = await app.get(PondsService).create(companyId, aPond());
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    await app?.close();
    await assets?.remove();
  });

  it('is filled in, worked out and kept with the keyboard alone, on a narrow screen', async () => {
    const url = `${app.url}/ponds/${pondId}`;
    const page = await openPage(browser, { url, width: 390, theme: 'light', session: office.session });
    await page.getByRole('link', { name: 'Test for a leak' }).focus();
    await page.keyboard.press('Enter');
    await page.waitForURL(/leak-test/);

    const type = async (label: string, nth: number, text: string) => {
      await page.getByLabel(label, { exact: true }).nth(nth).focus();
      await page.keyboard.type(text);
    };
    await page.getByLabel('First level, taken').fill('2026-09-28T08:00');
    await type('Water below the mark', 0, '0');
    await page.getByLabel('Taken', { exact: true }).first().fill('2026-10-03T08:00');
    await type('Water below the mark', 1, '40');
    await type('A bucket in the pond fell by', 0, '10');
    // Enter works it out; nothing is kept by a slip.
    await page.keyboard.press('Enter');
    await page.waitForSelector('#verdict [role="status"]');
    expect(await page.locator('#verdict').textContent()).toContain('It leaks, about');
    expect(await app.get(PondEventsService).list(companyId, pondId)).toHaveLength(0);

    await page.getByRole('button', { name: 'Keep this test' }).focus();
    await page.keyboard.press('Enter');
    await page.waitForURL(/did=kept/);
    expect(await page.locator('.undo').textContent()).toContain('The test is kept');
    expect(await app.get(PondEventsService).list(companyId, pondId)).toHaveLength(1);
    await page.close();
  }, 60_000);
});
