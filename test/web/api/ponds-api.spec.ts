import { afterAll, beforeAll, beforeEach, describe, expect, it } from '@jest/globals';
import { newId } from '../../../src/platform/ids.js';
import { aTypedPond } from '../../support/typed-pond.js';
import type { Visitor } from '../../support/visitor.js';
import { type WebApp, webApp } from '../../support/web-app.js';

interface PondDocument {
  id: string;
  version: number;
  state: string;
  pond: Record<string, unknown> & { name: string };
  computed: { volumeL: number; volumeSigmaPct: number };
}

describe('the JSON API of ponds', () => {
  let app: WebApp;
  let office: Visitor;
  beforeAll(async () => {
    app = await webApp();
  });
  afterAll(() => app.close());
  beforeEach(async () => {
    office = await app.signedIn((await app.company()).id);
  });

  const create = async (own: Parameters<typeof aTypedPond>[0] = {}): Promise<PondDocument> =>
    (await office.json('POST', '/api/ponds', aTypedPond(own))).body;

  it('creates a pond, names its address, and gives back what was typed and what follows from it', async () => {
    const answer = await office.json('POST', '/api/ponds', aTypedPond());
    const created = answer.body as PondDocument;
    expect(answer.status).toBe(201);
    expect(answer.headers.get('location')).toBe(`/api/ponds/${created.id}`);
    expect(created).toMatchObject({ version: 1, state: 'active', pond: { name: 'Back garden' } });
    expect(created.computed.volumeL).toBeGreaterThan(9000);

    const list = (await office.json('GET', '/api/ponds?search=back&pageSize=5')).body as {
      total: number;
      ponds: { id: string }[];
    };
    expect(list).toMatchObject({ total: 1, pageSize: 5 });
    expect(list.ponds[0]?.id).toBe(created.id);
  });

  it('takes back what it gave, as a change of the version it was made from', async () => {
    const { id, version, pond } = await create();
    const changed = await office.json('PUT', `/api/ponds/${id}`, { version, pond: { ...pond, gateCode: '4711' } });
    expect(changed.status).toBe(200);
    expect(changed.body).toMatchObject({ version: 2, pond: { gateCode: '4711' } });

    const stale = await office.json('PUT', `/api/ponds/${id}`, { version, pond });
    expect(stale.status).toBe(409);
    expect(stale.body).toMatchObject({ status: 409, code: 'stale-version' });
  });

  it('answers faults as a problem document that points at each field', async () => {
    const answer = await office.json('POST', '/api/ponds', { ...aTypedPond(), latitude: 143, colour: 'green' });
    expect(answer.status).toBe(422);
    expect(answer.headers.get('content-type')).toMatch(/^application\/problem\+json/);
    const { errors } = answer.body as { errors: { pointer: string; detail: string }[] };
    expect(errors.map(({ pointer }) => pointer)).toContain('#/latitude');
    expect(errors.find(({ pointer }) => pointer === '#/latitude')?.detail).toMatch(/-90 to 90/);
  });

  it('archives instead of deleting', async () => {
    const { id } = await create();
    expect((await office.json('DELETE', `/api/ponds/${id}`)).status).toBe(204);
    expect((await office.json('GET', `/api/ponds/${id}`)).body).toMatchObject({ state: 'archived' });
    expect((await office.json('GET', '/api/ponds')).body).toMatchObject({ total: 0 });
  });

  it('keeps readings once, however often they are sent, and refuses what no pond shows', async () => {
    const { id } = await create();
    const reading = { id: newId(), quantity: 'nitrite', value: 0.04, takenAt: '2026-10-05T08:30:00-05:00' };
    expect((await office.json('POST', `/api/ponds/${id}/readings`, { readings: [reading] })).body).toEqual({
      added: [reading.id],
    });
    expect((await office.json('POST', `/api/ponds/${id}/readings`, { readings: [reading] })).body).toEqual({
      added: [],
    });
    const { readings } = (await office.json('GET', `/api/ponds/${id}/readings`)).body as { readings: object[] };
    expect(readings).toEqual([
      expect.objectContaining({ id: reading.id, value: 0.04, takenAt: '2026-10-05T13:30:00.000Z' }),
    ]);

    const absurd = await office.json('POST', `/api/ponds/${id}/readings`, {
      readings: [{ ...reading, id: newId(), quantity: 'ph', value: 71 }],
    });
    expect(absurd.status).toBe(422);
    expect((absurd.body as { detail: string }).detail).toContain('did you mean 7.1?');
  });

  it('gives the calendar with windows, reasons and quantities, and why other rules give none', async () => {
    const { id } = await create();
    const calendar = (await office.json('GET', `/api/ponds/${id}/calendar`)).body as {
      plannedOn: string;
      tasks: { earliestOn: string; dueOn: string; latestOn: string; reason: { inputs: object[] } }[];
      notDue: object[];
    };
    expect(calendar.plannedOn).toBe('2026-10-05');
    expect(calendar.tasks.length).toBeGreaterThan(5);
    expect(calendar.notDue.length).toBeGreaterThan(0);
    for (const task of calendar.tasks) {
      expect(task.earliestOn <= task.latestOn).toBe(true);
      expect(task.reason.inputs.length).toBeGreaterThan(0);
    }
  });

  it('asks for a session, for the form token, and for the right role', async () => {
    const { id } = await create();
    expect((await app.visitor().json('GET', '/api/ponds')).status).toBe(401);
    const withoutToken = await fetch(`${app.url}/api/ponds/${id}`, {
      method: 'DELETE',
      headers: { cookie: `tarnkeep_session=${office.session}` },
    });
    expect(withoutToken.status).toBe(403);
    const technician = await app.signedIn((await app.company()).id, 'technician');
    expect((await technician.json('GET', '/api/ponds')).status).toBe(403);
    const session = (await office.json('GET', '/api/session')).body as { formToken: string; role: string };
    expect(session).toMatchObject({ role: 'office', formToken: expect.stringMatching(/^[\w-]{43}$/) });
  });

  it('knows nothing of another company’s ponds, readings and calendars', async () => {
    const { id } = await create();
    const stranger = await app.signedIn((await app.company('Another')).id);
    for (const path of [`/api/ponds/${id}`, `/api/ponds/${id}/readings`, `/api/ponds/${id}/calendar`]) {
      expect((await stranger.json('GET', path)).status).toBe(404);
    }
    expect((await stranger.json('DELETE', `/api/ponds/${id}`)).status).toBe(404);
    expect((await stranger.json('GET', '/api/ponds')).body).toMatchObject({ total: 0 });
  });
});
