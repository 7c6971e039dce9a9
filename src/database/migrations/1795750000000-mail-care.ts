import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * Weeks in which a homeowner wants no weekly mail, the season a digest told of, pictures inside a mail, the zone whose
 * nights it keeps, what holds mail back, and the weather that was forecast.
 */
export class MailCare1795750000000 implements MigrationInterface {
  name = 'MailCare1795750000000';

  async up(db: QueryRunner): Promise<void> {
    await db.query(`ALTER TABLE pond_contact ADD COLUMN quiet_from VARCHAR(10)`);
    await db.query(`ALTER TABLE pond_contact ADD COLUMN quiet_until VARCHAR(10)`);
    await db.query(`ALTER TABLE reminder ADD COLUMN season VARCHAR(10)`);
    await db.query(`ALTER TABLE mail_outbox ADD COLUMN pictures TEXT NOT NULL DEFAULT '[]'`);
    await db.query(`ALTER TABLE mail_outbox ADD COLUMN time_zone VARCHAR(64)`);
    await db.query(`CREATE TABLE mail_hold (
      scope VARCHAR(36) PRIMARY KEY,
      because VARCHAR(10) NOT NULL CHECK (because IN ('paused', 'restored', 'clock')),
      held_at VARCHAR(24) NOT NULL,
      held_by VARCHAR(36)
    )`);
    await db.query(`CREATE TABLE mail_mark (
      name VARCHAR(10) PRIMARY KEY,
      runs INTEGER NOT NULL
    )`);
    await db.query(`CREATE TABLE weather_forecast (
      place VARCHAR(20) PRIMARY KEY,
      got_at VARCHAR(24),
      days TEXT NOT NULL,
      asked_at VARCHAR(24) NOT NULL,
      fault TEXT NOT NULL
    )`);
  }

  async down(db: QueryRunner): Promise<void> {
    await db.query(`DROP TABLE weather_forecast`);
    await db.query(`DROP TABLE mail_mark`);
    await db.query(`DROP TABLE mail_hold`);
    await db.query(`ALTER TABLE mail_outbox DROP COLUMN time_zone`);
    await db.query(`ALTER TABLE mail_outbox DROP COLUMN pictures`);
    await db.query(`ALTER TABLE reminder DROP COLUMN season`);
    await db.query(`ALTER TABLE pond_contact DROP COLUMN quiet_until`);
    await db.query(`ALTER TABLE pond_contact DROP COLUMN quiet_from`);
  }
}
