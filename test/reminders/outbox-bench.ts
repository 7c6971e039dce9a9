import { CompaniesService } from '../../src/accounts/index.js';
import type { Settings } from '../../src/config/index.js';
import type { Database } from '../../src/database/index.js';
import { FixedClock } from '../../src/platform/clock.js';
import { MailDelivery } from '../../src/reminders/mail-delivery.service.js';
import { MailHolds } from '../../src/reminders/mail-holds.service.js';
import { MailOutboxEntity } from '../../src/reminders/mail-outbox.entity.js';
import { type MailPaceLimits, NO_PACE } from '../../src/reminders/mail-pace.js';
import { type NewMail, OutboxService } from '../../src/reminders/outbox.service.js';
import { MailTransport } from '../../src/reminders/transport/mail-transport.js';
import { type SmtpOptions, type SmtpPatience, SmtpTransport } from '../../src/reminders/transport/smtp-transport.js';

export const SATURDAY_8_CHICAGO = '2026-10-03T13:00:00.000Z';
export const FROM_ADDRESS = 'reminders@mail.example.com';
export const SETTINGS_FOR_MAIL = {
  publicUrl: 'https://care.example.com',
  mailFrom: { name: 'Tarnkeep', address: FROM_ADDRESS },
} as Settings;

const IMPATIENT: SmtpPatience = { beforeTextMs: 1_500, afterTextMs: 700, idleMs: 200 };

/** The outbox and its delivery over a database and a transport, with a clock that stands still. */
export function outboxOver(
  database: Database,
  transport: MailTransport,
  at = SATURDAY_8_CHICAGO,
  mailPace: MailPaceLimits = NO_PACE,
) {
  const clock = FixedClock.at(at);
  const companies = new CompaniesService(database, clock);
  const outbox = new OutboxService(database, clock, companies, transport, SETTINGS_FOR_MAIL);
  const holds = new MailHolds(database, clock, companies);
  const delivery = new MailDelivery(database, clock, companies, transport, holds, () => 0.5, { mailPace });
  return { clock, companies, outbox, delivery, holds, transport };
}

export function smtpTo(port: number, patience: SmtpPatience = IMPATIENT, more: SmtpOptions = {}): SmtpTransport {
  return new SmtpTransport({ host: '127.0.0.1', port, secure: false, user: null, password: null }, FROM_ADDRESS, {
    patience,
    ...more,
  });
}

export function newMail(own: Partial<NewMail> = {}): NewMail {
  return {
    kind: 'digest',
    dedupeKey: 'digest:somebody:2026-10-03',
    toName: 'Solveig Haugen',
    toAddress: 'solveig@example.com',
    subject: 'Haugen pond: change the feed',
    html: '<!doctype html><p>Change the feed.</p>',
    plainText: 'Change the feed.\n',
    ...own,
  };
}

export function mailsOf(database: Database, companyId: string): Promise<MailOutboxEntity[]> {
  return database.company(companyId).find(MailOutboxEntity, { order: { createdAt: 'ASC', id: 'ASC' } });
}
