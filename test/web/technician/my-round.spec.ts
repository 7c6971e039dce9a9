import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { newId } from '../../../src/platform/ids.js';
import { aClosing, actorOf } from '../../visits/visit-stack.js';
import { type WebStack, webStack } from './web-stack.js';

let web: WebStack;
beforeAll(async () => {
  web = await webStack();
  web.as(web.technician);
});
afterAll(() => web.close());

const OWN = {
  accessNotes: 'Gate on the left, latch sticks.',
  gateCode: '4711#',
  hazards: 'Dog; open <vault> & ladder.',
  contacts: [{ name: 'Ida Brandt', role: 'homeowner', phone: '+1 (608) 555-0142', email: 'ida@example.com' }],
} as never;

async function aVisit(options: { plannedOn?: string; isPublished?: boolean; count?: number } = {}) {
  const { pondId, tasks } = await web.pondWithTasks(OWN);
  const taken = tasks.filter(({ rule }) => rule.id === 'part-water-change').slice(0, options.count ?? 1);
  const { visit } = await web.visits.create(web.companyId, {
    pondId,
    taskIds: taken.map(({ task }) => task.id),
    plannedOn: options.plannedOn ?? '2026-05-15',
    fromTime: '08:00',
    toTime: '10:00',
    technicianId: web.technician.personId,
  });
  if (options.isPublished !== false) await web.visits.publish(web.companyId, visit.id);
  return { visitId: visit.id, pondId, taken, path: `/my-round/visits/${visit.id}` };
}
const closingId = (page: string) => /name="closingId" value="([^"]+)"/.exec(page)?.[1] ?? '';
const closings = async (visitId: string) => (await web.visits.history(web.companyId, visitId)).closings;

describe('my round', () => {
  it('shows today in order, the way in, what to load, and the days after', async () => {
    const today = await aVisit();
    const later = await aVisit({ plannedOn: '2026-05-18' });
    const { status, text, headers } = await web.get('/my-round');
    expect(status).toBe(200);
    expect(headers.get('cache-control')).toBe('private, no-store');
    expect(text).toContain('Friday 15 May');
    expect(text).toContain('Monday 18 May');
    expect(text).toContain('geo:43.07000,-89.40000');
    expect(text).toContain('tel:+16085550142');
    expect(text).toContain('4711#');
    expect(text).toMatch(/<details class="gate"[^>]*><summary>Show the gate code/);
    expect(text).toContain('Sodium thiosulfate, crystals (pentahydrate)');
    expect(text.indexOf(today.path)).toBeLessThan(text.indexOf(later.path));
    // What people typed stays text.
    expect(text).toContain('Dog; open &lt;vault> &amp; ladder.');
  });

  it('says plainly when there is nothing', async () => {
    web.as(web.office);
    const { text } = await web.get('/my-round');
    expect(text).toContain('No visit is on your round today.');
    expect(text).toContain('Nothing waits here.');
    web.as(web.technician);
  });

  it('shows visits of earlier days that were never closed', async () => {
    const { path } = await aVisit();
    web.clock.set('2026-05-19T15:00:00Z');
    const { text } = await web.get('/my-round');
    web.clock.set('2026-05-15T15:00:00Z');
    expect(text).toContain('Not closed yet');
    expect(text).toContain(path);
    expect(text).not.toContain('4711#');
  });

  it('is for people of the company only', async () => {
    const { path } = await aVisit();
    web.as(actorOf(newId(), { role: 'technician' }));
    expect((await web.get(path)).status).toBe(404);
    web.as(actorOf(web.companyId, { role: 'homeowner' }));
    expect((await web.get(path)).status).toBe(403);
    web.as(null);
    expect((await web.get(path)).status).toBe(303);
    web.as(web.technician);
  });
});

describe('the visit page', () => {
  it('has cautions before steps, quantities with what they are for, and units in the fields', async () => {
    const { path } = await aVisit();
    const { status, text } = await web.get(path);
    expect(status).toBe(200);
    expect(text.indexOf('class="caution"')).toBeLessThan(text.indexOf('Steps and why'));
    expect(text).toMatch(/Change [\d.,]+ gal, \d+ % of the [\d,]+ gal counted for the pond\./);
    expect(text).toContain('inputmode="decimal"');
    expect(text).toContain('°F');
    expect(text).toContain('Close the visit');
    expect(text).toContain('Told 8:00 to 10:00');
  });

  it('shows the gate code on the day only', async () => {
    const tomorrow = await aVisit({ plannedOn: '2026-05-16' });
    expect((await web.get(tomorrow.path)).text).not.toContain('4711#');
    web.clock.set('2026-05-16T15:00:00Z');
    expect((await web.get(tomorrow.path)).text).toContain('4711#');
    web.clock.set('2026-05-15T15:00:00Z');
  });

  it('takes note of setting out and arriving', async () => {
    const { path, visitId } = await aVisit();
    expect((await web.post(`${path}/on-the-way`)).status).toBe(303);
    expect((await web.post(`${path}/start`)).status).toBe(303);
    const { visit } = await web.visits.get(web.companyId, visitId);
    expect(visit).toMatchObject({ state: 'IN-PROCESS', onTheWayAt: '2026-05-15T15:00:00.000Z' });
    expect((await web.get(path)).text).not.toContain('I am here');
  });

  it('closes by a plain form, with readings in the stored unit', async () => {
    const { path, visitId, taken } = await aVisit();
    const page = (await web.get(path)).text;
    const answer = await web.post(`${path}/closing`, {
      closingId: closingId(page),
      [`task:${taken[0]?.task.id}:done`]: 'on',
      [`task:${taken[0]?.task.id}:changedL`]: '150',
      'reading:water-temperature': '57.6',
      'reading:ph': '8,2',
      'reading:total-ammonia': '0.8',
      note: 'Skimmer door is cracked, holds for now.',
      homeowner: 'yes',
    });
    expect(answer.status).toBe(303);
    expect(answer.headers.get('location')).toBe(path);

    const { readings, closings: kept, visit } = await web.visits.history(web.companyId, visitId);
    expect(visit.state).toBe('COMPLETED');
    expect(readings.find(({ quantity }) => quantity === 'water-temperature')?.value).toBeCloseTo(14.222, 3);
    expect(readings.find(({ quantity }) => quantity === 'ph')?.value).toBe(8.2);
    expect(kept[0]?.record).toMatchObject({ homeownerPresent: true, note: 'Skimmer door is cracked, holds for now.' });
    const { task } = await web.calendar.task(web.companyId, taken[0]!.task.id);
    expect(task.actuals.changedL).toBeCloseTo(567.8, 1);

    const closed = (await web.get(path)).text;
    expect(closed).toContain('Sent and kept at 10:00.');
    expect(closed).toContain('Un-ionised ammonia 0.031 mg/L');
    expect(closed).toContain('Skimmer door is cracked, holds for now.');
    expect(closed).not.toContain('name="closingId"');
  });

  it('posted twice is closed once', async () => {
    const { path, visitId } = await aVisit();
    const fields = { closingId: closingId((await web.get(path)).text), note: 'All well.', 'reading:ph': '7.4' };
    expect((await web.post(`${path}/closing`, fields)).status).toBe(303);
    web.clock.advance({ minutes: 3 });
    expect((await web.post(`${path}/closing`, fields)).status).toBe(303);
    web.clock.set('2026-05-15T15:00:00Z');
    const { closings: kept, readings } = await web.visits.history(web.companyId, visitId);
    expect([kept.length, readings.length]).toEqual([1, 1]);
  });

  it('gives everything typed back when a field cannot be used', async () => {
    const { path, visitId, taken } = await aVisit();
    const id = closingId((await web.get(path)).text);
    const task = taken[0]?.task.id;
    const note = 'He said "call <me> & mine".\nSecond line.';
    const answer = await web.post(`${path}/closing`, {
      closingId: id,
      [`task:${task}:done`]: 'on',
      [`task:${task}:remark`]: 'hose "leaks"',
      'reading:ph': '71',
      'reading:nitrite': '0.4',
      'reading:pump-flow': '2,910',
      homeowner: 'no',
      note,
    });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('Did you mean 7.1?');
    expect(answer.text).toContain('Nothing you typed is lost.');
    expect(closingId(answer.text)).toBe(id);
    expect(answer.text).toMatch(/name="reading:ph" value="71"/);
    expect(answer.text).toMatch(/name="reading:pump-flow" value="2,910"/);
    expect(answer.text).toMatch(/name="homeowner" value="no" checked/);
    expect(answer.text).toMatch(new RegExp(`name="task:${task}:done" checked`));
    expect(answer.text).toContain('He said &#34;call &lt;me> &amp; mine&#34;.\nSecond line.');
    expect(answer.text).toContain('hose &#34;leaks&#34;');
    // What is in order is judged all the same.
    expect(answer.text).toContain('Nitrite 0.4 mg/L');
    expect(await closings(visitId)).toEqual([]);

    const second = await web.post(`${path}/closing`, { closingId: id, 'reading:ph': '7.1', note });
    expect(second.status).toBe(303);
    expect(await closings(visitId)).toHaveLength(1);
  });

  it('asks why when nothing at all was typed', async () => {
    const { path, visitId } = await aVisit();
    const answer = await web.post(`${path}/closing`, { closingId: newId() });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('Nothing is ticked, read or written.');
    expect(await closings(visitId)).toEqual([]);
  });

  it('keeps what was typed when the closing cannot be kept', async () => {
    const used = await aVisit();
    const id = newId();
    await web.visits.close(web.technician, used.visitId, aClosing([], { closingId: id, note: 'x' }));
    const { path } = await aVisit();
    const answer = await web.post(`${path}/closing`, { closingId: id, note: 'Mine.' });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('already names something else');
    expect(answer.text).toContain('Mine.');
  });

  it('lets something be added to a closed visit, and keeps both', async () => {
    const { path, visitId } = await aVisit();
    await web.post(`${path}/closing`, { closingId: newId(), note: 'First.' });
    const page = (await web.get(`${path}?add=1`)).text;
    expect(page).toContain('Add this to the visit');
    await web.post(`${path}/closing`, { closingId: closingId(page), note: 'Second.' });
    expect((await closings(visitId)).map(({ record }) => record.note)).toEqual(['First.', 'Second.']);
    expect((await web.get(path)).text).toContain('This closing is kept beside the first');
  });

  it('says that the office has cancelled it, and takes the closing all the same', async () => {
    const { path, visitId } = await aVisit();
    await web.visits.cancel(web.companyId, visitId, 'Storm');
    expect((await web.get(path)).text).toContain('The office has cancelled this visit: Storm');
    expect((await web.post(`${path}/closing`, { closingId: newId(), note: 'Was there.' })).status).toBe(303);
    expect((await web.get(path)).text).toContain('The office had cancelled this visit meanwhile.');
  });

  it('refuses a post from another site or an old session', async () => {
    const { path, visitId } = await aVisit();
    const wrong = await web.post(`${path}/closing`, { _token: 'other', closingId: newId(), note: 'x' });
    expect(wrong.status).toBe(403);
    expect(await closings(visitId)).toEqual([]);
  });
});

describe('the closing as JSON', () => {
  const body = (own: object = {}) => ({
    closingId: newId(),
    closedAt: '2026-05-15T14:55:00Z',
    note: 'From the phone.',
    readings: [{ id: newId(), quantity: 'ph', value: 7.4, takenAt: '2026-05-15T14:50:00Z' }],
    ...own,
  });
  const at = (visitId: string) => `/api/visits/${visitId}/closing`;

  it('answers the same to the same closing', async () => {
    const { visitId } = await aVisit();
    const closing = body();
    const [first, second] = [await web.json(at(visitId), closing), await web.json(at(visitId), closing)];
    expect([first.status, second.status]).toEqual([200, 200]);
    expect(second.text).toBe(first.text);
    expect(JSON.parse(first.text)).toMatchObject({
      outcome: 'closed',
      closingVersion: 1,
      closingId: closing.closingId,
    });
  });

  it('takes two phones at once: one closes, the other is kept', async () => {
    const { visitId } = await aVisit();
    const answers = await Promise.all([web.json(at(visitId), body()), web.json(at(visitId), body())]);
    expect(answers.map(({ status }) => status)).toEqual([200, 200]);
    const outcomes = answers.map(({ text }) => (JSON.parse(text) as { outcome: string }).outcome).sort();
    expect(outcomes).toEqual(['amended', 'closed']);
    expect(await closings(visitId)).toHaveLength(2);
  });

  it.each([
    ['an unknown field', { colour: 'red' }, 422],
    [
      'a reading that is no number',
      { readings: [{ id: newId(), quantity: 'ph', value: '7', takenAt: '2026-05-15T14:50:00Z' }] },
      422,
    ],
    [
      'a reading no pond shows',
      { readings: [{ id: newId(), quantity: 'ph', value: 13, takenAt: '2026-05-15T14:50:00Z' }] },
      422,
    ],
    ['no closing id', { closingId: undefined }, 422],
    ['a note too long', { note: 'a'.repeat(10_001) }, 422],
  ])('refuses %s as problem+json', async (_, own, status) => {
    const { visitId } = await aVisit();
    const answer = await web.json(at(visitId), body(own));
    expect(answer.status).toBe(status);
    expect(answer.headers.get('content-type')).toContain('application/problem+json');
    expect(await closings(visitId)).toEqual([]);
  });

  it('knows no visit of another company', async () => {
    const { visitId } = await aVisit();
    web.as(actorOf(newId()));
    const answer = await web.json(at(visitId), body());
    web.as(web.technician);
    expect(answer.status).toBe(404);
    expect(answer.headers.get('content-type')).toContain('application/problem+json');
  });

  it('needs the form token', async () => {
    const { visitId } = await aVisit();
    expect((await web.json(at(visitId), body(), { 'x-form-token': 'wrong' })).status).toBe(403);
  });
});
