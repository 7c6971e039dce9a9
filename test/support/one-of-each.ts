import type { ObjectLiteral } from 'typeorm';
import { CareTaskEntity } from '../../src/care-calendar/care-task.entity.js';
import { PlanLogEntity } from '../../src/care-calendar/plan-log.entity.js';
import { PlanOutcomeEntity } from '../../src/care-calendar/plan-outcome.entity.js';
import type { CompanyOwned, EntityClass } from '../../src/database/index.js';
import { CalendarFeedEntity } from '../../src/feeds/calendar-feed.entity.js';
import { newId } from '../../src/platform/ids.js';
import { AgreementTermEntity } from '../../src/ponds/agreement-term.entity.js';
import { EquipmentEntity } from '../../src/ponds/equipment.entity.js';
import { ImportRunEntity } from '../../src/ponds/import-run.entity.js';
import { PondEntity } from '../../src/ponds/pond.entity.js';
import { PondContactEntity } from '../../src/ponds/pond-contact.entity.js';
import { PondEventEntity } from '../../src/ponds/pond-event.entity.js';
import { ReadingEntity } from '../../src/ponds/reading.entity.js';
import { StockGroupEntity } from '../../src/ponds/stock-group.entity.js';
import { HomeownerWordEntity } from '../../src/reminders/homeowner-word.entity.js';
import { MailOutboxEntity } from '../../src/reminders/mail-outbox.entity.js';
import { ReminderEntity } from '../../src/reminders/reminder.entity.js';
import { CheckInEntity } from '../../src/visits/check-in.entity.js';
import { ShelfPartEntity } from '../../src/visits/parts/shelf-part.entity.js';
import { VisitPartEntity } from '../../src/visits/parts/visit-part.entity.js';
import { VisitPhotoEntity } from '../../src/visits/photos/visit-photo.entity.js';
import { VisitEntity } from '../../src/visits/visit.entity.js';
import { VisitChangeEntity } from '../../src/visits/visit-change.entity.js';
import { VisitClosingEntity } from '../../src/visits/visit-closing.entity.js';
import { VisitFollowUpEntity } from '../../src/visits/visit-follow-up.entity.js';
import { VisitSettingEntity } from '../../src/visits/visit-setting.entity.js';
import { VisitTaskEntity } from '../../src/visits/visit-task.entity.js';
import { AT, ON, pondRow } from './company-rows.js';

export interface Sample {
  readonly entity: EntityClass<CompanyOwned & ObjectLiteral>;
  readonly row: ObjectLiteral;
  /** Property of the primary key. */
  readonly key: 'id' | 'pondId';
  /** A change of one column that every such row may take. */
  readonly change: ObjectLiteral;
}

/** One row of every table of a company, parents first, all hanging on one pond. */
export function oneOfEach(personId: string): Sample[] {
  const [pondId, taskId, visitId, outboxId, shelfPartId] = [newId(), newId(), newId(), newId(), newId()];
  const samples: Sample[] = [];
  const add = (entity: Sample['entity'], row: ObjectLiteral, change: ObjectLiteral, key: Sample['key'] = 'id') =>
    samples.push({ entity, row: key === 'id' ? { id: newId(), ...row } : row, key, change });

  add(PondEntity, pondRow({ id: pondId, ref: 'P-1' }), { name: 'changed' });
  add(
    PondContactEntity,
    {
      pondId,
      personId,
      name: 'Ada Berg',
      role: 'homeowner',
      phone: '',
      language: 'en',
      units: 'us',
      getsMail: true,
      digestWeekday: 4,
      digestHour: 8,
      mailStoppedAt: null,
      startedOn: ON,
      endedOn: null,
    },
    { name: 'changed' },
  );
  add(
    EquipmentEntity,
    {
      pondId,
      kind: 'pump',
      name: 'Pump',
      rated: { flowLPerH: 6000 },
      installedOn: ON,
      warrantyUntil: null,
      removedOn: null,
    },
    { name: 'changed' },
  );
  add(StockGroupEntity, { pondId, species: 'koi', headCount: 4, lengthCm: 35.5 }, { headCount: 5 });
  add(AgreementTermEntity, { pondId, ruleId: 'a-rule', doneBy: 'company', fromOn: ON, untilOn: null }, { ruleId: 'b' });
  add(
    ReadingEntity,
    {
      pondId,
      quantity: 'ph',
      value: 7.8,
      takenAt: AT,
      takenBy: personId,
      visitId: null,
      replacesId: null,
      createdAt: AT,
    },
    { value: 8.1 },
  );
  add(PondEventEntity, { pondId, kind: 'commissioning', happenedOn: ON, note: '', createdAt: AT }, { note: 'changed' });
  add(
    ImportRunEntity,
    {
      fileName: 'ponds.csv',
      state: 'imported',
      totalRows: 1,
      doneRows: 1,
      report: { faults: [], furtherFaults: 0, pondsAdded: 1, pondsChanged: 0, contactsAdded: 0 },
      createdBy: personId,
      createdAt: AT,
      finishedAt: AT,
    },
    { fileName: 'changed' },
  );
  add(
    CareTaskEntity,
    {
      id: taskId,
      pondId,
      ruleId: 'a-rule',
      cycle: '2026',
      state: 'NEEDS-ACTION',
      doneBy: 'technician',
      consequence: 'care',
      routineLine: false,
      earliestOn: ON,
      dueOn: ON,
      latestOn: ON,
      heldDueOn: null,
      promisedOn: null,
      putOffUntil: null,
      planned: { ruleId: 'a-rule' },
      finishedOn: null,
      finishedBy: null,
      finishedBecause: null,
      actuals: {},
      mailedTimes: 0,
      visitId: null,
      createdAt: AT,
      updatedAt: AT,
    },
    { mailedTimes: 1 },
  );
  add(
    PlanLogEntity,
    {
      pondId,
      loggedAt: AT,
      ruleId: 'a-rule',
      cycle: '2026',
      kind: 'added',
      fromWindow: null,
      toWindow: null,
      because: 'new',
    },
    { because: 'changed' },
  );
  add(
    PlanOutcomeEntity,
    { pondId, plannedOn: ON, notDue: [], conflicts: [], findings: [], outlook: { firstDay: ON } },
    { plannedOn: '2026-11-26' },
    'pondId',
  );
  add(
    VisitEntity,
    {
      id: visitId,
      pondId,
      state: 'CONFIRMED',
      plannedOn: ON,
      fromTime: '08:00',
      toTime: '10:00',
      technicianId: personId,
      dueEarliestOn: ON,
      dueLatestOn: ON,
      minutes: 45,
      officeNote: '',
      publishedAt: AT,
      onTheWayAt: null,
      arrivedAt: null,
      closedAt: null,
      cancelledBecause: null,
      createdAt: AT,
      updatedAt: AT,
      version: 1,
    },
    { officeNote: 'changed' },
  );
  add(
    VisitTaskEntity,
    { visitId, careTaskId: taskId, outcome: 'partly', doneShare: 0.5, remark: '' },
    { remark: 'changed' },
  );
  add(
    VisitClosingEntity,
    {
      visitId,
      closingVersion: 1,
      closedAt: AT,
      closedBy: personId,
      receivedAt: AT,
      reopenedAt: null,
      reopenedBy: null,
      record: { note: '', homeownerPresent: null, tasks: [], readings: [] },
    },
    { closingVersion: 2 },
  );
  add(
    VisitPhotoEntity,
    {
      visitId,
      pondId,
      sentHash: 'a'.repeat(64),
      contentHash: 'b'.repeat(64),
      widthPx: 1600,
      heightPx: 1200,
      storedBytes: 240_000,
      takenBy: personId,
      receivedAt: AT,
      removedAt: null,
      removedBy: null,
    },
    { removedAt: AT },
  );
  add(
    ShelfPartEntity,
    {
      id: shelfPartId,
      name: 'UV lamp, 55 W',
      partRef: 'UV-55',
      unit: 'piece',
      onHand: 3,
      leadDays: 5,
      ruleIds: ['uv-lamp-replacement'],
      archivedAt: null,
      createdAt: AT,
    },
    { onHand: 2 },
  );
  add(
    VisitPartEntity,
    {
      visitId,
      partId: shelfPartId,
      name: 'UV lamp, 55 W',
      amount: 1,
      unit: 'piece',
      careTaskId: taskId,
      lot: '',
      removedAt: null,
    },
    { lot: 'L-7' },
  );
  add(
    VisitFollowUpEntity,
    {
      pondId,
      visitId,
      careTaskId: null,
      what: 'Skimmer door is cracked',
      untilOn: null,
      notedBy: personId,
      notedAt: AT,
      settledAt: null,
      settledBy: null,
    },
    { what: 'changed' },
  );
  add(
    VisitChangeEntity,
    {
      visitId,
      step: 'moved',
      changedAt: AT,
      changedBy: personId,
      before: { plannedOn: ON },
      after: { plannedOn: '2026-11-26' },
      because: '',
    },
    { because: 'changed' },
  );
  add(VisitSettingEntity, { reportHoldHours: 0 }, { reportHoldHours: 12 });
  add(CheckInEntity, { personId, dueAt: AT, setAt: AT, endedAt: null, endedBy: null }, { endedAt: AT });
  add(
    MailOutboxEntity,
    {
      id: outboxId,
      kind: 'digest',
      dedupeKey: `digest ${outboxId}`,
      state: 'due',
      toName: 'Ada Berg',
      toAddress: 'ada@example.com',
      contactId: null,
      pondId: null,
      subject: 'Your pond this week',
      html: '<p>…</p>',
      plainText: '…',
      headers: { 'Auto-Submitted': 'auto-generated' },
      messageId: `<${outboxId}@example.com>`,
      datedAt: AT,
      attempts: 0,
      notBefore: AT,
      notAfter: null,
      leaseNumber: 0,
      leasedUntil: null,
      lastReply: null,
      sentAt: null,
      createdAt: AT,
    },
    { attempts: 1 },
  );
  add(ReminderEntity, { personId, digestOn: ON, taskIds: [taskId], outboxId, createdAt: AT }, { taskIds: [] });
  add(
    HomeownerWordEntity,
    {
      pondId,
      personId,
      kind: 'question',
      visitId: null,
      taskId: null,
      said: 'Is foam normal?',
      saidAt: AT,
      settledAt: null,
      settledBy: null,
    },
    { said: 'changed' },
  );
  add(
    CalendarFeedEntity,
    {
      personId,
      audience: 'homeowner',
      tasksAs: 'event',
      alarmMinutesBefore: null,
      createdAt: AT,
      revokedAt: null,
      lastReadAt: null,
    },
    { tasksAs: 'to-do' },
  );
  return samples;
}
