import { readdir } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import sharp from 'sharp';
import { SessionsService } from '../../../src/accounts/index.js';
import { newId } from '../../../src/platform/ids.js';
import { PondsService } from '../../../src/ponds/index.js';
import { VisitsService } from '../../../src/visits/index.js';
import { aBomb, aHeic, aJpeg, aLocatedJpeg, aTextBomb, SVG_WITH_SCRIPT } from '../../support/sample-pictures.js';
import { aPond } from '../../support/typed-pond.js';
import { type WebApp, webApp } from '../../support/web-app.js';

let app: WebApp;
let visitId: string;
let session: { cookie: string; formToken: string; companyId: string };
let stranger: { cookie: string; formToken: string };

beforeAll(async () => {
  app = await webApp();
  session = await signIn('Sedge & Kettle', 'technician');
  stranger = await signIn('Otherwater Care', 'office');
  const pondId = await app.get(PondsService).create(session.companyId, aPond());
  const visit = { pondId, taskIds: [], plannedOn: '2026-10-06' };
  visitId = (await app.get(VisitsService).create(session.companyId, visit)).visit.id;
});
afterAll(() => app.close());

async function signIn(name: string, role: 'technician' | 'office') {
  const company = await app.company(name);
  const visitor = await app.signedIn(company.id, role, name);
  const token = visitor.session ?? '';
  const actor = await app.get(SessionsService).actorOf(token);
  return { cookie: `tarnkeep_session=${token}`, formToken: actor?.formToken ?? '', companyId: company.id };
}

async function put(photoId: string, bytes: Buffer, given: { as?: typeof stranger; type?: string; to?: string } = {}) {
  const { as = session, type = 'image/jpeg', to = visitId } = given;
  const response = await fetch(`${app.url}/api/visits/${to}/photos/${photoId}`, {
    method: 'PUT',
    headers: { cookie: as.cookie, 'x-form-token': as.formToken, 'content-type': type },
    body: new Uint8Array(bytes),
  });
  return { status: response.status, body: (await response.json()) as { photoId?: string; detail?: string } };
}

function get(path: string, as: { cookie: string } = session): Promise<Response> {
  return fetch(app.url + path, { headers: { cookie: as.cookie, accept: 'text/html' }, redirect: 'manual' });
}

describe('a photo sent for a visit', () => {
  it('is kept once, however often it is sent, before the visit is closed', async () => {
    const photoId = newId();
    const jpeg = await aJpeg();
    expect(await put(photoId, jpeg)).toEqual({ status: 201, body: { photoId } });
    for (let i = 0; i < 10; i += 1) expect(await put(photoId, jpeg)).toEqual({ status: 200, body: { photoId } });
    const { photos } = await app.get(VisitsService).history(session.companyId, visitId);
    expect(photos.filter(({ id }) => id === photoId)).toHaveLength(1);
  });

  it('is kept once when it comes ten times at the same moment', async () => {
    const photoId = newId();
    const jpeg = await aJpeg({ red: 90 });
    const answers = await Promise.all(Array.from({ length: 10 }, () => put(photoId, jpeg)));
    expect(answers.map(({ status }) => status).sort()).toEqual([...Array.from({ length: 9 }, () => 200), 201]);
  });

  it('is refused under the id of another photo', async () => {
    const photoId = newId();
    await put(photoId, await aJpeg({ red: 1 }));
    const answer = await put(photoId, await aJpeg({ red: 200 }));
    expect(answer.status).toBe(422);
    expect(answer.body.detail).toMatch(/under a new one/);
  });

  it('loses its place and its device, and is turned upright', async () => {
    const photoId = newId();
    const sent = await aLocatedJpeg();
    expect(sent.includes('Telltale')).toBe(true);
    expect((await put(photoId, sent)).status).toBe(201);
    for (const size of ['', '?size=thumb']) {
      const served = await get(`/visits/${visitId}/photos/${photoId}${size}`);
      const bytes = Buffer.from(await served.arrayBuffer());
      const found = await sharp(bytes).metadata();
      expect(found).toMatchObject({ format: 'jpeg' });
      expect([found.exif, found.xmp, found.iptc, found.orientation]).toEqual([
        undefined,
        undefined,
        undefined,
        undefined,
      ]);
      expect((found.height ?? 0) > (found.width ?? 0)).toBe(true);
      for (const canary of ['Telltale', 'Canary', 'canary', 'Exif']) expect(bytes.includes(canary)).toBe(false);
    }
  });

  it('is kept at no more than 2048 points, with a small one beside it', async () => {
    const photoId = newId();
    await put(photoId, await aJpeg({ width: 4000, height: 3000 }));
    const [full, thumb] = await Promise.all(
      ['', '?size=thumb'].map(async (size) => {
        const served = await get(`/visits/${visitId}/photos/${photoId}${size}`);
        return sharp(Buffer.from(await served.arrayBuffer())).metadata();
      }),
    );
    expect([full?.width, full?.height]).toEqual([2048, 1536]);
    expect([thumb?.width, thumb?.height]).toEqual([480, 360]);
  });

  it('answers as a picture that may do nothing, and only to its company', async () => {
    const photoId = newId();
    await put(photoId, await aJpeg({ red: 77 }));
    const served = await get(`/visits/${visitId}/photos/${photoId}`);
    expect(served.headers.get('content-type')).toBe('image/jpeg');
    expect(served.headers.get('x-content-type-options')).toBe('nosniff');
    expect(served.headers.get('content-security-policy')).toBe("default-src 'none'; sandbox");
    expect(served.headers.get('cache-control')).toContain('private');
    const foreign = await get(`/visits/${visitId}/photos/${photoId}`, stranger);
    const missing = await get(`/visits/${visitId}/photos/${newId()}`, stranger);
    expect([foreign.status, missing.status]).toEqual([404, 404]);
    expect((await put(newId(), await aJpeg(), { as: stranger })).status).toBe(404);
    expect((await get(`/visits/${visitId}/photos/${photoId}`, { cookie: '' })).status).toBe(303);
  });

  it('needs the form token of its session', async () => {
    const answer = await put(newId(), await aJpeg(), { as: { cookie: session.cookie, formToken: 'another' } });
    expect(answer.status).toBe(403);
  });
});

describe('what is no photo', () => {
  it.each([
    ['a HEIC file', 415, /HEIC/, aHeic],
    ['an SVG with a script', 415, /SVG/, () => SVG_WITH_SCRIPT],
    ['a page named as a photo', 415, /not a photo/, () => Buffer.from('<html><script>alert(1)</script></html>')],
    ['nothing', 415, /not a photo/, () => Buffer.alloc(0)],
    ['a GIF', 415, /GIF/, () => Buffer.from('GIF89a\u0001\u0000\u0001\u0000')],
    ['a picture of 900 million points', 413, /too large/, () => aBomb(30_000, 30_000)],
    ['a head that claims 65,535 by 65,535', 413, /too large/, () => aBomb(65_535, 65_535)],
  ])('refuses %s with %d and a sentence, within two seconds', async (_, status, sentence, bytes) => {
    const startedAt = performance.now();
    const answer = await put(newId(), bytes());
    expect(answer.status).toBe(status);
    expect(answer.body.detail).toMatch(sentence);
    expect(performance.now() - startedAt).toBeLessThan(2000);
  });

  it('refuses a photo of 60 MB and says what may be sent', async () => {
    const sixty = Buffer.alloc(60 * 1024 * 1024);
    sixty.set([0xff, 0xd8, 0xff]);
    const answer = await put(newId(), sixty);
    expect(answer).toMatchObject({
      status: 413,
      body: { detail: expect.stringMatching(/60 MB is too large; at most 12 MB/) },
    });
  });

  it('stops reading what grows too large without having said so', async () => {
    let pulled = 0;
    const endless = new ReadableStream({
      pull(controller) {
        pulled += 1;
        if (pulled > 40) controller.close();
        else controller.enqueue(new Uint8Array(1024 * 1024));
      },
    });
    const response = await fetch(`${app.url}/api/visits/${visitId}/photos/${newId()}`, {
      method: 'PUT',
      headers: { cookie: session.cookie, 'x-form-token': session.formToken, 'content-type': 'image/jpeg' },
      body: endless,
      duplex: 'half',
    } as RequestInit);
    expect(response.status).toBe(413);
  });

  it('refuses a photo that is cut off, and keeps what follows a whole one out', async () => {
    const jpeg = await aJpeg({ width: 1200, height: 900 });
    expect((await put(newId(), jpeg.subarray(0, jpeg.length / 2))).status).toBe(422);
    const photoId = newId();
    expect((await put(photoId, Buffer.concat([jpeg, Buffer.from('<script>alert(1)</script>')]))).status).toBe(201);
    const served = Buffer.from(await (await get(`/visits/${visitId}/photos/${photoId}`)).arrayBuffer());
    expect(served.includes('<script>')).toBe(false);
  });

  it('takes a hidden text of 64 MB out or refuses it, in two seconds', async () => {
    const startedAt = performance.now();
    const { status } = await put(newId(), aTextBomb(64 * 1024 * 1024));
    expect([201, 413, 422]).toContain(status);
    expect(performance.now() - startedAt).toBeLessThan(2000);
  });

  it('leaves no half-written file', async () => {
    const directory = app.dataDirectory;
    const files = await readdir(`${directory}/photos`, { recursive: true });
    expect(files.length).toBeGreaterThan(0);
    expect(files.filter((name) => name.endsWith('.part'))).toEqual([]);
  });
});
