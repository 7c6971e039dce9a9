import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { accessibilityFaults, openPage, sidewaysOverflowPx, startBrowser } from '../../support/browser.js';
import { coldStartMs, firstLoadBytes } from '../../support/phone-measures.js';
import { type Signal, signalTo } from '../../support/signal.js';
import { type PhoneBench, phoneBench } from './phone-bench.js';

/** Compressed, everything the first opening of the round brings. */
const FIRST_LOAD_BYTES = 150_000;
const COLD_START_MS = 1_000;

let bench: PhoneBench;
let browser: Browser;
let signal: Signal;

beforeAll(async () => {
  bench = await phoneBench();
  await bench.aVisit('Haugen pond', '08:00', '10:00');
  await bench.aVisit('Ortega pond', '10:00', '12:00');
  signal = await signalTo(bench.app.url);
  browser = await startBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await signal?.close();
  await bench?.close();
});

async function keptRound(): Promise<Page> {
  const page = await openPage(browser, {
    url: `${signal.url}/my-round`,
    ...{ width: 390, theme: 'light', session: bench.token },
  });
  await page.locator('#kept[data-kept]').waitFor();
  return page;
}

describe('the round kept on a phone', () => {
  it('weighs little on the first opening', async () => {
    const page = await keptRound();
    const html = await page.content();
    const visit = await page.evaluate(async () => {
      const [href] = [...document.querySelectorAll<HTMLAnchorElement>('.stops a')].map((link) => link.href);
      return (await fetch(href as string)).text();
    });
    const bytes = await firstLoadBytes([html, visit]);
    expect(bytes).toBeLessThan(FIRST_LOAD_BYTES);
    await page.context().close();
  });

  it('opens from cold without signal on a slow phone within a second', async () => {
    const page = await keptRound();
    const context = page.context();
    await page.close();
    signal.cut();
    const times: number[] = [];
    for (let i = 0; i < 3; i++) times.push(await coldStartMs(context, `${signal.url}/my-round`));
    signal.restore();
    await context.close();
    expect(Math.min(...times)).toBeLessThan(COLD_START_MS);
  });

  it('shows the pages it keeps without signal, and says plainly which it has not', async () => {
    const page = await keptRound();
    signal.cut();
    await page.reload();
    await page.getByRole('link', { name: /Open the visit/ }).click();
    await page.locator('html[data-ready]').waitFor();
    await page.locator('.gate').getByText('Show the gate code').click();
    await page.getByText('4711#').waitFor();
    await page.getByText('The water is likely').waitFor();
    await page.goto(`${signal.url}/my-round/visits/01900000-0000-7000-8000-000000000000`);
    await page.getByText('This page is not kept on the phone.').waitFor();
    signal.restore();
    await page.context().close();
  });

  it('forgets the gate code when the day is over, and the round after two days', async () => {
    const page = await keptRound();
    const later = async (hours: number) => {
      await page.addInitScript((ms) => {
        const now = Date.now;
        Date.now = () => now() + ms;
      }, hours * 3_600_000);
    };
    signal.cut();
    await later(25);
    await page.reload();
    await page.locator('#kept').waitFor();
    await page.waitForFunction(() => document.querySelector('#sent') !== null);
    const held = () =>
      page.evaluate(
        () =>
          new Promise<number>((resolve) => {
            const open = indexedDB.open('tarnkeep-phone');
            open.onsuccess = () => {
              const count = open.result.transaction('gates').objectStore('gates').count();
              count.onsuccess = () => {
                open.result.close();
                resolve(count.result);
              };
            };
          }),
      );
    for (let i = 0; i < 50 && (await held()) > 0; i++) await page.waitForTimeout(100);
    expect(await held()).toBe(0);
    expect(await page.locator('.gate:visible').count()).toBe(0);
    await later(25);
    await page.reload();
    const pages = () => page.evaluate(async () => (await (await caches.open('tarnkeep-pages')).keys()).length);
    for (let i = 0; i < 50 && (await pages()) > 0; i++) await page.waitForTimeout(100);
    expect(await pages()).toBe(0);
    signal.restore();
    await page.context().close();
  });

  it('warns before somebody signs out with something unsent, and keeps it', async () => {
    const page = await keptRound();
    await page.getByRole('link', { name: /Open the visit/ }).click();
    await page.locator('html[data-ready]').waitFor();
    await page.context().setOffline(true);
    await page.locator('[name=note]').fill('Unsent.');
    await page.getByRole('button', { name: 'Close the visit' }).click();
    await page.locator('#outbox').getByText('not sent yet').first().waitFor();
    await page.getByRole('button', { name: 'Sign out' }).click();
    await page.getByText('One thing is not sent yet. It stays on this phone').waitFor();
    expect(await page.locator('#sent').textContent()).toBe('1 not sent yet');
    await page.context().close();
  });

  it('says that it cannot be opened without signal where the connection is not safe', async () => {
    const page = await openPage(browser, { url: 'about:blank', width: 390, theme: 'light' });
    await page.addInitScript(() => Object.defineProperty(window, 'isSecureContext', { value: false }));
    await page.context().addCookies([{ name: 'tarnkeep_session', value: bench.token, url: signal.url }]);
    await page.goto(`${signal.url}/my-round`);
    await page.locator('#phone-says').getByText('The office must offer it over HTTPS.').waitFor();
    await page.context().close();
  });

  it.each(['light', 'dark'] as const)('is readable for everybody in the %s theme', async (theme) => {
    const page = await openPage(browser, {
      url: `${signal.url}/my-round`,
      ...{ width: 390, theme, session: bench.token },
    });
    await page.locator('#kept[data-kept]').waitFor();
    expect(await accessibilityFaults(page)).toEqual([]);
    expect(await sidewaysOverflowPx(page)).toBe(0);
    await page.context().close();
  });
});
