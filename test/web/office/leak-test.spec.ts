import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { newId } from '../../../src/platform/ids.js';
import { PondEventsService, PondsService } from '../../../src/ponds/index.js';
import { aPond } from '../../support/typed-pond.js';
import type { Visitor } from '../../support/visitor.js';
import { type WebApp, webApp } from '../../support/web-app.js';

describe('the leak test of a pond', () => {
  let app: WebApp;
  let companyId: string;
  let office: Visitor;
  let pondId: string;
  /** Of the form, so that sending it twice keeps one test. */
  let formId: string;
  beforeAll(async () => {
    app = await webApp();
  });
  afterAll(() => app.close());
  beforeEach(async () => {
    companyId = (await app.company('Sedge & Kettle', 'metric')).id;
    office = await app.signedIn(companyId);
    formId = newId();
    pondId = await app.get(PondsService).create(companyId, aPond());
  });

  /** Five days of October: 8 mm a day lost, a bucket 2 mm a day. */
  const levels = (own: Record<string, string> = {}) => ({
    id: formId,
    'level.0.at': '2026-09-28T08:00',
    'level.0.below': '0',
    'level.1.at': '2026-10-03T08:00',
    'level.1.below': '40',
    bucket: '10',
    pumps: 'on',
    ...own,
  });
  const address = () => `/ponds/${pondId}/leak-test`;
  const events = () => app.get(PondEventsService).list(companyId, pondId);

  it('begins with how long to measure, and with nothing to say', async () => {
    const { status, text } = await office.get(address());
    expect(status).toBe(200);
    expect(text).toMatch(/evaporates at this time of the year/);
    expect(text).toMatch(/tell a leak of 5 mm a day/);
    expect(text).toContain('With two levels the verdict stands here');
  });

  it('works a test out without keeping it, then keeps it and shows it on the page of the pond', async () => {
    const looked = await office.post(address(), levels({ look: 'yes' }));
    expect(looked.status).toBe(200);
    expect(looked.text).toMatch(/It leaks, about [\d,.]+ L a day/);
    expect(looked.text).toMatch(/Repeat it with the pumps off/);
    expect(await events()).toHaveLength(0);

    const kept = await office.post(address(), levels());
    expect(kept.status).toBe(303);
    expect((await office.get(kept.location)).text).toContain('It leaks, about');
    const page = (await office.get(`/ponds/${pondId}`)).text;
    expect(page).toMatch(/Leak test[\s\S]*It leaks, about/);
    expect(page).toContain('The pond was tested for a leak');
    expect(page).not.toContain('belowMarkMm');
    expect(page).not.toMatch(/NaN|undefined|\[object/);
  });

  it('keeps one test of a form sent twice, and goes on with it by a further level', async () => {
    await office.post(address(), levels());
    await office.post(address(), levels());
    expect(await events()).toHaveLength(1);

    const form = (await office.get(address())).text;
    expect(form).toContain('value="2026-09-28T08:00"');
    await office.post(
      address(),
      levels({ id: newId(), 'level.2.at': '2026-10-05T08:00', 'level.2.below': '56', bucket: '14' }),
    );
    const page = (await office.get(`/ponds/${pondId}`)).text;
    expect(page.match(/The pond was tested for a leak/g)).toHaveLength(1);
    expect((await office.get(address())).text).toContain('value="2026-10-05T08:00"');
  });

  it('tells the falls from the basin once both tests are there', async () => {
    await office.post(address(), levels());
    const off = await office.post(address(), levels({ look: 'yes', pumps: 'off', 'level.1.below': '11' }));
    expect(off.text).toContain('No leak found');
    expect(off.text).toMatch(/search the falls, the stream, the filter and the pipes/);
  });

  it('keeps everything typed when a level cannot be used, and says what is wrong where', async () => {
    const wrong = await office.post(address(), levels({ 'level.1.below': 'deep', 'level.1.at': '' }));
    expect(wrong.status).toBe(422);
    expect(wrong.text).toMatch(/“deep” is not a number/);
    expect(wrong.text).toContain('This is needed.');
    expect(wrong.text).toContain('value="2026-09-28T08:00"');

    const one = await office.post(address(), levels({ 'level.1.below': '', 'level.1.at': '' }));
    expect(one.text).toContain('At least two, some days apart.');
    const backwards = await office.post(address(), levels({ 'level.1.at': '2026-09-20T08:00' }));
    expect(backwards.text).toContain('in the order in which they were read');
    const short = await office.post(address(), levels({ 'level.1.at': '2026-09-28T09:00' }));
    expect(short.text).toContain('at least six hours');
    const future = await office.post(address(), levels({ 'level.1.at': '2026-10-09T08:00' }));
    expect(future.text).toContain('cannot be taken in the future');
    expect(await events()).toHaveLength(0);
  });

  it('reads inches, and adds an empty row without a word about the rest', async () => {
    const us = await app.company('Pike & Reed', 'us');
    const visitor = await app.signedIn(us.id);
    const id = await app.get(PondsService).create(us.id, aPond());
    const inches = levels({ 'level.1.below': '1.575', bucket: '0.394', look: 'yes' });
    const looked = await visitor.post(`/ponds/${id}/leak-test`, inches);
    expect(looked.text).toMatch(/It leaks, about [\d,.]+ gal a day/);
    const fractions = await visitor.post(`/ponds/${id}/leak-test`, {
      ...inches,
      'level.0.below': '-3/8',
      'level.1.below': '1 3/16',
    });
    // 1 3/16 and 3/8 in are 39.7 mm.
    expect(fractions.text).toMatch(/The pond lost[\s\S]{0,80}1\.56 in/);
    expect(fractions.text).toContain('value="1 3/16"');
    const more = await visitor.post(`/ponds/${id}/leak-test`, levels({ 'level.1.at': '', more: 'level' }));
    expect(more.text).toContain('name="level.3.below"');
    expect(more.text).not.toContain('role="alert"');
  });

  it('is no business of another company or of a technician', async () => {
    const stranger = await app.signedIn((await app.company('Other')).id);
    expect((await stranger.get(address())).status).toBe(404);
    expect((await stranger.post(address(), levels())).status).toBe(404);
    const technician = await app.signedIn(companyId, 'technician');
    expect((await technician.get(address())).status).toBe(403);
  });

  it('has the energy of the pumps beside it, and its cost at a price', async () => {
    const plain = (await office.get(`/ponds/${pondId}`)).text;
    expect(plain).toContain('964 kWh a year');
    const priced = (await office.get(`/ponds/${pondId}?kwh=0.17`)).text;
    expect(priced).toContain('964 kWh a year, 163.81');
    expect((await office.get(`/ponds/${pondId}?kwh=cheap`)).text).toContain('Write the price of one kWh');
  });
});
