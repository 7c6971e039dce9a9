import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { newId } from '../../../src/platform/ids.js';
import type { NewOutboxItem } from '../../../src/web/technician/phone/outbox.js';
import { type SyncEnd, sendWaiting } from '../../../src/web/technician/phone/sync.js';
import { aClosing } from '../../visits/visit-stack.js';
import { listOutbox } from './list-outbox.js';
import { type WebStack, webStack } from './web-stack.js';

const OWNER = 'company:person';
let web: WebStack;
beforeAll(async () => {
  web = await webStack();
  web.as(web.technician);
});
afterAll(() => web.close());

async function aVisit() {
  const { pondId, tasks } = await web.pondWithTasks();
  const taken = tasks.slice(0, 1);
  const { visit } = await web.visits.create(web.companyId, {
    pondId,
    taskIds: taken.map(({ task }) => task.id),
    plannedOn: '2026-05-15',
    technicianId: web.technician.personId,
  });
  await web.visits.publish(web.companyId, visit.id);
  return { visitId: visit.id, taken };
}

type Visit = Awaited<ReturnType<typeof aVisit>>;
const common = (visitId: string) => ({
  owner: OWNER,
  visitId,
  pondName: 'Back garden',
  savedAt: '2026-05-15T14:55:00Z',
});

/** Setting out, arriving, and a closing with a reading, as a phone saves them. */
function dayOf({ visitId, taken }: Visit): NewOutboxItem[] {
  const closing = aClosing(taken, {
    readings: [{ id: newId(), quantity: 'ph', value: 7.6, takenAt: '2026-05-15T14:40:00Z' }],
  });
  const at = { at: '2026-05-15T14:10:00Z' };
  return [
    { ...common(visitId), kind: 'on-the-way', id: newId(), body: at },
    { ...common(visitId), kind: 'start', id: newId(), body: at },
    { ...common(visitId), kind: 'closing', id: closing.closingId, body: closing },
  ];
}

/** A network that may lose a request on its way, or its answer. */
function network(loses: (count: number) => 'request' | 'answer' | null = () => null) {
  let count = 0;
  return async (address: string, init: RequestInit): Promise<Response> => {
    count += 1;
    const lost = loses(count);
    if (lost === 'request') throw new TypeError('network');
    const { signal: _signal, ...rest } = init;
    const answer = await fetch(web.base + address, rest);
    if (lost === 'answer') {
      await answer.arrayBuffer();
      throw new TypeError('network');
    }
    return answer;
  };
}

const send = (outbox: ReturnType<typeof listOutbox>, fetcher = network(), token = 'form-token'): Promise<SyncEnd> =>
  sendWaiting({
    outbox,
    owner: OWNER,
    fetch: fetcher,
    token: async () => token,
    freshToken: async () => ({ owner: OWNER, formToken: 'form-token' }),
    now: () => '2026-05-15T15:00:00Z',
  });
const history = (visitId: string) => web.visits.history(web.companyId, visitId);
/** What the server keeps of a visit, without the times of keeping. */
async function kept(visitId: string) {
  const { visit, closings, readings, tasks } = await history(visitId);
  return {
    state: visit.state,
    closings: closings.map(({ id, record }) => [id, record]),
    readings: readings.map(({ id, value }) => [id, value]),
    tasks: tasks.map(({ onVisit }) => [onVisit.outcome, onVisit.remark]),
  };
}

describe('sending what a phone has saved', () => {
  it('sends all in order, and empties what has gone', async () => {
    const visit = await aVisit();
    const outbox = listOutbox(dayOf(visit));
    expect(await send(outbox)).toBe('all-sent');
    expect(outbox.items.map(({ state, body }) => [state, body])).toEqual(Array(3).fill(['sent', null]));
    const { visit: closed, readings } = await history(visit.visitId);
    expect(closed).toMatchObject({ state: 'COMPLETED' });
    expect(closed.onTheWayAt).not.toBeNull();
    expect(readings.map(({ value }) => value)).toEqual([7.6]);
  });

  it('changes nothing when the same is sent ten times, in order, backwards or shuffled', async () => {
    const visit = await aVisit();
    const day = dayOf(visit);
    await send(listOutbox(day));
    const once = await kept(visit.visitId);
    for (let i = 0; i < 10; i++) {
      const again = i % 3 === 0 ? day : i % 3 === 1 ? day.toReversed() : [...day.slice(i % 2 ? 1 : 2), ...day];
      expect(await send(listOutbox(again))).toBe('all-sent');
      expect(await kept(visit.visitId)).toEqual(once);
    }
    expect(once.closings).toHaveLength(1);
  });

  it.each([1, 2, 3])('goes on where request %i was lost', async (nth) => {
    const visit = await aVisit();
    const outbox = listOutbox(dayOf(visit));
    expect(
      await send(
        outbox,
        network((count) => (count === nth ? 'request' : null)),
      ),
    ).toBe('no-signal');
    expect(outbox.items.filter(({ state }) => state === 'sent')).toHaveLength(nth - 1);
    expect(await send(outbox)).toBe('all-sent');
    expect((await kept(visit.visitId)).closings).toHaveLength(1);
  });

  it.each([1, 2, 3])('keeps once what was answered but never heard, at request %i', async (nth) => {
    const visit = await aVisit();
    const outbox = listOutbox(dayOf(visit));
    expect(
      await send(
        outbox,
        network((count) => (count === nth ? 'answer' : null)),
      ),
    ).toBe('no-signal');
    expect(await send(outbox)).toBe('all-sent');
    const { closings, readings } = await kept(visit.visitId);
    expect([closings.length, readings.length]).toEqual([1, 1]);
  });

  it('takes no word for it that does not name the item, e.g. of a sign-in page of a hotel', async () => {
    const outbox = listOutbox(dayOf(await aVisit()));
    const hotel = async () => new Response('<h1>Welcome</h1>', { status: 200 });
    expect(await send(outbox, hotel)).toBe('no-signal');
    expect(outbox.items.every(({ state }) => state === 'waiting')).toBe(true);
  });

  it('asks for a fresh form token when the old one is refused', async () => {
    const visit = await aVisit();
    const outbox = listOutbox(dayOf(visit));
    expect(await send(outbox, network(), 'of-yesterday')).toBe('all-sent');
    expect((await kept(visit.visitId)).state).toBe('COMPLETED');
  });

  it('sends nothing of one person in the session of another', async () => {
    const outbox = listOutbox(dayOf(await aVisit()));
    const end = await sendWaiting({
      outbox,
      owner: OWNER,
      fetch: network(),
      token: async () => 'of-yesterday',
      freshToken: async () => ({ owner: 'company:other', formToken: 'form-token' }),
      now: () => '2026-05-15T15:00:00Z',
    });
    expect(end).toBe('other-person');
    expect(outbox.items.every(({ state }) => state === 'waiting')).toBe(true);
  });

  it('keeps everything when the session has ended', async () => {
    const outbox = listOutbox(dayOf(await aVisit()));
    web.as(null);
    const end = await send(outbox);
    web.as(web.technician);
    expect(end).toBe('signed-out');
    expect(outbox.items.every(({ state }) => state === 'waiting')).toBe(true);
  });

  it('sets aside what is refused for good, with why, and sends the rest', async () => {
    const [bad, good] = [await aVisit(), await aVisit()];
    const closing = aClosing(bad.taken, {
      readings: [{ id: newId(), quantity: 'ph', value: 71, takenAt: '2026-05-15T14:40:00Z' }],
    });
    const outbox = listOutbox([
      { ...common(bad.visitId), kind: 'closing', id: closing.closingId, body: closing },
      ...dayOf(good),
    ]);
    expect(await send(outbox)).toBe('all-sent');
    expect(outbox.items[0]).toMatchObject({ state: 'needs-you', sentence: expect.stringContaining('71') });
    expect(outbox.items[0]?.body).toEqual(closing);
    expect((await kept(good.visitId)).state).toBe('COMPLETED');
  });

  it.each([500, 503, 429])('tries again later when the answer is %i', async (status) => {
    const outbox = listOutbox(dayOf(await aVisit()));
    expect(await send(outbox, async () => new Response('', { status }))).toBe('no-signal');
    expect(outbox.items.every(({ state }) => state === 'waiting')).toBe(true);
  });

  it('remembers what the office computer remarked', async () => {
    const visit = await aVisit();
    const late = dayOf(visit).slice(2);
    await web.visits.cancel(web.companyId, visit.visitId, 'Storm');
    const outbox = listOutbox(late);
    expect(await send(outbox)).toBe('all-sent');
    expect(outbox.items[0]?.flags).toContain('after-cancel');
  });

  it('is taken although the office has moved the visit meanwhile, and both are told', async () => {
    const visit = await aVisit();
    const closing = aClosing(visit.taken, { plannedOn: '2026-05-15' });
    await web.visits.move(web.companyId, visit.visitId, { plannedOn: '2026-05-16', fromTime: null, toTime: null });
    const outbox = listOutbox([{ ...common(visit.visitId), kind: 'closing', id: closing.closingId, body: closing }]);
    expect(await send(outbox)).toBe('all-sent');
    expect(outbox.items[0]?.flags).toContain('moved-meanwhile');
    expect((await kept(visit.visitId)).state).toBe('COMPLETED');
  });

  it('is believed about its clock only within reason, and loses nothing by a wrong one', async () => {
    const visit = await aVisit();
    const closing = aClosing(visit.taken, { closedAt: '2016-05-15T14:55:00Z' });
    const outbox = listOutbox([{ ...common(visit.visitId), kind: 'closing', id: closing.closingId, body: closing }]);
    expect(await send(outbox)).toBe('all-sent');
    expect(outbox.items[0]?.flags).toContain('clock-wrong');
    expect((await history(visit.visitId)).visit.closedAt).toBe('2026-05-15T15:00:00.000Z');
  });
});
