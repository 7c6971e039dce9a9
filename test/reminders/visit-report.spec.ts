import { afterEach, beforeEach, describe, expect, it } from '@jest/globals';
import { newId } from '../../src/platform/ids.js';
import { DigestComposer, ReportHolds } from '../../src/reminders/index.js';
import { VisitClosingEntity, VisitSettings } from '../../src/visits/index.js';
import { aClosing, actorOf } from '../visits/visit-stack.js';
import { linksIn, type ReminderStack, reminderStack } from './reminder-stack.js';

describe('VisitReportMails', () => {
  let stack: ReminderStack;
  let technician: ReturnType<typeof actorOf>;
  let pondId: string;
  beforeEach(async () => {
    stack = await reminderStack({ at: '2026-10-30T15:00:00.000Z' });
    pondId = await stack.homeownersPond();
    const { personId } = await stack.people.addMember({
      companyId: stack.companyId,
      role: 'technician',
      name: 'Dana Ruiz',
      email: 'dana@example.com',
    });
    technician = actorOf(stack.companyId, { personId, name: 'Dana Ruiz' });
  });
  afterEach(() => stack.close());

  const reports = async () => (await stack.mails()).filter(({ kind }) => kind === 'visit-report');

  async function published() {
    const tasks = (await stack.calendar.tasksOf(stack.companyId, pondId)).filter(
      ({ task }) => task.doneBy === 'technician',
    );
    const { visit } = await stack.visits.create(stack.companyId, {
      pondId,
      plannedOn: '2026-10-30',
      fromTime: '08:00',
      toTime: '10:30',
      technicianId: technician.personId,
      taskIds: tasks.map(({ task }) => task.id),
    });
    await stack.visits.publish(stack.companyId, visit.id);
    return { visit, tasks };
  }

  it('mails what was done, what was measured and what it means, inside the closing', async () => {
    const { visit, tasks } = await published();
    await stack.visits.close(
      technician,
      visit.id,
      aClosing(tasks, {
        closedAt: '2026-10-30T14:55:00Z',
        note: 'The liner has a fold <b>on the left</b>.',
        readings: [
          { id: newId(), quantity: 'water-temperature', value: 8.5, takenAt: '2026-10-30T14:40:00Z' },
          { id: newId(), quantity: 'nitrite', value: 0.4, takenAt: '2026-10-30T14:41:00Z' },
        ],
      }),
    );
    const [mail] = await reports();
    expect(await reports()).toHaveLength(1);
    expect(mail).toMatchObject({ kind: 'visit-report', state: 'kept', toAddress: 'solveig@example.com' });
    expect(mail?.subject).toBe('Haugen pond: what was done on Friday 30 October');
    const text = mail?.plainText ?? '';
    expect(text).toContain('- Shut the pump and waterfall down for the winter: done');
    expect(text).toContain('Water temperature: 47 °F, in order');
    expect(text).toMatch(/Nitrite: 0.4 mg\/L N, needs action: above 0.3 mg\/L N/);
    expect(text).toContain('WHAT TO WATCH');
    expect(text).toContain('fold <b>on the left</b>');
    expect(mail?.html).toContain('fold &lt;b>on the left');
    expect(linksIn(text, 'visit-report')).toHaveLength(1);
    expect(text).not.toContain('gate');
  });

  it('writes one report for a closing that comes twice, and a corrected one when it was opened again', async () => {
    const { visit, tasks } = await published();
    const closing = aClosing(tasks, { closedAt: '2026-10-30T14:55:00Z' });
    await stack.visits.close(technician, visit.id, closing);
    await stack.visits.close(technician, visit.id, closing);
    expect(await reports()).toHaveLength(1);

    await stack.visits.reopen(
      actorOf(stack.companyId, { personId: stack.owner.id, role: 'office' }),
      visit.id,
      'Wrong pump.',
    );
    const again = await stack.calendar.tasksOf(stack.companyId, pondId);
    const same = again.filter(({ task }) => tasks.some((one) => one.task.id === task.id));
    await stack.visits.close(
      technician,
      visit.id,
      aClosing(same, { closedAt: '2026-10-30T14:58:00Z', note: 'The other pump.' }),
    );
    const mails = await reports();
    expect(mails).toHaveLength(2);
    expect(mails.filter(({ plainText }) => plainText.includes('Corrected report of the visit'))).toHaveLength(1);
  });

  it('closes the visit all the same when the report cannot be written', async () => {
    const { visit, tasks } = await published();
    stack.app.get(DigestComposer, { strict: false }).footing = async () => {
      throw new Error('no address to print');
    };
    await stack.visits.close(technician, visit.id, aClosing(tasks, { closedAt: '2026-10-30T14:55:00Z' }));
    expect(await stack.database.company(stack.companyId).count(VisitClosingEntity, { visitId: visit.id })).toBe(1);
    expect(await reports()).toMatchObject([{ kind: 'visit-report', state: 'dead', lastReply: 'no address to print' }]);
  });

  it('tells the next digest of a published visit', async () => {
    await published();
    stack.clock.set('2026-10-24T13:00:00.000Z');
    // Warm for the time of year, so that there is food to tell of; one reading alone would not be believed.
    await stack.readings.add(
      stack.companyId,
      pondId,
      [14, 17, 20, 23].map((day) => ({
        quantity: 'water-temperature' as const,
        value: 14,
        takenAt: `2026-10-${day}T12:00:00.000Z`,
      })),
    );
    await stack.sweep.run();
    expect((await stack.mails()).find(({ kind }) => kind === 'digest')?.plainText).toContain(
      'Friday 30 October, between 8 and 10:30. Dana Ruiz comes for: shut the',
    );
  });
});

describe('ReportHolds', () => {
  it('lets a report wait for the office, replaces it by a corrected one, and releases it', async () => {
    const smtp = { host: '127.0.0.1', port: 1, secure: false, user: null, password: null };
    const stack = await reminderStack({ at: '2026-10-30T15:00:00.000Z', smtp });
    try {
      const { companyId } = stack;
      const pondId = await stack.homeownersPond();
      const office = actorOf(companyId, { personId: stack.owner.id, role: 'office' });
      const holds = stack.app.get(ReportHolds, { strict: false });
      await stack.app.get(VisitSettings, { strict: false }).change(companyId, { reportHoldHours: 12 });
      const { visit } = await stack.visits.create(companyId, { pondId, taskIds: [], plannedOn: '2026-10-30' });
      await stack.visits.close(office, visit.id, aClosing([], { closedAt: '2026-10-30T14:55:00Z', note: 'wrong' }));
      expect(await holds.held(companyId)).toMatchObject([{ visitId: visit.id, leavesAt: '2026-10-31T03:00:00.000Z' }]);

      const record = { homeownerPresent: null, tasks: [], readings: [] };
      await stack.visits.edit(office, visit.id, { ...record, note: 'right', because: 'a slip' });
      const reports = async () => (await stack.mails()).filter(({ kind }) => kind === 'visit-report');
      expect((await reports()).map(({ state }) => state).sort()).toEqual(['due', 'expired']);
      const due = (await reports()).find(({ state }) => state === 'due');
      expect(due?.plainText).toContain('right');
      // The homeowner never saw the first one.
      expect(due?.plainText).not.toContain('Corrected');

      expect(await holds.release(companyId, visit.id)).toBe(1);
      expect(await holds.held(companyId)).toEqual([]);
      expect((await reports()).find(({ state }) => state === 'due')?.notBefore).toBe('2026-10-30T15:00:00.000Z');
    } finally {
      await stack.close();
    }
  });
});
