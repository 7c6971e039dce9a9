import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { PondsService } from '../../../src/ponds/index.js';
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

describe('looking ahead on a pond, in a real browser', () => {
  let app: WebApp;
  let browser: Browser;
  let assets: Awaited<ReturnType<typeof bundledAssets>>;
  let office: Visitor;
  let pondId: string;

  beforeAll(async () => {
    assets = await bundledAssets(['src/web/charts/read-out.client.ts', 'src/web/why-not/why-not.client.ts']);
    [app, browser] = await Promise.all([webApp({ assets: assets.directory }), startBrowser()]);
    const companyId = (await app.company()).id;
    office = await app.signedIn(companyId, 'owner');
    pondId = await app.get(PondsService).create(companyId, aPond({ name: 'Haugen pond' }));
  }, 120_000);
  afterAll(async () => {
    await browser?.close();
    await app?.close();
    await assets?.remove();
  });
  const open = (path: string, width: number, theme: Theme = 'light'): Promise<Page> =>
    openPage(browser, { url: app.url + path, width, theme, session: office.session });

  it('reads both drawings by arrow keys, and shows the day by a hair line', async () => {
    const page = await open(`/ponds/${pondId}`, 1280);
    for (const [name, drawing] of [
      ['Read a day of the year wheel', '.wheel .hair'],
      ['Read a day of the water forecast', '.chart.wide .hair'],
    ] as const) {
      const slider = page.getByRole('slider', { name });
      await slider.focus();
      expect(await page.locator(drawing).getAttribute('visibility')).toBe('hidden');
      for (let press = 0; press < 21; press++) await page.keyboard.press('ArrowRight');
      expect(await slider.getAttribute('aria-valuetext')).toBe('26 October');
      expect(await page.locator('.read-out', { has: slider }).getByRole('status').textContent()).toMatch(
        /^Mon 26 Oct: \d+ °F, likely \d+ to \d+ °F/,
      );
      expect(await page.locator(drawing).getAttribute('visibility')).toBe('visible');
    }
    await page.context().close();
  }, 60_000);

  it('reads a day under the pointer', async () => {
    const page = await open(`/ponds/${pondId}`, 390);
    await page.locator('.chart.narrow').scrollIntoViewIfNeeded();
    const box = await page.locator('.chart.narrow').boundingBox();
    await page.mouse.move((box?.x ?? 0) + (box?.width ?? 0) / 2, (box?.y ?? 0) + 60);
    const said = await page.locator('figure:has(.chart) [role=status]').textContent();
    expect(said).toMatch(/^\w{3} \d+ (Dec|Nov): \d+ °F/);
    expect(await page.locator('.chart.narrow .hair').getAttribute('visibility')).toBe('visible');
    await page.context().close();
  }, 60_000);

  it('narrows the reasons to the words typed', async () => {
    const page = await open(`/ponds/${pondId}`, 1280);
    await page.click('#why-not > summary');
    const shown = () => page.locator('#why-not-list > div:not([hidden])').count();
    const all = await shown();
    await page.fill('#why-not-find', 'turtles');
    expect(await shown()).toBeGreaterThan(0);
    expect(await shown()).toBeLessThan(all);
    await page.fill('#why-not-find', 'zzz');
    expect(await page.locator('#why-not [role=status]').textContent()).toBe('No line has these words.');
    await page.context().close();
  }, 60_000);

  it('asks and leaves by keyboard, at 390 px', async () => {
    const page = await open(`/ponds/${pondId}`, 390, 'dark');
    await page.focus('[name="count.0"]');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('20');
    await Promise.all([page.waitForURL(/what-if\?/), page.keyboard.press('Enter')]);
    expect(await page.textContent('main')).toContain('Loads and water');
    expect(await sidewaysOverflowPx(page)).toBe(0);
    await Promise.all([page.waitForURL(`**/ponds/${pondId}`), page.click('text=Back to the pond as it is')]);
    expect(await page.inputValue('[name="count.0"]')).toBe('8');
    await page.context().close();
  }, 60_000);

  it.each<[Theme, number]>([
    ['light', 1280],
    ['dark', 390],
  ])(
    'has no accessibility fault in %s at %i px',
    async (theme, width) => {
      const faults: string[] = [];
      for (const query of ['', '?count.0=30&sun=2&warmer=5', '?count.0=x']) {
        const page = await open(`/ponds/${pondId}/what-if${query}`, width, theme);
        faults.push(...(await accessibilityFaults(page)));
        if ((await sidewaysOverflowPx(page)) > 0) faults.push(`${query}: too wide`);
        await page.context().close();
      }
      const page = await open(`/ponds/${pondId}`, width, theme);
      await page.evaluate(() => {
        for (const details of document.querySelectorAll('main details')) (details as HTMLDetailsElement).open = true;
      });
      faults.push(...(await accessibilityFaults(page)));
      expect(faults).toEqual([]);
      await page.context().close();
    },
    60_000,
  );
});
