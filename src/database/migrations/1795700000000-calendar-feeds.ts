import type { MigrationInterface, QueryRunner } from 'typeorm';

/** Calendar addresses that people subscribe to. The secret part is a link token; this row says what it shows. */
export class CalendarFeeds1795700000000 implements MigrationInterface {
  name = 'CalendarFeeds1795700000000';

  async up(db: QueryRunner): Promise<void> {
    await db.query(`CREATE TABLE calendar_feed (
      id VARCHAR(36) PRIMARY KEY,
      company_id VARCHAR(36) NOT NULL REFERENCES company (id),
      person_id VARCHAR(36) NOT NULL REFERENCES person (id),
      audience VARCHAR(12) NOT NULL CHECK (audience IN ('homeowner', 'technician', 'company')),
      tasks_as VARCHAR(10) NOT NULL CHECK (tasks_as IN ('to-do', 'event')),
      alarm_minutes_before INTEGER CHECK (alarm_minutes_before BETWEEN 0 AND 20160),
      created_at VARCHAR(24) NOT NULL,
      revoked_at VARCHAR(24),
      last_read_at VARCHAR(24),
      UNIQUE (company_id, id)
    )`);
    await db.query(`CREATE INDEX ix_calendar_feed_person ON calendar_feed (company_id, person_id)`);
  }

  async down(db: QueryRunner): Promise<void> {
    // Subscribed calendars stop being filled.
    await db.query(`DROP TABLE calendar_feed`);
  }
}
