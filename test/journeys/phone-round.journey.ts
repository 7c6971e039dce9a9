import assert from 'node:assert/strict';
import type { Page } from 'playwright-core';
import { type CompanyEntity, PeopleService, SessionsService } from '../../src/accounts/index.js';
import { CareCalendarService } from '../../src/care-calendar/index.js';
import { isoDateOf } from '../../src/core/units/civil-day.js';
import { PondsService } from '../../src/ponds/index.js';
import { type VisitHistory, VisitPhotoEntity, VisitsService } from '../../src/visits/index.js';
import { bundledAssets } from '../support/browser.js';
import { coldStartMs, firstLoadBytes } from '../support/phone-measures.js';
import { type Signal, signalTo } from '../support/signal.js';
import { aPond } from '../support/typed-pond.js';
import { type WebApp, webApp } from '../support/web-app.js';
import type { Journey, Step } from './journey.js';
import { PhoneBrowser } from './phone-browser.js';
import { Thumb } from './presses.js';

/** Most presses of a routine visit with four readings. */
const MOST_PRESSES = 25;
const READINGS = [
  ['Water', '57.6'],
  ['pH', '8.2'],
  ['Total ammonia, as N', '0.8'],
  ['Nitrite, as N', '0.05'],
] as const;

const STOPS = [
  ['Alder pond', '08:00', '10:00'],
  ['Birch pond', '10:00', '12:00'],
  ['Cedar pond', '13:00', '15:00'],
] as const;

/** A technician's day without signal: real database, program and browser, and a battery that ends. */
export const phoneRound: Journey = {
  title: 'the round on a phone without signal',
  async go(step) {
    const assets = await bundledAssets(
      ['round', 'visit', 'phone-worker'].map((name) => `src/web/technician/${name}.client.ts`),
    );
    // The phone's clock is a real one: the program's must be near it.
    const app = await webApp({ at: new Date().toISOString(), assets: assets.directory });
    // The browser's own switch does not reach the worker: the air is cut too.
    const signal = await signalTo(app.url);
    let phone: PhoneBrowser | null = null;
    try {
      const company = await app.company();
      const { personId } = await app
        .get(PeopleService)
        .addMember({ companyId: company.id, email: 'dana@example.com', name: 'Dana Ruiz', role: 'technician' });
      const { token } = await app.get(SessionsService).start(personId, company.id, 'technician');
      phone = await PhoneBrowser.create({ url: signal.url, token });
      const visitIds = await threeVisits(app, company, personId);
      await new PhoneRound(app, phone, signal, company, visitIds).go(step);
    } finally {
      await phone?.remove();
      await signal.close();
      await app.close();
      await assets.remove();
    }
  },
};

/** Routine visits of today at three ponds of a mild climate, where work is due at every time of the year. */
async function threeVisits(app: WebApp, company: CompanyEntity, technicianId: string): Promise<string[]> {
  const visits = app.get(VisitsService);
  const today = isoDateOf(app.clock.today(company.timeZone));
  const ids: string[] = [];
  for (const [name, fromTime, toTime] of STOPS) {
    const place = { town: 'Phoenix', region: 'AZ', latitude: 33.45, longitude: -112.07, elevationM: 331 };
    const pond = aPond({ name, ...place, gateCode: '4711', accessNotes: 'Gate on the left.', careSince: today });
    const pondId = await app.get(PondsService).create(company.id, pond);
    const tasks = await app.get(CareCalendarService).tasksOf(company.id, pondId);
    const work = tasks.find(({ rule }) => rule.id === 'biological-media-rinse');
    assert.ok(work, `no media to rinse among ${tasks.map(({ rule }) => rule.id).join(', ')}`);
    const { visit } = await visits.create(company.id, {
      pondId,
      taskIds: [work.task.id],
      plannedOn: today,
      fromTime,
      toTime,
      technicianId,
    });
    await visits.publish(company.id, visit.id);
    ids.push(visit.id);
  }
  return ids;
}

class PhoneRound {
  private page!: Page;
  private readonly presses: number[] = [];
  private readonly seconds: number[] = [];

  constructor(
    private readonly app: WebApp,
    private readonly phone: PhoneBrowser,
    private readonly signal: Signal,
    private readonly company: CompanyEntity,
    private readonly visitIds: readonly string[],
  ) {}

  async go(step: Step): Promise<void> {
    await step('the phone opens its round once with signal', () => this.openInTheMorning());
    await step('the signal goes, and the round opens all the same', () => this.openWithoutSignal());
    await step('it opens from cold on a processor a quarter as fast', () => this.openSlowly());
    await step('three visits are closed without signal, the battery ending beside the second pond', () =>
      this.closeThree(),
    );
    await step('the page is loaded again: nothing is lost', () => this.loadAgain());
    await step('the battery ends again, and the phone starts without signal', () => this.endBattery());
    await step('the signal is back, and everything goes by itself', () => this.sendAll());
    await step('the office has each closing, reading and photo once', async () => JSON.stringify(await this.count()));
  }

  private async openInTheMorning(): Promise<string> {
    this.page = await this.phone.start();
    await this.page.goto(`${this.signal.url}/my-round`);
    await this.page.locator('#kept[data-kept]').waitFor();
    const pages = await this.page.evaluate(async () => (await (await caches.open('tarnkeep-pages')).keys()).length);
    assert.equal(pages, 4);
    const isHidden = await this.page.evaluate(async () => {
      const answers = await (await caches.open('tarnkeep-pages')).matchAll();
      const texts = await Promise.all(answers.map((answer) => answer.text()));
      return texts.every((text) => !text.includes('4711'));
    });
    assert.ok(isHidden, 'a kept page holds the gate code');
    const texts = await this.page.evaluate(async () => {
      const cache = await caches.open('tarnkeep-pages');
      const answers = await Promise.all([
        cache.match('/my-round'),
        cache.match((await cache.keys()).at(-1) as Request),
      ]);
      return Promise.all(answers.map((answer) => (answer as Response).text()));
    });
    const kilobytes = Math.round((await firstLoadBytes(texts)) / 1000);
    return `${pages} pages kept, none with a gate code; round and visit with all they need: ${kilobytes} kB compressed`;
  }

  private async openWithoutSignal(): Promise<string> {
    this.signal.cut();
    await this.phone.context().setOffline(true);
    const began = performance.now();
    await this.page.goto(`${this.signal.url}/my-round`);
    await this.page.getByRole('link', { name: /Open the visit/ }).waitFor();
    const gate = this.page.locator('section.next:not([hidden]) .gate');
    await gate.getByText('Show the gate code').click();
    await gate.getByText('4711').waitFor();
    return `shown after ${Math.round(performance.now() - began)} ms, gate code on a press`;
  }

  private async openSlowly(): Promise<string> {
    const times: number[] = [];
    for (let i = 0; i < 3; i++) times.push(await coldStartMs(this.phone.context(), `${this.signal.url}/my-round`));
    return `${times.join(', ')} ms`;
  }

  private async closeThree(): Promise<string> {
    for (const [i, [name]] of STOPS.entries()) {
      const thumb = new Thumb(() => this.page);
      await this.page.getByRole('heading', { name: `Next: ${name}` }).waitFor();
      await thumb.press(this.page.getByRole('link', { name: /Open the visit/ }));
      // Kept pages have no number of a closing: this one did not come from the network.
      assert.equal(await this.page.locator('[name=closingId]').getAttribute('value'), '');
      await this.ready();
      if (i === 0) await this.takePhoto();
      for (const box of await this.page.locator('ul.check input[type=checkbox]').all()) await thumb.press(box);
      for (const [label, figures] of READINGS) {
        await thumb.type(this.page.getByLabel(label, { exact: true }), figures);
      }
      await this.page.locator('#said-total-ammonia').getByText('Un-ionised ammonia 0.031 mg/L').waitFor();
      if (i === 1) await this.endBatteryBesidePond();
      await thumb.press(this.page.getByRole('button', { name: 'Close the visit' }));
      await this.page.locator('#just-closed').getByText(`${name} is closed.`).waitFor();
      this.presses.push(thumb.presses);
      this.seconds.push(thumb.seconds);
    }
    await this.page.getByText('3 visits today, none is left.').waitFor();
    return `${this.presses.join(', ')} presses`;
  }

  private async takePhoto(): Promise<void> {
    const jpeg = await this.page.evaluate(async () => {
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [3000, 2000];
      canvas.getContext('2d')?.fillRect(0, 0, 1500, 2000);
      return canvas.toDataURL('image/jpeg').split(',')[1] as string;
    });
    const file = { name: 'pond.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(jpeg, 'base64') };
    await this.page.setInputFiles('#photo', file);
    await this.page.locator('#photo-list').getByText('Photo 1.').waitFor();
  }

  /** Nothing is pressed again: what was typed comes back. */
  private async endBatteryBesidePond(): Promise<void> {
    const address = this.page.url();
    await this.page.getByText('Saved on this phone as you type.').waitFor();
    await this.page.waitForTimeout(300);
    await this.phone.kill();
    this.page = await this.phone.start({ isOffline: true });
    await this.page.goto(address);
    await this.ready();
    for (const [label, figures] of READINGS) {
      assert.equal(await this.page.getByLabel(label, { exact: true }).inputValue(), figures);
    }
    assert.equal(await this.page.locator('ul.check input[type=checkbox]:not(:checked)').count(), 0);
  }

  private async loadAgain(): Promise<string> {
    await this.page.reload();
    const bar = this.page.locator('#sent');
    await bar.getByText('4 not sent yet').waitFor();
    await this.page.getByText('3 visits today, none is left.').waitFor();
    assert.equal(await this.closings(), 0);
    return `"${await bar.textContent()}", nothing at the office`;
  }

  private async endBattery(): Promise<string> {
    await this.phone.kill();
    this.page = await this.phone.start({ isOffline: true });
    const began = performance.now();
    await this.page.goto(`${this.signal.url}/my-round`);
    await this.page.locator('#sent').getByText('4 not sent yet').waitFor();
    return `shown after ${Math.round(performance.now() - began)} ms`;
  }

  private async sendAll(): Promise<string> {
    this.signal.restore();
    await this.phone.context().setOffline(false);
    await this.page.locator('#sent').getByText('All sent').waitFor({ timeout: 60_000 });
    // Every page of the round sends what waits when it opens; there is nothing left to send twice.
    await this.page.goto(`${this.signal.url}/my-round`);
    await this.page.locator('#kept[data-kept]').waitFor();
    return `"${await this.page.locator('#sent').textContent()}"`;
  }

  private async count() {
    const histories = await this.histories();
    const readings = histories.flatMap((history) =>
      history.readings.map(({ visitId, quantity }) => `${visitId} ${quantity}`),
    );
    const closings = histories.flatMap((history) => history.closings);
    const visitsOnServer = histories.filter(({ visit }) => visit.state === 'COMPLETED').length;
    const duplicates = closings.length - visitsOnServer + (readings.length - new Set(readings).size);
    assert.equal(visitsOnServer, this.visitIds.length);
    assert.equal(duplicates, 0);
    assert.equal(readings.length, READINGS.length * this.visitIds.length);
    assert.deepEqual(
      closings.flatMap(({ record }) => record.flags ?? []),
      [],
    );
    const photos = await this.app.database.company(this.company.id).find(VisitPhotoEntity, {});
    assert.equal(photos.length, 1);
    const presses = Math.max(...this.presses);
    assert.ok(presses <= MOST_PRESSES, `${presses} presses`);
    return {
      presses,
      estimatedSeconds: Math.round(Math.max(...this.seconds)),
      visitsClosed: this.presses.length,
      visitsOnServer,
      readingsOnServer: readings.length,
      photosOnServer: photos.length,
      duplicates,
    };
  }

  private async closings(): Promise<number> {
    return (await this.histories()).reduce((count, history) => count + history.closings.length, 0);
  }

  private async histories(): Promise<VisitHistory[]> {
    const visits = this.app.get(VisitsService);
    return Promise.all(this.visitIds.map((id) => visits.history(this.company.id, id)));
  }

  private async ready(): Promise<void> {
    await this.page.locator('html[data-ready]').waitFor();
  }
}
