import { afterAll, beforeAll, describe, expect, it } from '@jest/globals';
import { type CivilDay, civilDay } from '../../../../src/core/units/civil-day.js';
import { newId } from '../../../../src/platform/ids.js';
import { suggestedDay } from '../../../../src/web/office/visits/visit-plan.view-model.js';
import { weekOf, weekWords } from '../../../../src/web/office/visits/visit-week.js';
import { aClosing, actorOf } from '../../../visits/visit-stack.js';
import { type WebStack, webStack } from '../../technician/web-stack.js';

let web: WebStack;
beforeAll(async () => {
  web = await webStack();
  web.as(web.office);
});
afterAll(() => web.close());

async function planned(name = 'Back garden') {
  const { pondId, tasks } = await web.pondWithTasks({ name });
  const change = tasks.find(({ rule }) => rule.id === 'part-water-change')!;
  const { visit } = await web.visits.create(web.companyId, {
    pondId,
    taskIds: [change.task.id],
    plannedOn: '2026-05-15',
    technicianId: web.technician.personId,
  });
  return { pondId, tasks, change, visit, path: `/visits/${visit.id}` };
}

describe('planning on the page', () => {
  it('proposes visits with their windows, and makes one of them a visit', async () => {
    const { pondId, tasks } = await web.pondWithTasks({ name: 'Otter <Run>' });
    const change = tasks.find(({ rule }) => rule.id === 'part-water-change')!;
    const { status, text } = await web.get(`/visits/plan?pond=${pondId}`);
    expect(status).toBe(200);
    expect(text).toContain('Otter &lt;Run>');
    expect(text).toContain('A visit without a task');
    expect(text).toContain(`value="${change.task.id}" checked`);

    const answer = await web.post('/visits', {
      pondId,
      key: `${pondId}:${change.task.id}`,
      task: [change.task.id],
      plannedOn: '2026-05-18',
      fromTime: '08:00',
      toTime: '10:00',
      technicianId: web.technician.personId,
      note: 'Ring twice.',
      // biome-ignore lint/suspicious/noThenProperty: the name of the button that was pressed
      then: 'publish',
    });
    expect(answer.status).toBe(303);
    const location = answer.headers.get('location') ?? '';
    expect(location).toMatch(/^\/visits\/[0-9a-f-]{36}\?did=published$/);
    const record = (await web.get(location)).text;
    expect(record).toContain('Confirmed for Monday 18 May, 8:00 to 10:00, Dana Ruiz.');
    expect(record).toContain('Ring twice.');
    expect(record).toContain('The visit is published.');
  });

  it('brings the form back with what was typed when the day cannot be', async () => {
    const { pondId, tasks } = await web.pondWithTasks();
    const change = tasks.find(({ rule }) => rule.id === 'part-water-change')!;
    const answer = await web.post('/visits', {
      pondId,
      key: `${pondId}:${change.task.id}`,
      task: change.task.id,
      plannedOn: '2026-05-01',
      note: 'Bring the long hose.',
      technicianId: web.technician.personId,
    });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('Choose a day from 2026-05-15');
    expect(answer.text).toContain('value="2026-05-01"');
    expect(answer.text).toContain('Bring the long hose.');
    expect(answer.text).toMatch(new RegExp(`value="${web.technician.personId}" selected`));
  });

  it('brings it back also when what is due was put together anew meanwhile', async () => {
    const { pondId, tasks } = await web.pondWithTasks();
    const [first] = tasks;
    const answer = await web.post('/visits', {
      pondId,
      key: `${pondId}:${newId()}`,
      task: first!.task.id,
      plannedOn: '2026-05-01',
      note: 'Bring the long hose.',
    });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('As you had it');
    expect(answer.text).toContain('Choose a day from 2026-05-15');
    expect(answer.text).toContain('Bring the long hose.');
  });

  it('says it when a visit could not be published because nobody goes', async () => {
    const { pondId } = await web.pondWithTasks();
    // biome-ignore lint/suspicious/noThenProperty: the name of the button that was pressed
    const answer = await web.post('/visits', { pondId, plannedOn: '2026-05-20', then: 'publish' });
    const record = (await web.get(answer.headers.get('location') ?? '')).text;
    expect(record).toContain('planned, not published: nobody has it yet');
    expect(record).toContain('Nobody has this visit yet.');
  });

  it('refuses a pond of another company', async () => {
    web.as(actorOf(newId(), { role: 'office' }));
    const { pondId } = await web.pondWithTasks();
    expect((await web.get(`/visits/plan?pond=${pondId}`)).status).toBe(404);
    web.as(web.office);
  });

  it.each([
    // Fri 15 May: the Monday after, inside the window.
    ['2026-05-15', '2026-05-25', '2026-05-15', '2026-05-18'],
    ['2026-05-20', '2026-05-25', '2026-05-15', '2026-05-20'],
    // Only a weekend is left: its last day.
    ['2026-05-16', '2026-05-17', '2026-05-15', '2026-05-17'],
    ['2026-05-15', '2026-05-15', '2026-05-15', '2026-05-15'],
  ])('suggests for %s to %s, on %s, the %s', (earliest, latest, today, day) => {
    expect(suggestedDay(civilDay(earliest), civilDay(latest), civilDay(today))).toBe(civilDay(day));
  });
});

describe('the list of visits', () => {
  it('shows a week by day, with who goes and state words', async () => {
    const { path } = await planned('Heron Hollow');
    const { status, text } = await web.get('/visits?week=2026-05-15');
    expect(status).toBe(200);
    expect(text).toContain('Monday 11 to Sunday 17 May 2026');
    expect(text).toContain('Friday 15 May');
    expect(text).toContain(path);
    expect(text).toContain('Dana Ruiz');
    expect(text).toContain('planned');
    expect((await web.get('/visits?week=2026-05-15&search=heron')).text).toContain('Heron Hollow');
    expect((await web.get('/visits?week=2026-05-15&state=DONE&page=-3&who=x')).status).toBe(200);
  });

  it('is not empty-handed when nothing is there', async () => {
    const { text } = await web.get('/visits?week=2030-01-01');
    expect(text).toContain('No visit this week.');
    expect((await web.get('/visits?week=2030-01-01&state=COMPLETED')).text).toContain('Nothing found.');
  });

  it('is not for technicians', async () => {
    web.as(web.technician);
    expect((await web.get('/visits')).status).toBe(403);
    web.as(web.office);
  });

  it.each([
    ['2026-05-15', '2026-05-11', 'Monday 11 to Sunday 17 May 2026'],
    ['2026-05-31', '2026-05-25', 'Monday 25 to Sunday 31 May 2026'],
    ['2026-06-01', '2026-06-01', 'Monday 1 to Sunday 7 June 2026'],
    ['2026-12-31', '2026-12-28', 'Monday 28 December to Sunday 3 January 2027'],
    ['nonsense', '2026-05-11', 'Monday 11 to Sunday 17 May 2026'],
  ])('takes %s for the week of %s', (typed, monday, words) => {
    const week: CivilDay = weekOf(typed, civilDay('2026-05-15'));
    expect(week).toBe(civilDay(monday));
    expect(weekWords(week)).toBe(words);
  });
});

describe('the record of a visit', () => {
  it('says whose window breaks when the visit is moved', async () => {
    const { path, visit, change } = await planned();
    await web.calendar.hold(web.companyId, change.task.id, '2026-05-20');
    const answer = await web.post(`${path}/move`, { version: String(visit.version), plannedOn: '2026-06-18' });
    expect(answer.status).toBe(303);
    const { text } = await web.get(path);
    expect(text).toMatch(/Change a part of the water: its window, [^<]+, closes before this day\./);
  });

  it('refuses a step on a version that is no more, and shows what stands now', async () => {
    const { path, visit } = await planned();
    await web.visits.move(web.companyId, visit.id, { plannedOn: '2026-05-16' });
    const answer = await web.post(`${path}/publish`, { version: String(visit.version) });
    expect(answer.status).toBe(409);
    expect(answer.text).toContain('changed by somebody else');
    expect((await web.visits.get(web.companyId, visit.id)).visit.state).toBe('TENTATIVE');
  });

  it('takes a task on and off, gives the visit to somebody, publishes and cancels it', async () => {
    const { path, visit, tasks } = await planned();
    const rinse = tasks.find(({ rule }) => rule.id === 'filter-media-rinse')!;
    expect((await web.post(`${path}/tasks`, { taskId: rinse.task.id })).status).toBe(303);
    expect((await web.get(path)).text).toContain('Rinse the filter media');
    expect((await web.post(`${path}/tasks/${rinse.task.id}/removal`)).status).toBe(303);
    expect((await web.post(`${path}/assign`, { technicianId: web.office.personId })).status).toBe(303);
    expect((await web.post(`${path}/publish`)).status).toBe(303);
    const noReason = await web.post(`${path}/cancel`, { why: ' ' });
    expect(noReason.status).toBe(422);
    expect(noReason.text).toContain('Say why');
    expect((await web.post(`${path}/cancel`, { why: 'Storm <now>' })).status).toBe(303);
    expect((await web.get(path)).text).toContain('Cancelled: Storm &lt;now>');
    expect((await web.visits.get(web.companyId, visit.id)).visit.state).toBe('CANCELLED');
  });

  it('keeps and shows both versions of a visit that was opened again', async () => {
    const { path, visit, change } = await planned();
    await web.visits.close(
      web.technician,
      visit.id,
      aClosing([change], {
        note: 'Wrong <pond>.',
        readings: [{ id: newId(), quantity: 'nitrite', value: 0.4, takenAt: '2026-05-15T14:50:00Z' }],
      }),
    );
    expect((await web.post(`${path}/reopen`, { why: 'Another pond was meant.' })).status).toBe(303);
    await web.visits.close(web.technician, visit.id, aClosing([change], { note: 'Right pond.' }));
    const { text } = await web.get(path);
    expect(text).toContain('Closings, every version');
    expect(text).toContain('Wrong &lt;pond>.');
    expect(text).toContain('Right pond.');
    expect(text).toMatch(/Opened again by Maria Lind, 15 May, 10:00: Another pond was meant\./);
    expect(text).toContain('Nitrite 0.4 mg/L');
    expect(text).toContain('data-print');
  });

  it('cannot be reopened before it is closed, and says so', async () => {
    const { path } = await planned();
    const answer = await web.post(`${path}/reopen`, { why: 'x' });
    expect(answer.status).toBe(422);
    expect(answer.text).toContain('Only a visit that is done can be reopened.');
  });

  it('is not found for another company', async () => {
    const { path } = await planned();
    web.as(actorOf(newId(), { role: 'owner' }));
    expect((await web.get(path)).status).toBe(404);
    expect((await web.post(`${path}/cancel`, { why: 'x' })).status).toBe(404);
    web.as(web.office);
  });
});
