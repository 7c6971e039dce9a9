import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import ICAL from 'ical.js';
import { PeopleService } from '../../src/accounts/index.js';
import { CareCalendarService } from '../../src/care-calendar/index.js';
import { CalendarFeedsService } from '../../src/feeds/index.js';
import { PondsService } from '../../src/ponds/index.js';
import { VisitsService } from '../../src/visits/index.js';
import { aPond } from '../support/typed-pond.js';
import { Visitor } from '../support/visitor.js';
import { type WebApp, webApp } from '../support/web-app.js';

/** A calendar as an independent reader of RFC 5545 sees it. */
function read(text: string) {
  const calendar = new ICAL.Component(ICAL.parse(text));
  const of = (kind: 'vevent' | 'vtodo') => calendar.getAllSubcomponents(kind);
  return { calendar, events: of('vevent'), toDos: of('vtodo') };
}

describe('a calendar address', () => {
  let app: WebApp;
  let companyId: string;
  let pondId: string;
  let homeownerId: string;
  let technician: { id: string; name: string };
  let visitId: string;
  beforeAll(async () => {
    app = await webApp({ at: '2026-09-21T15:00:00Z' });
    companyId = (await app.company()).id;
    pondId = await app.get(PondsService).create(
      companyId,
      aPond({
        name: 'Haugen pond',
        hazards: 'Loose step',
        accessNotes: 'Gate by the shed',
        gateCode: '4711#',
        contacts: [{ name: 'Solveig Haugen', role: 'homeowner', email: 'solveig@example.com' }],
      } as never),
    );
    homeownerId = (await app.get(PeopleService).findByEmail('solveig@example.com'))!.id;
    const member = await app
      .get(PeopleService)
      .addMember({ companyId, email: 'ida@example.com', name: 'Ida Brook', role: 'technician' });
    technician = { id: member.personId, name: 'Ida Brook' };
    const due = await app
      .get(CareCalendarService)
      .dueForTechnicians(companyId, { from: '2026-09-21', to: '2026-11-30' });
    const planned = await app.get(VisitsService).create(companyId, {
      pondId,
      taskIds: due.slice(0, 2).map(({ task }) => task.id),
      technicianId: technician.id,
      plannedOn: '2026-11-02',
      fromTime: '09:00',
      toTime: '11:00',
    } as never);
    visitId = planned.visit.id;
    await app.get(VisitsService).publish(companyId, visitId);
  });
  afterAll(() => app.close());

  const give = async (personId: string, wish: Partial<Parameters<CalendarFeedsService['give']>[2]> = {}) => {
    const given = await app
      .get(CalendarFeedsService)
      .give(companyId, personId, { audience: 'homeowner', tasksAs: 'to-do', alarmMinutesBefore: null, ...wish });
    return { ...given, path: new URL(given.address).pathname };
  };
  const fetched = (path: string, headers: Record<string, string> = {}) => fetch(app.url + path, { headers });

  it('shows a homeowner each own task once, with the caution first, and the published visit', async () => {
    const { path } = await give(homeownerId);
    const answer = await fetched(path);
    expect(answer.headers.get('content-type')).toBe('text/calendar; charset=utf-8');
    const { calendar, events, toDos } = read(await answer.text());
    expect(calendar.getFirstPropertyValue('name')).toBe('Haugen pond');

    const tasks = (await app.get(CareCalendarService).tasksOf(companyId, pondId)).filter(
      ({ task }) => task.doneBy === 'homeowner' && !task.routineLine,
    );
    expect(tasks.length).toBeGreaterThan(3);
    expect(new Set(toDos.map((one) => one.getFirstPropertyValue('uid'))).size).toBe(toDos.length);
    expect(toDos.map((one) => one.getFirstPropertyValue('uid')).sort()).toEqual(
      tasks.map(({ task }) => `task-${task.id}@127.0.0.1`).sort(),
    );
    for (const toDo of toDos) {
      const due = toDo.getFirstPropertyValue('due') as ICAL.Time;
      const start = toDo.getFirstPropertyValue('dtstart') as ICAL.Time | null;
      expect(due.isDate).toBe(true);
      if (start) expect(start.compare(due)).toBeLessThan(0);
    }
    const withCaution = tasks.find(({ rule }) => rule.cautions.length > 0)!;
    const itsToDo = toDos.find((one) => one.getFirstPropertyValue('uid') === `task-${withCaution.task.id}@127.0.0.1`)!;
    expect(itsToDo.getFirstPropertyValue('description')).toMatch(/^Caution: /);

    expect(events.length).toBe(1);
    const visit = new ICAL.Event(events[0]!);
    expect(visit.startDate.toJSDate().toISOString()).toBe('2026-11-02T15:00:00.000Z');
    expect(visit.endDate.toJSDate().toISOString()).toBe('2026-11-02T17:00:00.000Z');
    expect(events[0]!.getFirstPropertyValue('status')).toBe('CONFIRMED');
  });

  it('never tells the gate code, the way in, hazards, or the street', async () => {
    for (const [person, audience] of [
      [homeownerId, 'homeowner'],
      [technician.id, 'technician'],
    ] as const) {
      const text = await (await fetched((await give(person, { audience })).path)).text();
      const unfolded = text.replaceAll('\r\n ', '');
      expect(unfolded).toContain('BEGIN:VEVENT');
      for (const secret of ['4711', 'shed', 'Loose step', 'Elm Street']) expect(unfolded).not.toContain(secret);
    }
  });

  it('shows tasks as notes on their day where that was chosen, with an alarm where one was wished', async () => {
    const { path } = await give(homeownerId, { tasksAs: 'event', alarmMinutesBefore: 1440 });
    const { events, toDos } = read(await (await fetched(path)).text());
    expect(toDos).toEqual([]);
    const notes = events.filter((one) => String(one.getFirstPropertyValue('uid')).startsWith('task-'));
    expect(notes.length).toBeGreaterThan(3);
    for (const note of notes) {
      expect((note.getFirstPropertyValue('dtstart') as ICAL.Time).isDate).toBe(true);
      expect(note.getFirstPropertyValue('transp')).toBe('TRANSPARENT');
      expect(note.getFirstSubcomponent('valarm')!.getFirstPropertyValue('trigger')!.toString()).toBe('-PT1440M');
    }
  });

  it('is the same text until something changes, and is then answered anew with a higher sequence', async () => {
    const { path } = await give(technician.id, { audience: 'technician' });
    const first = await fetched(path);
    const tag = first.headers.get('etag')!;
    const firstText = await first.text();
    expect(tag).toBe(`"${createHash('sha256').update(firstText).digest('base64url')}"`);
    const again = await fetched(path, { 'if-none-match': tag });
    expect(again.status).toBe(304);
    expect(await again.text()).toBe('');

    const sequence = (text: string) => read(text).events[0]!.getFirstPropertyValue('sequence') as unknown as number;
    await app
      .get(VisitsService)
      .move(companyId, visitId, { plannedOn: '2026-11-03', fromTime: '10:00', toTime: '12:00' });
    const moved = await fetched(path, { 'if-none-match': tag });
    expect(moved.status).toBe(200);
    const movedText = await moved.text();
    expect(sequence(movedText)).toBeGreaterThan(sequence(firstText));
    expect(new ICAL.Event(read(movedText).events[0]!).startDate.toJSDate().toISOString()).toBe(
      '2026-11-03T16:00:00.000Z',
    );

    await app.get(VisitsService).cancel(companyId, visitId, 'storm');
    const cancelled = read(await (await fetched(path)).text()).events;
    expect(cancelled.map((one) => one.getFirstPropertyValue('status'))).toEqual(['CANCELLED']);
  });

  it('is empty for nobody: one taken back, cut or guessed answers 410 and shows nothing', async () => {
    const { path, feedId } = await give(homeownerId);
    expect((await fetched(path)).status).toBe(200);
    await app.get(CalendarFeedsService).takeBack(companyId, homeownerId, feedId);
    for (const to of [path, path.replace('.ics', 'A.ics'), '/feeds/guess.ics', `/feeds/${feedId}.ics`]) {
      const answer = await fetched(to);
      expect([to, answer.status]).toEqual([to, 410]);
      expect(await answer.text()).toMatch(/^There is no calendar at this address any more/);
    }
  });

  it('belongs to its person: another cannot take it back, and another company cannot either', async () => {
    const { path, feedId } = await give(homeownerId);
    const other = (await app.company('Other Firm')).id;
    const feeds = app.get(CalendarFeedsService);
    await expect(feeds.takeBack(companyId, technician.id, feedId)).rejects.toThrow(/no calendar at this address/);
    await expect(feeds.takeBack(other, homeownerId, feedId)).rejects.toThrow(/no calendar at this address/);
    expect((await fetched(path)).status).toBe(200);
  });

  it('is given once on a page, listed without its secret, and taken back there', async () => {
    const visitor: Visitor = await app.signedIn(companyId, 'office');
    const given = await visitor.post('/own-calendar', { audience: 'company', alarm: '60' });
    expect(given.status).toBe(200);
    const address = /http[^"]+\/feeds\/[\w-]{43}\.ics/.exec(given.text)![0];
    expect((await fetched(new URL(address).pathname)).status).toBe(200);

    const listed = await visitor.get('/own-calendar');
    expect(listed.text).toContain('All visits of the company, alarm an hour before');
    expect(listed.text).not.toContain(new URL(address).pathname);
    const back = /\/own-calendar\/[\w-]+\/taking-back/.exec(listed.text)![0];
    expect((await visitor.post(back)).location).toBe('/own-calendar?did=taken-back');
    expect((await fetched(new URL(address).pathname)).status).toBe(410);
  });
});
