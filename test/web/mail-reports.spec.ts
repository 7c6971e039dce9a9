import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { type WebApp, webApp } from '../support/web-app.js';

const SECRET = 'a secret of some length';

describe('POST /mail-reports', () => {
  let app: WebApp;
  beforeAll(async () => {
    app = await webApp({
      environment: { TARNKEEP_BOUNCES_ADDRESS: 'bounces@example.org', TARNKEEP_BOUNCES_SECRET: SECRET },
    });
  });
  afterAll(() => app.close());

  const post = (body: string, headers: Record<string, string>) =>
    fetch(`${app.url}/mail-reports`, {
      method: 'POST',
      body,
      headers: { 'content-type': 'message/rfc822', ...headers },
    });

  it('takes a message only with the secret', async () => {
    expect((await post('Subject: x\r\n\r\nx', {})).status).toBe(401);
    expect((await post('Subject: x\r\n\r\nx', { authorization: 'Bearer guess' })).status).toBe(401);
    const answer = await post('Subject: x\r\n\r\nx', { authorization: `Bearer ${SECRET}` });
    expect([answer.status, await answer.json()]).toEqual([200, { outcome: 'not-a-report' }]);
  });

  it('refuses a message that is too large', async () => {
    expect((await post('x'.repeat(3_000_000), { authorization: `Bearer ${SECRET}` })).status).toBe(413);
  });
});
