import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser } from 'playwright-core';
import { PondsService, ReadingsService } from '../../../src/ponds/index.js';
import {
  accessibilityFaults,
  bundledAssets,
  openPage,
  sidewaysOverflowPx,
  startBrowser,
  type Theme,
} from '../../support/browser.js';
import { aPond } from '../../support/typed-pond.js';
import type { Visitor } from '../../support/visitor.js';
import { type WebApp, webApp } from '../../support/web-app.js';
import { aTypedForm } from './typed-form.js';

describe('the office in a real browser', () => {
  let app: WebApp;
  let browser: Browser;
  let assets: Awaited<ReturnType<typeof bundledAssets>>;
  let office: Visitor;
  let pondId: string;

  beforeAll(async () => {
    assets = await bundledAssets([
      'src/web/office/ponds/form/new-pond.client.ts',
      'src/web/office/ponds/import-progress.client.ts',
    ]);
    [app, browser] = await Promise.all([webApp({ assets: assets.directory }), startBrowser()]);
    const companyId = (await app.company()).id;
    office = await app.signedIn(companyId, 'owner');
    pondId = await app.get(PondsService).create(companyId, aPond({ name: 'Haugen pond' }));
    await app.get(ReadingsService).add(companyId, pondId, [
      { quantity: 'water-temperature', value: 14.2, takenAt: '2026-10-04T12:00:00Z' },
      { quantity: 'nitrite', value: 0.4, takenAt: '2026-10-04T12:00:00Z' },
    ]);
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    await app?.close();
    await assets?.remove();
  });

  const pages = (): readonly (readonly [name: string, path: string])[] => [
    ['this week', '/'],
    ['the ponds', '/ponds'],
    ['a pond', `/ponds/${pondId}`],
    ['a new pond', '/ponds/new'],
    ['a change of a pond', `/ponds/${pondId}/edit`],
    ['a leak test', `/ponds/${pondId}/leak-test`],
    ['the import', '/ponds/import'],
    ['the settings', '/settings'],
  ];
  const views: readonly (readonly [theme: Theme, width: number])[] = [
    ['light', 1280],
    ['dark', 1280],
    ['light', 390],
    ['dark', 390],
  ];

  it.each(views)(
    'has no accessibility fault and nothing to scroll sideways in %s at %i px',
    async (theme, width) => {
      const faults: string[] = [];
      for (const [name, path] of pages()) {
        const page = await openPage(browser, { url: app.url + path, width, theme, session: office.session });
        for (const fault of await accessibilityFaults(page)) faults.push(`${name}: ${fault}`);
        const overflow = await sidewaysOverflowPx(page);
        if (overflow > 0) faults.push(`${name}: ${overflow} px too wide`);
        await page.context().close();
      }
      const door = await openPage(browser, { url: `${app.url}/sign-in`, width, theme });
      for (const fault of await accessibilityFaults(door)) faults.push(`sign-in: ${fault}`);
      await door.context().close();
      expect(faults).toEqual([]);
    },
    120_000,
  );

  it('opens every reason of a pond without a fault', async () => {
    const page = await openPage(browser, {
      url: `${app.url}/ponds/${pondId}`,
      width: 390,
      theme: 'light',
      session: office.session,
    });
    await page.evaluate(() => {
      for (const details of document.querySelectorAll('main details')) (details as HTMLDetailsElement).open = true;
    });
    expect(await accessibilityFaults(page)).toEqual([]);
    expect(await sidewaysOverflowPx(page)).toBe(0);
    await page.context().close();
  }, 60_000);

  it('says volume, turnover and the first year while somebody types', async () => {
    const page = await openPage(browser, {
      url: `${app.url}/ponds/new`,
      width: 1280,
      theme: 'light',
      session: office.session,
    });
    const typed = aTypedForm();
    for (const name of ['name', 'latitude', 'longitude', 'elevation', 'length', 'width', 'maxDepth', 'meanDepth']) {
      await page.fill(`[name="${name}"]`, typed[name] as string);
    }
    await page.waitForSelector('#said-shape .said b');
    expect(await page.textContent('#said-shape')).toMatch(/gal from length, width and mean depth, give or take 20 %/);

    await page.selectOption('[name="equipment.0.kind"]', 'pump');
    await page.fill('[name="equipment.0.flow"]', '1,200');
    await page.waitForSelector('#said-machinery .said.act');
    expect(await page.textContent('#said-machinery')).toContain('A second circuit of at least');
    await page.waitForSelector('#year svg.wheel');
    expect(await page.textContent('#year')).toContain('Preview. Nothing is stored yet.');
    await page.context().close();
  }, 60_000);

  it('saves a pond by keyboard alone, from the form to its page', async () => {
    const page = await openPage(browser, {
      url: `${app.url}/ponds/new`,
      width: 390,
      theme: 'dark',
      session: office.session,
    });
    const typed = aTypedForm({ name: 'Keyboard pond' });
    for (const name of ['latitude', 'longitude', 'elevation', 'length', 'width', 'maxDepth', 'meanDepth']) {
      await page.fill(`[name="${name}"]`, typed[name] as string);
    }
    await page.focus('[name="name"]');
    await page.keyboard.type('Keyboard pond');
    await Promise.all([page.waitForURL(/\/ponds\/[0-9a-f-]{36}\?did=created/), page.keyboard.press('Enter')]);
    expect(await page.textContent('h1')).toBe('Keyboard pond');
    await page.context().close();
  }, 60_000);
});
