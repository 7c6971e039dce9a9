import { CompanyEntity } from './accounts/company.entity.js';
import { LinkTokenEntity } from './accounts/link-token.entity.js';
import { MembershipEntity } from './accounts/membership.entity.js';
import { PersonEntity } from './accounts/person.entity.js';
import { SessionEntity } from './accounts/session.entity.js';
import { CareTaskEntity } from './care-calendar/care-task.entity.js';
import { PlanLogEntity } from './care-calendar/plan-log.entity.js';
import { PlanOutcomeEntity } from './care-calendar/plan-outcome.entity.js';
import { WeatherForecastEntity } from './climate/weather/weather-forecast.entity.js';
import type { Entities } from './database/index.js';
import { CalendarFeedEntity } from './feeds/calendar-feed.entity.js';
import { JobRunEntity } from './jobs/job-run.entity.js';
import { AgreementTermEntity } from './ponds/agreement-term.entity.js';
import { EquipmentEntity } from './ponds/equipment.entity.js';
import { ImportRunEntity } from './ponds/import-run.entity.js';
import { PondEntity } from './ponds/pond.entity.js';
import { PondContactEntity } from './ponds/pond-contact.entity.js';
import { PondEventEntity } from './ponds/pond-event.entity.js';
import { ReadingEntity } from './ponds/reading.entity.js';
import { StockGroupEntity } from './ponds/stock-group.entity.js';
import { HomeownerWordEntity } from './reminders/homeowner-word.entity.js';
import { MailHoldEntity } from './reminders/mail-hold.entity.js';
import { MailMarkEntity } from './reminders/mail-mark.entity.js';
import { MailOutboxEntity } from './reminders/mail-outbox.entity.js';
import { ReminderEntity } from './reminders/reminder.entity.js';
import { CheckInEntity } from './visits/check-in.entity.js';
import { ShelfPartEntity } from './visits/parts/shelf-part.entity.js';
import { VisitPartEntity } from './visits/parts/visit-part.entity.js';
import { VisitPhotoEntity } from './visits/photos/visit-photo.entity.js';
import { VisitEntity } from './visits/visit.entity.js';
import { VisitChangeEntity } from './visits/visit-change.entity.js';
import { VisitClosingEntity } from './visits/visit-closing.entity.js';
import { VisitFollowUpEntity } from './visits/visit-follow-up.entity.js';
import { VisitSettingEntity } from './visits/visit-setting.entity.js';
import { VisitTaskEntity } from './visits/visit-task.entity.js';

/** Tables that belong to no one company. */
export const SHARED_ENTITIES = [
  CompanyEntity,
  PersonEntity,
  MembershipEntity,
  SessionEntity,
  LinkTokenEntity,
  JobRunEntity,
  MailHoldEntity,
  MailMarkEntity,
  WeatherForecastEntity,
] as const;

/** Tables of companies, parents before children. */
export const COMPANY_ENTITIES = [
  PondEntity,
  PondContactEntity,
  EquipmentEntity,
  StockGroupEntity,
  AgreementTermEntity,
  ReadingEntity,
  PondEventEntity,
  ImportRunEntity,
  CareTaskEntity,
  PlanLogEntity,
  PlanOutcomeEntity,
  VisitEntity,
  VisitTaskEntity,
  VisitClosingEntity,
  VisitPhotoEntity,
  ShelfPartEntity,
  VisitPartEntity,
  VisitFollowUpEntity,
  VisitChangeEntity,
  VisitSettingEntity,
  CheckInEntity,
  MailOutboxEntity,
  ReminderEntity,
  HomeownerWordEntity,
  CalendarFeedEntity,
] as const;

/** Every table. A new entity is added here and nowhere else. */
export const ENTITIES: Entities = [...SHARED_ENTITIES, ...COMPANY_ENTITIES];
