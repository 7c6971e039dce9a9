import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import {
  accessibilityFaults,
  enhancedContrastFaults,
  openPage,
  sidewaysOverflowPx,
  startBrowser,
  type Theme,
} from '../../support/browser.js';
import { type PhoneBench, phoneBench } from './phone-bench.js';

let bench: PhoneBench;
let browser: Browser;
let page: Page;
let visitId: string;

beforeAll(async () => {
  bench = await phoneBench();
  browser = await startBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await bench?.close();
});
beforeEach(async () => {
  visitId = await bench.aVisit('Haugen pond', '08:00', '10:00');
  await page?.context().close();
  page = await open('light');
});

async function open(theme: Theme, id = visitId): Promise<Page> {
  const opened = await openPage(browser, {
    url: `${bench.app.url}/my-round`,
    ...{ width: 390, theme, session: bench.token },
  });
  await opened.locator('#kept[data-kept]').waitFor();
  await opened.goto(`${bench.app.url}/my-round/visits/${id}`);
  await opened.locator('html[data-ready]').waitFor();
  return opened;
}

const field = (name: string) => page.locator(`[name="${name}"]`);
const press = () => page.getByRole('button', { name: 'Close the visit' }).click();
const closings = async () => (await bench.history(visitId)).closings;
const signal = (isOn: boolean) => page.context().setOffline(!isOn);
async function closedWith(note: string): Promise<void> {
  await field('note').fill(note);
  await press();
  await page.locator('#just-closed').getByText('Haugen pond is closed.').waitFor();
}

describe('the visit page on a phone', () => {
  it('says at once what ammonia means at the typed temperature and pH', async () => {
    const said = page.locator('#said-total-ammonia');
    await field('reading:total-ammonia').fill('0.8');
    await said.getByText('In order, below 1 mg/L').waitFor();
    await field('reading:water-temperature').fill('57.6');
    await field('reading:ph').fill('8.2');
    await said.getByText('Un-ionised ammonia 0.031 mg/L').waitFor();
    await said.getByText('Half the feed. Test again in 2 days.').waitFor();
  });

  it('offers what was probably meant on one press', async () => {
    await field('reading:ph').fill('71');
    await page.locator('#said-ph').getByText('Did you mean 7.1?').waitFor();
    await page.getByRole('button', { name: 'Take 7.1' }).click();
    await page.locator('#said-ph').getByText('In order, 7 to 8.5').waitFor();
    expect(await field('reading:ph').inputValue()).toBe('7.1');
  });

  it('stands the last readings beside the field', async () => {
    const beside = await page.locator('#said-ph-last').textContent();
    expect(beside).toMatch(/^Aim: 7 to 8\.5\. Last 7\.4 on \d+ \w{3}, before that 7\.5, 7\.6\.$/);
  });

  it('measures out for the water that is typed', async () => {
    const dose = page.locator('.dose').first();
    const planned = await dose.textContent();
    const volume = page.getByLabel('For how much water');
    await volume.fill('400');
    await page.getByText(planned ?? '').waitFor({ state: 'detached' });
    expect(await dose.textContent()).toMatch(/^Measure out \d+/);
    await volume.fill('99999');
    await page.getByText('No dose for that').waitFor();
  });

  it('asks for the power before work that needs it off, and again before closing', async () => {
    const inside = page.locator('li.fence + li input[data-task]').first();
    await inside.check();
    await page.getByText('Power off first. Then tick this.').waitFor();
    await press();
    await page.getByText('Is the power on again and each device tested').waitFor();
    expect(await closings()).toEqual([]);
    await page.getByLabel('The power is off and tried').check();
    await page.getByLabel(/The power is on again/).check();
    await closedWith('Power was off.');
  });

  it('keeps on the phone whatever is typed, through a reload', async () => {
    await field('note').fill('Skimmer door is cracked.');
    await page.locator('.check input[data-task]').first().check();
    await field('reading:nitrite').fill('0.05');
    await page.getByText('Saved on this phone as you type.').waitFor();
    await page.reload();
    await page.getByText('What you typed before is back.').waitFor();
    expect(await field('note').inputValue()).toBe('Skimmer door is cracked.');
    expect(await field('reading:nitrite').inputValue()).toBe('0.05');
    expect(await page.locator('.check input[data-task]').first().isChecked()).toBe(true);
    await page.getByText('2 of 3 tasks are open.').waitFor();
  });

  it('says to load again when a newer program has opened the store, with every word still there', async () => {
    await field('note').fill('Typed in the old program.');
    await page.getByText('Saved on this phone as you type.').waitFor();
    await page.evaluate(
      () =>
        new Promise((resolve) => {
          const newer = indexedDB.open('tarnkeep-phone', 2);
          newer.onsuccess = () => resolve(newer.result.close());
        }),
    );
    await page.getByText('A newer program is open in another window.').waitFor();
    expect(await field('note').inputValue()).toBe('Typed in the old program.');
  });

  it('closes once with all that was typed, and says when somebody came', async () => {
    await page.getByRole('button', { name: 'I am here' }).click();
    await page.getByRole('button', { name: 'I am here' }).waitFor({ state: 'hidden' });
    await field('reading:ph').fill('7.6');
    await closedWith('Lively fish.');
    await page.locator('#sent').getByText('All sent').waitFor();
    const [closing, ...more] = await closings();
    expect(more).toEqual([]);
    expect(closing?.record).toMatchObject({ note: 'Lively fish.', readings: [{ quantity: 'ph', value: 7.6 }] });
    expect(closing?.record.arrivedAt).toBeTruthy();
    expect(closing?.record.flags).toEqual([]);
  });

  it('closes once when the answer was lost', async () => {
    let isLost = false;
    await page.route('**/closing', async (route) => {
      if (isLost) return route.continue();
      isLost = true;
      await route.fetch();
      return route.abort('connectionreset');
    });
    await closedWith('Answer lost.');
    await page.locator('#outbox').getByText('Haugen pond, closed').waitFor();
    await page.getByRole('button', { name: 'Send now' }).click();
    await page.locator('#sent').getByText('All sent').waitFor();
    expect(await closings()).toHaveLength(1);
  });

  it('brings a refused closing back to be mended, with all that was typed', async () => {
    await page.route('**/closing', (route) =>
      route.fulfill({ status: 422, contentType: 'application/problem+json', body: '{"detail":"The note is odd."}' }),
    );
    await closedWith('Odd note.');
    await page.locator('#sent').getByText('1 needs you').waitFor();
    await page.getByText('Needs you: The note is odd.').waitFor();
    await page.unroute('**/closing');
    await page.getByRole('button', { name: 'Mend it' }).click();
    await page.locator('html[data-ready]').waitFor();
    expect(await field('note').inputValue()).toBe('Odd note.');
    await closedWith('Plain note.');
    await page.locator('#sent').getByText('All sent').waitFor();
    expect((await closings()).map(({ record }) => record.note)).toEqual(['Plain note.']);
  });

  it('says at once when the phone has no room, keeps the words, and sends them straight out', async () => {
    await page.evaluate(() => {
      const full = () => {
        throw new DOMException('full', 'QuotaExceededError');
      };
      IDBObjectStore.prototype.put = full;
      IDBObjectStore.prototype.add = full;
    });
    await field('note').fill('No room.');
    await page.getByText('Could not save on this phone').waitFor();
    await signal(false);
    await press();
    await page.getByText('Not saved and not sent. What you typed is still here').waitFor();
    expect(await field('note').inputValue()).toBe('No room.');
    await signal(true);
    await press();
    await page.waitForURL('**/my-round');
    expect((await closings()).map(({ record }) => record.note)).toEqual(['No room.']);
  });

  it('makes a photo small and sends it apart; what is no picture is refused with a sentence', async () => {
    await signal(false);
    const heic = { name: 'IMG_1.HEIC', mimeType: 'image/heic', buffer: Buffer.from('0000ftypheic') };
    await page.setInputFiles('#photo', heic);
    await page.locator('#photo-said').getByText('most compatible format (JPEG)').waitFor();
    const svg = { name: 'a.svg', mimeType: 'image/svg+xml', buffer: Buffer.from('<svg/>') };
    await page.setInputFiles('#photo', svg);
    await page.locator('#photo-said').getByText('A drawing is not a photo').waitFor();
    const png = await page.screenshot();
    await page.setInputFiles('#photo', { name: 'a.png', mimeType: 'image/png', buffer: png });
    await page.locator('#photo-list').getByText('Photo 1. Saved on this phone').waitFor();
    await page.locator('#sent').getByText('1 not sent yet').waitFor();
  });

  it('stays and tells what became of the closing where the round cannot be opened', async () => {
    const bare = await openPage(browser, { url: 'about:blank', width: 390, theme: 'light', session: null });
    await bare.context().addCookies([{ name: 'tarnkeep_session', value: bench.token, url: bench.app.url }]);
    await bare.route('**/api/my-round', (route) => route.abort());
    await bare.goto(`${bench.app.url}/my-round/visits/${visitId}`);
    await bare.locator('html[data-ready]').waitFor();
    await bare.context().setOffline(true);
    await bare.locator('[name=note]').fill('Not kept.');
    await bare.getByRole('button', { name: 'Close the visit' }).click();
    await bare.locator('#closed-here').getByText('Closed. Saved on this phone').waitFor();
    await bare.context().setOffline(false);
    await bare.locator('#closed-here').getByText('Closed. Sent.').waitFor();
    expect((await closings()).map(({ record }) => record.note)).toEqual(['Not kept.']);
    await bare.context().close();
  });

  it('lets two phones close one visit: one closes it, both are kept', async () => {
    const first = page;
    const second = await open('light');
    await Promise.all([first, second].map((one) => one.context().setOffline(true)));
    for (const [i, one] of [first, second].entries()) {
      await one.locator('[name=note]').fill(`Phone ${i + 1}.`);
      await one.getByRole('button', { name: 'Close the visit' }).click();
      await one.locator('#just-closed').getByText('closed').waitFor();
    }
    for (const one of [first, second]) {
      await one.context().setOffline(false);
      await one
        .getByRole('button', { name: 'Send now' })
        .click({ timeout: 3_000 })
        .catch(() => {});
      await one.locator('#sent').getByText('All sent').waitFor();
    }
    await second.getByText('The visit had been closed already.').waitFor();
    const { visit } = await bench.history(visitId);
    expect(visit.state).toBe('COMPLETED');
    expect((await closings()).map(({ record }) => record.note)).toEqual(['Phone 1.', 'Phone 2.']);
    await second.context().close();
  });

  it('takes a 10,000-character note with emoji and right-to-left text as it is', async () => {
    const note = `${'ש'.repeat(100)} 🐟 <b>&`.padEnd(10_000, 'x');
    await closedWith(note);
    await page.locator('#sent').getByText('All sent').waitFor();
    expect((await closings())[0]?.record.note).toBe(note);
  });
});

describe('the visit page for everybody', () => {
  it.each(['light', 'dark'] as const)('is readable in the %s theme, at seven to one', async (theme) => {
    const shown = await open(theme);
    for (const summary of await shown.locator('summary').all()) await summary.click();
    await shown.locator('[name="reading:nitrite"]').fill('1.4');
    await shown.locator('[name="reading:ph"]').fill('71');
    await shown.locator('#said-nitrite').getByText('Emergency: now').waitFor();
    await shown.getByRole('button', { name: 'Take 7.1' }).waitFor();
    expect(await accessibilityFaults(shown)).toEqual([]);
    expect(await enhancedContrastFaults(shown)).toEqual([]);
    expect(await sidewaysOverflowPx(shown)).toBe(0);
    await shown.context().close();
  });

  it('has nothing to press that is smaller than a wet glove can hit', async () => {
    for (const summary of await page.locator('summary').all()) await summary.click();
    expect(await smallTargets(page, 56)).toEqual([]);
  });
});

function smallTargets(shown: Page, leastPx: number) {
  return shown.evaluate(
    (least) =>
      [
        ...document.querySelectorAll(
          'main :is(a, button, summary, select, textarea, label:has(input)), .foot button, .inp',
        ),
      ]
        .map((element) => ({ name: element.outerHTML.slice(0, 80), height: element.getBoundingClientRect().height }))
        .filter(({ height }) => height > 0 && height < least),
    leastPx,
  );
}
