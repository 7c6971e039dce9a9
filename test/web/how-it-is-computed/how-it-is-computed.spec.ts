import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { CARE_RULES } from '../../../src/config/index.js';
import type { CareRule } from '../../../src/core/care/care-rule.js';
import { ALL_FORMULAS } from '../../../src/core/formulas/all-formulas.js';
import { NOT_KNOWN } from '../../../src/core/formulas/not-known.js';
import { PondsService } from '../../../src/ponds/index.js';
import { aPond } from '../../support/typed-pond.js';
import type { Visitor } from '../../support/visitor.js';
import { type WebApp, webApp } from '../../support/web-app.js';

const PATH = '/how-it-is-computed';

describe('how it is computed, over HTTP', () => {
  let app: WebApp;
  let companyId: string;
  let office: Visitor;
  beforeAll(async () => {
    app = await webApp();
    companyId = (await app.company()).id;
    office = await app.signedIn(companyId);
  });
  afterAll(() => app.close());

  const entry = (text: string, id: string) =>
    new RegExp(`<article class="formula[^"]*" id="${id}"[\\s\\S]*?</article>`).exec(text)?.[0] ?? '';

  it('lists every formula with a worked example, every unknown, and every number of every rule', async () => {
    const { status, text } = await office.get(PATH);
    expect(status).toBe(200);
    for (const { id } of ALL_FORMULAS) {
      expect(entry(text, id)).toContain('class="worked"');
      expect(text).toContain(`href="#${id}"`);
    }
    for (const { id } of NOT_KNOWN) expect(text).toContain(`id="not-known-${id}"`);
    const rules = app.get(CARE_RULES as never) as readonly CareRule[];
    for (const { id, parameters } of rules) {
      const rows = new RegExp(`<tbody id="rule-${id}"[\\s\\S]*?</tbody>`).exec(text)?.[0] ?? '';
      // A row for each number, one for the time on site, one for the head.
      expect(rows.match(/<tr/g)).toHaveLength(Object.keys(parameters).length + 2);
    }
    expect(text).not.toMatch(/NaN|undefined|\[object/);
  });

  it('names where the climate comes from, its licences and its gaps', async () => {
    const { text } = await office.get(PATH);
    expect(text).toMatch(/Deutscher Wetterdienst; means computed from the raw reports, data changed/);
    expect(text).toContain('Delaware has no station');
  });

  it('works an example with what is typed', async () => {
    const { status, text } = await office.get(`${PATH}?air-pressure.elevationM=1200`);
    expect(status).toBe(200);
    expect(entry(text, 'air-pressure')).toContain('87.9 kPa');
    expect(entry(text, 'air-pressure')).toContain('value="1200"');
    expect(entry(text, 'hardiness-zone')).not.toContain('Back to the example');
  });

  it('says beside the field what is out of range, keeps it, and works the other examples on', async () => {
    const { status, text } = await office.get(`${PATH}?air-pressure.elevationM=99%2C000`);
    expect(status).toBe(422);
    const wrong = entry(text, 'air-pressure');
    expect(wrong).toContain('Elevation above the sea: 99000, outside -500 to 6000.');
    expect(wrong).toMatch(/value="99,000"[^>]*aria-invalid="true"/);
    expect(wrong).not.toContain('class="worked"');
    expect(entry(text, 'hardiness-zone')).toContain('class="worked"');
  });

  it('finds by words, keeps them while an example is worked, and says when nothing has them', async () => {
    const found = await office.get(`${PATH}?find=Psychrometric+constant`);
    expect(entry(found.text, 'air-pressure')).not.toBe('');
    expect(entry(found.text, 'hardiness-zone')).toBe('');
    expect(found.text).toMatch(/“Psychrometric constant” stands in \d+ formula/);
    expect(entry(found.text, 'air-pressure')).toContain('name="find" value="Psychrometric constant"');
    expect((await office.get(`${PATH}?find=zzzz`)).text).toContain('Nothing here has these words.');
  });

  it('shows what is typed as text and nothing else', async () => {
    const hostile = encodeURIComponent('"><img src=x>');
    const { text } = await office.get(`${PATH}?find=${hostile}`);
    const typed = await office.get(`${PATH}?air-pressure.elevationM=${hostile}`);
    for (const page of [text, typed.text]) {
      expect(page).not.toContain('"><img');
      expect(page).toMatch(/(value="|“)&(quot|#34);>|“&#34;&gt;/);
    }
  });

  it('is open to the technician, and to nobody who is not signed in', async () => {
    const technician = await app.signedIn(companyId, 'technician');
    expect((await technician.get(PATH)).status).toBe(200);
    expect((await app.visitor().get(PATH)).status).not.toBe(200);
  });

  it('is named at the foot of every page, in the settings, and in every reason of a pond', async () => {
    expect((await office.get('/')).text).toContain('<a href="/how-it-is-computed">How it is computed</a>');
    expect((await office.get('/settings')).text).toContain('href="/how-it-is-computed"');
    const pondId = await app.get(PondsService).create(companyId, aPond());
    const { text } = await office.get(`/ponds/${pondId}`);
    expect(text).toContain('href="/how-it-is-computed#feed-ration"');
    const page = (await office.get(PATH)).text;
    const links = [...text.matchAll(/href="\/how-it-is-computed#([^"]+)"/g)].map(([, id]) => id as string);
    expect(links.length).toBeGreaterThan(5);
    expect(links.filter((id) => !page.includes(`id="${id}"`))).toEqual([]);
  });
});
