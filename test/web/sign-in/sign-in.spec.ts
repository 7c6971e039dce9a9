import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { LinksService, PeopleService } from '../../../src/accounts/index.js';
import { type WebApp, webApp } from '../../support/web-app.js';

const PASSWORD = 'three-wet-herons';

describe('the door of the program', () => {
  let app: WebApp;
  beforeAll(async () => {
    app = await webApp();
  });
  afterAll(() => app.close());

  it('leads an empty installation to its first account, which is signed in at once', async () => {
    const visitor = app.visitor();
    expect((await visitor.get('/')).location).toBe('/sign-in?to=%2F');
    expect((await visitor.get('/sign-in')).location).toBe('/first-account');

    const fields = {
      companyName: 'Sedge & Kettle',
      postalAddress: '40 Mill Race Row',
      timeZone: 'Somewhere',
      units: 'us',
      name: 'Marit',
      email: 'marit@example.com',
      password: PASSWORD,
    };
    const refused = await visitor.post('/first-account', fields);
    expect(refused.status).toBe(422);
    expect(refused.text).toMatch(/value="Sedge &(amp;)? Kettle"/);
    expect(refused.text).toContain('IANA time zone');
    expect(refused.text).not.toContain(PASSWORD);

    const made = await visitor.post('/first-account', { ...fields, timeZone: 'America/Chicago' });
    expect([made.status, made.location]).toEqual([303, '/']);
    expect((await visitor.get('/')).text).toContain('This week');
    expect((await app.visitor().get('/first-account')).location).toBe('/sign-in');
  });

  it('signs in, goes where one wanted to, and signs out', async () => {
    const visitor = app.visitor();
    const wrong = await visitor.post('/sign-in', { email: 'marit@example.com', password: 'wrong', to: '/ponds' });
    expect(wrong.status).toBe(401);
    expect(wrong.text).toContain('value="marit@example.com"');
    expect(visitor.session).toBeNull();

    const right = await visitor.post('/sign-in', {
      email: 'marit@example.com',
      password: PASSWORD,
      to: '/ponds?page=2',
    });
    expect([right.status, right.location]).toEqual([303, '/ponds?page=2']);
    expect((await visitor.get('/ponds')).status).toBe(200);

    expect((await visitor.post('/sign-out')).location).toBe('/sign-in?did=signed-out');
    expect((await visitor.get('/ponds')).location).toBe('/sign-in?to=%2Fponds');
  });

  it.each(['//evil.example.com', '/\\evil.example.com', 'https://evil.example.com', 'javascript:alert(1)'])(
    'never leads to %s',
    async (to) => {
      const visitor = app.visitor();
      const answer = await visitor.post('/sign-in', { email: 'marit@example.com', password: PASSWORD, to });
      expect([answer.status, answer.location]).toEqual([303, '/']);
    },
  );

  it('hands the session over so that no script and no other site reads it', async () => {
    const answer = await app.visitor().post('/sign-in', { email: 'marit@example.com', password: PASSWORD });
    expect(answer.headers.get('set-cookie')).toMatch(/HttpOnly; SameSite=Lax/);
  });

  it('refuses a form that another site sent', async () => {
    const response = await fetch(`${app.url}/sign-in`, {
      method: 'POST',
      headers: { origin: 'https://evil.example.com', 'content-type': 'application/x-www-form-urlencoded' },
      body: 'email=a&password=b',
      redirect: 'manual',
    });
    expect(response.status).toBe(403);
  });

  it('lets a demo link in only to the demo company', async () => {
    const links = app.get(LinksService);
    const real = await app.company('A real company');
    const person = await app
      .get(PeopleService)
      .addMember({ companyId: real.id, email: 'real@example.com', name: 'Real', role: 'office' });
    const token = await links.issue({
      purpose: 'demo-sign-in',
      companyId: real.id,
      personId: person.personId,
      objectId: 'office',
      expiresAt: null,
    });
    const visitor = app.visitor();
    expect((await visitor.get(`/l/demo-sign-in/${token}`)).status).toBe(404);
    expect((await visitor.get('/l/demo-sign-in/unknown')).status).toBe(404);
    expect(visitor.session).toBeNull();
  });
});
