import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser } from 'playwright-core';
import {
  accessibilityFaults,
  bundledAssets,
  openPage,
  sidewaysOverflowPx,
  startBrowser,
  type Theme,
} from '../../support/browser.js';
import type { Visitor } from '../../support/visitor.js';
import { type WebApp, webApp } from '../../support/web-app.js';

const PATH = '/how-it-is-computed';

describe('how it is computed, in a real browser', () => {
  let app: WebApp;
  let browser: Browser;
  let assets: Awaited<ReturnType<typeof bundledAssets>>;
  let office: Visitor;

  beforeAll(async () => {
    assets = await bundledAssets([]);
    [app, browser] = await Promise.all([webApp({ assets: assets.directory }), startBrowser()]);
    office = await app.signedIn((await app.company()).id, 'office');
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    await app?.close();
    await assets?.remove();
  });

  const open = (query: string, width: number, theme: Theme) =>
    openPage(browser, { url: `${app.url}${PATH}${query}`, width, theme, session: office.session });

  it.each([
    ['light', 1280],
    ['dark', 1280],
    ['light', 390],
    ['dark', 390],
  ] as const)(
    'has no accessibility fault and nothing to scroll sideways in %s at %i px, with a fault shown and without',
    async (theme, width) => {
      for (const query of ['', '?find=pressure&air-pressure.elevationM=99999', '?find=zzzz']) {
        const page = await open(query, width, theme);
        expect([query, await accessibilityFaults(page)]).toEqual([query, []]);
        expect([query, await sidewaysOverflowPx(page)]).toEqual([query, 0]);
        await page.context().close();
      }
    },
    120_000,
  );

  it('works an example by keyboard alone and comes back to it', async () => {
    const page = await open('', 390, 'light');
    await page.focus('[name="air-pressure.elevationM"]');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('1200');
    await Promise.all([page.waitForURL(/elevationM=1200#air-pressure$/), page.keyboard.press('Enter')]);
    expect(await page.textContent('#air-pressure .worked')).toContain('87.9 kPa');
    const top = await page.evaluate(() => document.querySelector('#air-pressure')?.getBoundingClientRect().top ?? -1);
    expect(Math.abs(top)).toBeLessThan(200);
    await page.context().close();
  }, 60_000);

  it('prints every formula without buttons, contents or anything cut off', async () => {
    const page = await open('', 1280, 'light');
    await page.emulateMedia({ media: 'print' });
    const shown = (selector: string) =>
      page.evaluate(
        (one) => [...document.querySelectorAll(one)].filter((element) => element.getClientRects().length > 0).length,
        selector,
      );
    expect(await shown('.formula')).toBeGreaterThan(15);
    expect(await shown('.btn, .contents, .mast, .site-foot')).toBe(0);
    await page.context().close();
  }, 60_000);
});
