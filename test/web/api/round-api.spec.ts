import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import type { KeptRound } from '../../../src/web/technician/phone/kept-round.js';
import { aClosing } from '../../visits/visit-stack.js';
import { type WebStack, webStack } from '../technician/web-stack.js';

let web: WebStack;
beforeAll(async () => {
  web = await webStack();
  web.as(web.technician);
});
afterAll(() => web.close());

async function aVisit(plannedOn = '2026-05-15') {
  const { pondId, tasks } = await web.pondWithTasks({ gateCode: '4711#' } as never);
  const taken = tasks.slice(0, 1);
  const { visit } = await web.visits.create(web.companyId, {
    pondId,
    taskIds: taken.map(({ task }) => task.id),
    plannedOn,
    technicianId: web.technician.personId,
  });
  await web.visits.publish(web.companyId, visit.id);
  return { visitId: visit.id, taken };
}

async function round(): Promise<{ round: KeptRound; etag: string }> {
  const { status, text, headers } = await web.get('/api/my-round');
  expect(status).toBe(200);
  return { round: JSON.parse(text) as KeptRound, etag: headers.get('etag') ?? '' };
}
const known = async (etag: string) =>
  (await fetch(`${web.base}/api/my-round`, { headers: { 'if-none-match': etag } })).status;

describe('the round as a phone keeps it', () => {
  it('names today and tomorrow, not the days after', async () => {
    const today = await aVisit();
    const tomorrow = await aVisit('2026-05-16');
    const later = await aVisit('2026-05-18');
    const hrefs = (await round()).round.pages.map(({ href }) => href);
    expect(hrefs).toContain('/my-round');
    expect(hrefs).toContain(`/my-round/visits/${today.visitId}`);
    expect(hrefs).toContain(`/my-round/visits/${tomorrow.visitId}`);
    expect(hrefs).not.toContain(`/my-round/visits/${later.visitId}`);
  });

  it('has not changed until something on it has', async () => {
    const { visitId, taken } = await aVisit();
    const before = await round();
    expect(await known(before.etag)).toBe(304);
    await web.visits.close(web.technician, visitId, aClosing(taken));
    expect(await known(before.etag)).toBe(200);
    const page = (of: KeptRound) => of.pages.find(({ href }) => href.endsWith(visitId))?.hash;
    expect(page((await round()).round)).not.toBe(page(before.round));
  });

  it('holds a gate code apart from the pages, for the rest of the day', async () => {
    const today = await aVisit();
    const tomorrow = await aVisit('2026-05-16');
    const { visits, pages } = (await round()).round;
    const of = (visitId: string) => visits.find((visit) => visit.visitId === visitId);
    // Ten in the morning in Chicago: fourteen hours are left.
    expect(of(today.visitId)).toMatchObject({ gateCode: '4711#', keepMs: 14 * 3_600_000 - 1 });
    expect(of(tomorrow.visitId)?.gateCode).toBeNull();
    for (const { href } of pages) expect((await web.get(`${href}?keep=1`)).text).not.toContain('4711#');
  });

  it('gives a kept page no number of a closing: each opening makes its own', async () => {
    const { visitId } = await aVisit();
    const { text } = await web.get(`/my-round/visits/${visitId}?keep=1`);
    expect(text).toContain('name="closingId" value=""');
  });

  it('is for people of the company only', async () => {
    web.as(null);
    expect((await fetch(`${web.base}/api/my-round`)).status).toBe(401);
    web.as(web.technician);
  });

  it('serves the worker from the root, never stored', async () => {
    const { status, text, headers } = await web.get('/phone-worker.js');
    expect(status).toBe(200);
    expect(headers.get('content-type')).toContain('text/javascript');
    expect(headers.get('cache-control')).toBe('no-cache');
    expect(text).toMatch(/^importScripts\("\/assets\/phone-worker\.js\?v=\w+"\);$/m);
  });
});

describe('a step that comes late', () => {
  it('is answered like one in time, and changes nothing', async () => {
    const { visitId, taken } = await aVisit();
    const first = await web.json(`/api/visits/${visitId}/start`, { at: '2026-05-15T14:10:00Z' });
    expect(JSON.parse(first.text)).toMatchObject({ visitId, state: 'IN-PROCESS', isTaken: true });
    await web.visits.close(web.technician, visitId, aClosing(taken));
    const late = await web.json(`/api/visits/${visitId}/on-the-way`, {});
    expect(late.status).toBe(200);
    expect(JSON.parse(late.text)).toMatchObject({ visitId, state: 'COMPLETED', isTaken: false });
  });

  it('refuses what is no time', async () => {
    const { visitId } = await aVisit();
    expect((await web.json(`/api/visits/${visitId}/start`, { at: 'noon' })).status).toBe(422);
  });
});
