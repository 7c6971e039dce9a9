import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { PeopleService } from '../../../src/accounts/index.js';
import { PondsService } from '../../../src/ponds/index.js';
import { HomeownerWords } from '../../../src/reminders/index.js';
import { aPond } from '../../support/typed-pond.js';
import { type WebApp, webApp } from '../../support/web-app.js';

describe('what homeowners say, under This week', () => {
  let app: WebApp;
  let companyId: string;
  beforeAll(async () => {
    app = await webApp();
    companyId = (await app.company()).id;
    const pondId = await app.get(PondsService).create(
      companyId,
      aPond({
        name: 'Haugen pond',
        contacts: [
          { name: 'Solveig Haugen', role: 'homeowner', email: 'solveig@example.com', phone: '+1 608 555 0100' },
        ],
      }),
    );
    const person = await app.get(PeopleService).findByEmail('solveig@example.com');
    await app.get(HomeownerWords).say(companyId, {
      pondId,
      personId: person!.id,
      kind: 'question',
      said: 'Is <i>foam</i> normal?',
    });
  });
  afterAll(() => app.close());

  it('stands there with who, where and how to reach them, is settled, and can be taken back', async () => {
    const office = await app.signedIn(companyId, 'office');
    const week = await office.get('/');
    expect(week.text).toContain('Solveig Haugen asks, Haugen pond');
    expect(week.text).toContain('Is &lt;i>foam&lt;/i> normal?');
    expect(week.text).toContain('+1 608 555 0100');
    const settling = /\/homeowner-words\/[\w-]+\/settling/.exec(week.text)![0];

    const { location } = await office.post(settling);
    const after = await office.get(location);
    expect(after.text).not.toContain('Solveig Haugen asks');
    await office.post(/\/homeowner-words\/[\w-]+\/unsettling/.exec(after.text)![0]);
    expect((await office.get('/')).text).toContain('Solveig Haugen asks');
  });

  it('is nobody else’s: another company neither sees nor settles it', async () => {
    const other = (await app.company('Other Firm')).id;
    const office = await app.signedIn(other, 'office');
    expect((await office.get('/')).text).not.toContain('Solveig');
    const [open] = await app.get(HomeownerWords).open(companyId);
    expect((await office.post(`/homeowner-words/${open!.word.id}/settling`)).status).toBe(404);
  });
});
