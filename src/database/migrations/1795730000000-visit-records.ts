import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * What a visit leaves behind beside its closings: photos, parts used, what is to be followed up, who changed what; the
 * company's shelf of parts and its wishes for reports; and the times at which people who work alone say that all is well.
 */
export class VisitRecords1795730000000 implements MigrationInterface {
  name = 'VisitRecords1795730000000';

  async up(db: QueryRunner): Promise<void> {
    for (const statement of STATEMENTS) await db.query(statement);
  }

  async down(db: QueryRunner): Promise<void> {
    // Photos stay on disk, but nothing says any more what they show.
    for (const table of TABLES) await db.query(`DROP TABLE ${table}`);
    await db.query(`ALTER TABLE visit_closing DROP COLUMN settled_by`);
    await db.query(`ALTER TABLE visit_closing DROP COLUMN settled_at`);
  }
}

const TABLES = [
  'visit_photo',
  'visit_part',
  'visit_follow_up',
  'visit_change',
  'shelf_part',
  'visit_setting',
  'check_in',
] as const;

const STATEMENTS = [
  // When the office has looked at what a closing was flagged for.
  `ALTER TABLE visit_closing ADD COLUMN settled_at VARCHAR(24)`,
  `ALTER TABLE visit_closing ADD COLUMN settled_by VARCHAR(36)`,
  `CREATE TABLE visit_photo (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL REFERENCES company (id),
    visit_id VARCHAR(36) NOT NULL,
    pond_id VARCHAR(36) NOT NULL,
    sent_hash VARCHAR(64) NOT NULL,
    content_hash VARCHAR(64) NOT NULL,
    width_px INTEGER NOT NULL CHECK (width_px > 0),
    height_px INTEGER NOT NULL CHECK (height_px > 0),
    stored_bytes INTEGER NOT NULL CHECK (stored_bytes > 0),
    taken_by VARCHAR(36) NOT NULL REFERENCES person (id),
    received_at VARCHAR(24) NOT NULL,
    removed_at VARCHAR(24),
    removed_by VARCHAR(36),
    UNIQUE (company_id, id),
    FOREIGN KEY (company_id, visit_id) REFERENCES visit (company_id, id),
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
  )`,
  `CREATE INDEX ix_visit_photo_visit ON visit_photo (company_id, visit_id)`,
  `CREATE INDEX ix_visit_photo_content ON visit_photo (company_id, content_hash)`,
  `CREATE TABLE shelf_part (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL REFERENCES company (id),
    name TEXT NOT NULL,
    part_ref VARCHAR(60) NOT NULL,
    unit VARCHAR(20) NOT NULL,
    on_hand DOUBLE PRECISION,
    lead_days INTEGER NOT NULL CHECK (lead_days BETWEEN 0 AND 365),
    rule_ids TEXT NOT NULL,
    archived_at VARCHAR(24),
    created_at VARCHAR(24) NOT NULL,
    UNIQUE (company_id, id)
  )`,
  `CREATE TABLE visit_part (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    visit_id VARCHAR(36) NOT NULL,
    part_id VARCHAR(36),
    name TEXT NOT NULL,
    amount DOUBLE PRECISION NOT NULL CHECK (amount > 0),
    unit VARCHAR(20) NOT NULL,
    care_task_id VARCHAR(36),
    lot VARCHAR(80) NOT NULL,
    removed_at VARCHAR(24),
    UNIQUE (company_id, id),
    FOREIGN KEY (company_id, visit_id) REFERENCES visit (company_id, id),
    FOREIGN KEY (company_id, part_id) REFERENCES shelf_part (company_id, id)
  )`,
  `CREATE INDEX ix_visit_part_visit ON visit_part (company_id, visit_id)`,
  `CREATE TABLE visit_follow_up (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    pond_id VARCHAR(36) NOT NULL,
    visit_id VARCHAR(36) NOT NULL,
    care_task_id VARCHAR(36),
    what TEXT NOT NULL,
    until_on VARCHAR(10),
    noted_by VARCHAR(36) NOT NULL REFERENCES person (id),
    noted_at VARCHAR(24) NOT NULL,
    settled_at VARCHAR(24),
    settled_by VARCHAR(36),
    UNIQUE (company_id, id),
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id),
    FOREIGN KEY (company_id, visit_id) REFERENCES visit (company_id, id)
  )`,
  `CREATE INDEX ix_visit_follow_up_open ON visit_follow_up (company_id, settled_at)`,
  `CREATE TABLE visit_change (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    visit_id VARCHAR(36) NOT NULL,
    step VARCHAR(20) NOT NULL,
    changed_at VARCHAR(24) NOT NULL,
    changed_by VARCHAR(36),
    before_values TEXT NOT NULL,
    after_values TEXT NOT NULL,
    because TEXT NOT NULL,
    FOREIGN KEY (company_id, visit_id) REFERENCES visit (company_id, id)
  )`,
  `CREATE INDEX ix_visit_change_visit ON visit_change (company_id, visit_id)`,
  `CREATE TABLE visit_setting (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL UNIQUE REFERENCES company (id),
    report_hold_hours INTEGER NOT NULL CHECK (report_hold_hours BETWEEN 0 AND 168)
  )`,
  `CREATE TABLE check_in (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL REFERENCES company (id),
    person_id VARCHAR(36) NOT NULL REFERENCES person (id),
    due_at VARCHAR(24) NOT NULL,
    set_at VARCHAR(24) NOT NULL,
    ended_at VARCHAR(24),
    ended_by VARCHAR(36),
    UNIQUE (company_id, id)
  )`,
  `CREATE INDEX ix_check_in_open ON check_in (company_id, ended_at, due_at)`,
];
