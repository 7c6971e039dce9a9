import { inflateSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { LinksService } from '../../../src/accounts/index.js';
import { newId } from '../../../src/platform/ids.js';
import { PondsService } from '../../../src/ponds/index.js';
import { VisitPhotos, VisitsService } from '../../../src/visits/index.js';
import { losesSigns, printable } from '../../../src/web/papers/paper.js';
import { aJpeg } from '../../support/sample-pictures.js';
import { aPond } from '../../support/typed-pond.js';
import type { Visitor } from '../../support/visitor.js';
import { type WebApp, webApp } from '../../support/web-app.js';
import { actorOf } from '../../visits/visit-stack.js';

let app: WebApp;
let office: Visitor;
let visitId: string;
let pondId: string;
let link: string;
const photoId = newId();

beforeAll(async () => {
  app = await webApp();
  const company = await app.company();
  office = await app.signedIn(company.id, 'office');
  const contact = {
    name: 'Solveig Haugen',
    role: 'homeowner' as const,
    email: 'solveig@example.com',
    phone: '',
    getsMail: true,
  };
  pondId = await app.get(PondsService).create(company.id, aPond({ contacts: [contact] }));
  const visits = app.get(VisitsService);
  const people = (await app.get(PondsService).get(company.id, pondId)).contacts;
  const personId = people[0]?.personId ?? '';
  const technician = actorOf(company.id, { personId, name: 'Dana Ruiz' });
  visitId = (await visits.create(company.id, { pondId, taskIds: [], plannedOn: '2026-10-06' })).visit.id;
  await app.get(VisitPhotos).add(technician, visitId, photoId, await aJpeg());
  await visits.close(technician, visitId, {
    closingId: newId(),
    closedAt: '2026-10-05T14:50:00Z',
    note: 'Foam on the left (fold). 🐟',
    homeownerPresent: null,
    tasks: [],
    readings: [{ id: newId(), quantity: 'nitrite', value: 0.4, takenAt: '2026-10-05T14:40:00Z' }],
  });
  const links = app.get(LinksService);
  const draft = links.draft({
    purpose: 'visit-report',
    companyId: company.id,
    personId,
    objectId: visitId,
    expiresAt: '2027-01-01T00:00:00.000Z',
  });
  await app.database.unitOfWork('make a link', () => links.store([draft]));
  link = `/l/visit-report/${draft.token}`;
});
afterAll(() => app.close());

async function pdfAt(path: string): Promise<{ status: number; type: string | null; bytes: Buffer }> {
  const cookie = path.startsWith('/l/') ? '' : `tarnkeep_session=${office.session}`;
  const response = await fetch(app.url + path, { headers: { cookie } });
  const bytes = Buffer.from(await response.arrayBuffer());
  return { status: response.status, type: response.headers.get('content-type'), bytes };
}

/** The text of a PDF whose fonts are core fonts: the strings of its deflated page streams. */
function textOf(pdf: Buffer): string {
  const pieces: string[] = [];
  for (const match of pdf.toString('latin1').matchAll(/stream\r?\n([\s\S]*?)\r?\nendstream/g)) {
    try {
      const page = inflateSync(Buffer.from(match[1] ?? '', 'latin1')).toString('latin1');
      const strings = [...page.matchAll(/<([0-9a-f]+)>/gi)].map((hex) =>
        Buffer.from(hex[1] ?? '', 'hex').toString('latin1'),
      );
      pieces.push(strings.join(''));
    } catch {
      // A picture, not a page.
    }
  }
  return pieces.join('\n');
}

describe('the report of a visit on paper', () => {
  it('is a PDF with what was measured, what it means and the photos, for the office', async () => {
    const { status, type, bytes } = await pdfAt(`/visits/${visitId}/report.pdf`);
    expect([status, type, bytes.subarray(0, 5).toString()]).toEqual([200, 'application/pdf', '%PDF-']);
    const text = textOf(bytes);
    expect(text).toContain('Report of the visit on Tuesday 6 October');
    expect(text).toContain('Nitrite');
    expect(text).toContain('needs action: above 0.3 mg/L N');
    expect(text).toContain('Foam on the left (fold). \u00b7');
    expect(text).toContain('cannot be printed on paper');
    expect(bytes.includes('/Subtype /Image')).toBe(true);
  });

  it('opens for the homeowner from the link in the mail, with its photos, and for no other link', async () => {
    const page = await fetch(app.url + link).then((response) => response.text());
    expect(page).toContain(`${link}/report.pdf`);
    expect(page).toContain(`${link}/photos/${photoId}?size=thumb`);
    expect((await pdfAt(`${link}/report.pdf`)).type).toBe('application/pdf');
    expect((await pdfAt(`${link}/photos/${photoId}`)).type).toBe('image/jpeg');
    expect((await pdfAt(`${link}/photos/${newId()}`)).status).toBe(404);
    expect((await pdfAt(`${link}x/photos/${photoId}`)).status).toBe(404);
    expect((await pdfAt(`${link}x/report.pdf`)).status).toBe(404);
  });
});

describe('the handover pack', () => {
  it('has cautions before the pond as built, the machines, the wheel and what the owner does', async () => {
    const { status, bytes } = await pdfAt(`/ponds/${pondId}/handover-pack.pdf`);
    expect(status).toBe(200);
    const text = textOf(bytes);
    for (const title of [
      'handover pack',
      'Whom to ask',
      'The pond as built',
      'Machines',
      'The year of the pond',
      'The first year',
    ]) {
      expect(text).toContain(title);
    }
    expect(text).toContain('warranty');
    expect(bytes.length).toBeGreaterThan(20_000);
    if (text.includes('Before anything else')) {
      expect(text.indexOf('Before anything else')).toBeLessThan(text.indexOf('The pond as built'));
    }
  });
});

describe("the office's pages of a closed visit", () => {
  it('shows photos, trail and correction, and takes a correction with a reason', async () => {
    const { text } = await office.get(`/visits/${visitId}`);
    expect(text).toContain(`/visits/${visitId}/photos/${photoId}?size=thumb`);
    expect(text).toContain('Who changed what');
    const version = /name="version" value="(\d+)"/.exec(text)?.[1] ?? '';
    const readingField = /name="(reading:[0-9a-f-]+)"/.exec(text)?.[1] ?? '';
    const typed = { version, because: 'misread', note: 'Fold on the right.', homeowner: 'yes', [readingField]: '71' };
    const refused = await office.post(`/visits/${visitId}/correction`, { ...typed, [readingField]: 'x' });
    expect(refused.status).toBe(422);
    const kept = await office.post(`/visits/${visitId}/correction`, { ...typed, [readingField]: '0.1' });
    expect([kept.status, kept.location]).toEqual([303, `/visits/${visitId}?did=correction`]);
    const after = (await office.get(`/visits/${visitId}`)).text;
    expect(after).toContain('Corrected by the office: misread');
    expect(after).toContain('corrected the record');
  });

  it('exports the list as CSV and JSON, and the month for the accounts', async () => {
    const csv = await office.get('/visits/export.csv?from=2026-10-01&to=2026-10-31');
    expect(csv.headers.get('content-type')).toContain('text/csv');
    expect(csv.text.split('\r\n')[0]).toContain('id,plannedOn,arrivalFrom');
    expect(csv.text).toContain(visitId);
    const json = await office.get('/visits/export.json?week=2026-10-05');
    expect(JSON.parse(json.text)).toMatchObject({ visits: [{ id: visitId, state: 'done' }] });
    expect((await office.get('/visits/export.xml')).status).toBe(404);
    const month = await office.get('/visits/statement?month=2026-10');
    expect(month.text).toContain('One closed visit');
    const lines = await office.get('/visits/statement/export.csv?month=2026-10');
    expect(lines.text).toContain('Work on site');
  });

  it('puts a part on the shelf, and says what cannot be', async () => {
    const part = { name: 'UV lamp', unit: 'piece', onHand: '2', leadDays: '5', partRef: '' };
    expect((await office.post('/visits/statement/shelf', part)).location).toBe('/visits/statement?did=added#shelf');
    const wrong = await office.post('/visits/statement/shelf', { ...part, unit: '' });
    expect(wrong.status).toBe(422);
    expect(wrong.text).toContain('It cannot be empty');
  });

  it('shows on This week who has not checked in, until they are reached', async () => {
    const technician = await app.signedIn((await app.company('Alone & Co')).id, 'technician', 'Dana Ruiz');
    expect((await technician.get('/check-in')).text).toContain('Set the time');
    expect((await office.get('/')).text).toContain('From visits');
  });
});

describe('printable', () => {
  it('stands in for what a core font has not, and knows what it loses', () => {
    expect(printable('CaCO₃ ≥ 60, 15 °C – “well”')).toBe('CaCO3 >= 60, 15 °C – “well”');
    expect(losesSigns('Größe € 5 µg')).toBe(false);
    expect(losesSigns('البركة')).toBe(true);
  });
});
