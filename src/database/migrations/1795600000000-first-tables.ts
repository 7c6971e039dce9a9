import type { MigrationInterface, QueryRunner } from 'typeorm';

/**
 * The first tables. The same words run on SQLite and PostgreSQL. Every table of a company carries `company_id` and
 * refers to its parent by (company_id, id), so that a row can never hang on another company's pond.
 */
export class FirstTables1795600000000 implements MigrationInterface {
  name = 'FirstTables1795600000000';

  async up(db: QueryRunner): Promise<void> {
    for (const statement of [...ACCOUNTS, ...PONDS, ...CARE, ...VISITS, ...MAIL, ...JOBS]) await db.query(statement);
  }

  async down(db: QueryRunner): Promise<void> {
    // Everything is lost: only for a database that holds nothing yet.
    for (const table of [...TABLES].reverse()) await db.query(`DROP TABLE ${table}`);
  }
}

const TABLES = [
  'write_turn',
  'company',
  'person',
  'membership',
  'session',
  'link_token',
  'pond',
  'pond_contact',
  'equipment',
  'stock_group',
  'agreement_term',
  'reading',
  'pond_event',
  'import_run',
  'care_task',
  'plan_log',
  'plan_outcome',
  'visit',
  'visit_task',
  'visit_closing',
  'mail_outbox',
  'reminder',
  'job_run',
] as const;

const ACCOUNTS = [
  `CREATE TABLE write_turn (turn INTEGER)`,
  `CREATE TABLE company (
    id VARCHAR(36) PRIMARY KEY,
    name TEXT NOT NULL,
    postal_address TEXT NOT NULL,
    reply_to_email TEXT NOT NULL,
    phone TEXT NOT NULL,
    units VARCHAR(10) NOT NULL CHECK (units IN ('us', 'metric')),
    time_zone TEXT NOT NULL,
    dechlorinator_id TEXT NOT NULL,
    default_done_by VARCHAR(10) NOT NULL CHECK (default_done_by IN ('company', 'homeowner')),
    is_demo BOOLEAN NOT NULL,
    created_at VARCHAR(24) NOT NULL
  )`,
  `CREATE TABLE person (
    id VARCHAR(36) PRIMARY KEY,
    email VARCHAR(254) NOT NULL UNIQUE,
    name TEXT NOT NULL,
    phone TEXT NOT NULL,
    language VARCHAR(10) NOT NULL,
    units VARCHAR(10) CHECK (units IN ('us', 'metric')),
    password_hash TEXT,
    disabled_at VARCHAR(24),
    created_at VARCHAR(24) NOT NULL
  )`,
  `CREATE TABLE membership (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL REFERENCES company (id),
    person_id VARCHAR(36) NOT NULL REFERENCES person (id),
    role VARCHAR(12) NOT NULL CHECK (role IN ('owner', 'office', 'technician')),
    skills TEXT NOT NULL,
    created_at VARCHAR(24) NOT NULL,
    ended_at VARCHAR(24),
    UNIQUE (company_id, person_id)
  )`,
  `CREATE INDEX ix_membership_person ON membership (person_id)`,
  `CREATE TABLE session (
    id VARCHAR(36) PRIMARY KEY,
    token_hash VARCHAR(64) NOT NULL UNIQUE,
    form_token VARCHAR(64) NOT NULL,
    person_id VARCHAR(36) NOT NULL REFERENCES person (id),
    company_id VARCHAR(36) REFERENCES company (id),
    role VARCHAR(12) NOT NULL CHECK (role IN ('owner', 'office', 'technician', 'homeowner')),
    created_at VARCHAR(24) NOT NULL,
    used_at VARCHAR(24) NOT NULL,
    expires_at VARCHAR(24) NOT NULL
  )`,
  `CREATE INDEX ix_session_person ON session (person_id)`,
  `CREATE TABLE link_token (
    id VARCHAR(36) PRIMARY KEY,
    token_hash VARCHAR(64) NOT NULL UNIQUE,
    purpose VARCHAR(30) NOT NULL,
    company_id VARCHAR(36) NOT NULL REFERENCES company (id),
    person_id VARCHAR(36) REFERENCES person (id),
    object_id VARCHAR(36) NOT NULL,
    expires_at VARCHAR(24),
    used_at VARCHAR(24),
    revoked_at VARCHAR(24),
    created_at VARCHAR(24) NOT NULL
  )`,
  `CREATE INDEX ix_link_token_object ON link_token (object_id)`,
];

const PONDS = [
  `CREATE TABLE pond (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL REFERENCES company (id),
    name TEXT NOT NULL,
    pond_ref VARCHAR(60),
    state VARCHAR(10) NOT NULL CHECK (state IN ('active', 'archived')),
    street TEXT NOT NULL,
    town TEXT NOT NULL,
    region TEXT NOT NULL,
    postal_code TEXT NOT NULL,
    country TEXT NOT NULL,
    latitude DOUBLE PRECISION NOT NULL CHECK (latitude BETWEEN -90 AND 90),
    longitude DOUBLE PRECISION NOT NULL CHECK (longitude BETWEEN -180 AND 180),
    elevation_m DOUBLE PRECISION NOT NULL,
    time_zone TEXT NOT NULL,
    shape TEXT,
    volume_l DOUBLE PRECISION NOT NULL CHECK (volume_l > 0),
    volume_method VARCHAR(30) NOT NULL,
    volume_sigma_pct DOUBLE PRECISION NOT NULL,
    surface_area_m2 DOUBLE PRECISION NOT NULL CHECK (surface_area_m2 > 0),
    mean_depth_m DOUBLE PRECISION NOT NULL CHECK (mean_depth_m > 0),
    max_depth_m DOUBLE PRECISION NOT NULL CHECK (max_depth_m > 0),
    direct_sun_hours DOUBLE PRECISION NOT NULL,
    wind_shelter VARCHAR(10) NOT NULL CHECK (wind_shelter IN ('open', 'suburban', 'walled')),
    trees_near BOOLEAN NOT NULL,
    waterfall BOOLEAN NOT NULL,
    plants TEXT NOT NULL,
    tap_source VARCHAR(12) NOT NULL CHECK (tap_source IN ('chlorine', 'chloramine', 'well', 'unknown')),
    tap_total_chlorine_mg_per_l DOUBLE PRECISION,
    commissioned_on VARCHAR(10),
    stocked_on VARCHAR(10),
    care_since VARCHAR(10) NOT NULL,
    station_id TEXT,
    hardiness_zone VARCHAR(4),
    koeppen VARCHAR(4),
    winter_class VARCHAR(2),
    winter_key VARCHAR(16),
    access_notes TEXT NOT NULL,
    gate_code TEXT NOT NULL,
    hazards TEXT NOT NULL,
    created_at VARCHAR(24) NOT NULL,
    updated_at VARCHAR(24) NOT NULL,
    archived_at VARCHAR(24),
    version INTEGER NOT NULL,
    UNIQUE (company_id, id),
    UNIQUE (company_id, pond_ref)
  )`,
  `CREATE INDEX ix_pond_company_name ON pond (company_id, state, name)`,
  `CREATE TABLE pond_contact (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    pond_id VARCHAR(36) NOT NULL,
    person_id VARCHAR(36) REFERENCES person (id),
    name TEXT NOT NULL,
    role VARCHAR(20) NOT NULL CHECK (role IN ('homeowner', 'caretaker', 'neighbour', 'builder')),
    phone TEXT NOT NULL,
    language VARCHAR(10) NOT NULL,
    units VARCHAR(10) CHECK (units IN ('us', 'metric')),
    gets_mail BOOLEAN NOT NULL,
    digest_weekday INTEGER NOT NULL CHECK (digest_weekday BETWEEN 1 AND 7),
    digest_hour INTEGER NOT NULL CHECK (digest_hour BETWEEN 0 AND 23),
    mail_stopped_at VARCHAR(24),
    started_on VARCHAR(10) NOT NULL,
    ended_on VARCHAR(10),
    UNIQUE (company_id, id),
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
  )`,
  `CREATE INDEX ix_pond_contact_pond ON pond_contact (company_id, pond_id)`,
  `CREATE INDEX ix_pond_contact_person ON pond_contact (person_id)`,
  `CREATE TABLE equipment (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    pond_id VARCHAR(36) NOT NULL,
    kind VARCHAR(20) NOT NULL,
    name TEXT NOT NULL,
    rated TEXT NOT NULL,
    installed_on VARCHAR(10),
    warranty_until VARCHAR(10),
    removed_on VARCHAR(10),
    UNIQUE (company_id, id),
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
  )`,
  `CREATE INDEX ix_equipment_pond ON equipment (company_id, pond_id)`,
  `CREATE TABLE stock_group (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    pond_id VARCHAR(36) NOT NULL,
    species VARCHAR(20) NOT NULL,
    head_count INTEGER NOT NULL CHECK (head_count > 0),
    length_cm DOUBLE PRECISION NOT NULL CHECK (length_cm > 0),
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
  )`,
  `CREATE INDEX ix_stock_group_pond ON stock_group (company_id, pond_id)`,
  `CREATE TABLE agreement_term (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    pond_id VARCHAR(36) NOT NULL,
    rule_id VARCHAR(80) NOT NULL,
    done_by VARCHAR(10) NOT NULL CHECK (done_by IN ('company', 'homeowner')),
    from_on VARCHAR(10),
    until_on VARCHAR(10),
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
  )`,
  `CREATE INDEX ix_agreement_term_pond ON agreement_term (company_id, pond_id)`,
  `CREATE TABLE reading (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    pond_id VARCHAR(36) NOT NULL,
    quantity VARCHAR(30) NOT NULL,
    value DOUBLE PRECISION NOT NULL,
    taken_at VARCHAR(24) NOT NULL,
    taken_by VARCHAR(36) REFERENCES person (id),
    visit_id VARCHAR(36),
    replaces_id VARCHAR(36),
    created_at VARCHAR(24) NOT NULL,
    CHECK (quantity <> 'ph' OR value BETWEEN 0 AND 14),
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
  )`,
  `CREATE INDEX ix_reading_pond ON reading (company_id, pond_id, quantity, taken_at)`,
  `CREATE TABLE pond_event (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    pond_id VARCHAR(36) NOT NULL,
    kind VARCHAR(30) NOT NULL,
    happened_on VARCHAR(10) NOT NULL,
    note TEXT NOT NULL,
    created_at VARCHAR(24) NOT NULL,
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
  )`,
  `CREATE INDEX ix_pond_event_pond ON pond_event (company_id, pond_id)`,
  `CREATE TABLE import_run (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL REFERENCES company (id),
    file_name TEXT NOT NULL,
    state VARCHAR(12) NOT NULL CHECK (state IN ('checking', 'refused', 'importing', 'imported', 'failed')),
    total_rows INTEGER NOT NULL,
    done_rows INTEGER NOT NULL,
    report TEXT NOT NULL,
    created_by VARCHAR(36) REFERENCES person (id),
    created_at VARCHAR(24) NOT NULL,
    finished_at VARCHAR(24)
  )`,
  `CREATE INDEX ix_import_run_company ON import_run (company_id, created_at)`,
];

const CARE = [
  `CREATE TABLE care_task (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    pond_id VARCHAR(36) NOT NULL,
    rule_id VARCHAR(80) NOT NULL,
    cycle VARCHAR(120) NOT NULL,
    state VARCHAR(12) NOT NULL CHECK (state IN ('NEEDS-ACTION', 'COMPLETED', 'CANCELLED')),
    done_by VARCHAR(12) NOT NULL CHECK (done_by IN ('homeowner', 'technician')),
    consequence VARCHAR(10) NOT NULL CHECK (consequence IN ('routine', 'care', 'urgent')),
    routine_line BOOLEAN NOT NULL,
    earliest_on VARCHAR(10) NOT NULL,
    due_on VARCHAR(10) NOT NULL,
    latest_on VARCHAR(10) NOT NULL,
    held_due_on VARCHAR(10),
    promised_on VARCHAR(10),
    put_off_until VARCHAR(10),
    planned TEXT NOT NULL,
    finished_on VARCHAR(10),
    finished_by VARCHAR(36),
    finished_because VARCHAR(30),
    actuals TEXT NOT NULL,
    mailed_times INTEGER NOT NULL,
    visit_id VARCHAR(36),
    created_at VARCHAR(24) NOT NULL,
    updated_at VARCHAR(24) NOT NULL,
    UNIQUE (company_id, id),
    UNIQUE (company_id, pond_id, rule_id, cycle),
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
  )`,
  `CREATE INDEX ix_care_task_due ON care_task (company_id, state, done_by, due_on)`,
  `CREATE INDEX ix_care_task_pond ON care_task (company_id, pond_id, state)`,
  `CREATE TABLE plan_log (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    pond_id VARCHAR(36) NOT NULL,
    logged_at VARCHAR(24) NOT NULL,
    rule_id VARCHAR(80) NOT NULL,
    cycle VARCHAR(120) NOT NULL,
    kind VARCHAR(20) NOT NULL,
    from_window TEXT,
    to_window TEXT,
    because TEXT NOT NULL,
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
  )`,
  `CREATE INDEX ix_plan_log_pond ON plan_log (company_id, pond_id, logged_at)`,
  `CREATE TABLE plan_outcome (
    pond_id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    planned_on VARCHAR(10) NOT NULL,
    not_due TEXT NOT NULL,
    conflicts TEXT NOT NULL,
    findings TEXT NOT NULL,
    outlook TEXT NOT NULL,
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
  )`,
];

const VISITS = [
  `CREATE TABLE visit (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    pond_id VARCHAR(36) NOT NULL,
    state VARCHAR(12) NOT NULL CHECK (state IN ('TENTATIVE', 'CONFIRMED', 'IN-PROCESS', 'COMPLETED', 'CANCELLED')),
    planned_on VARCHAR(10) NOT NULL,
    from_time VARCHAR(5),
    to_time VARCHAR(5),
    technician_id VARCHAR(36) REFERENCES person (id),
    due_earliest_on VARCHAR(10) NOT NULL,
    due_latest_on VARCHAR(10) NOT NULL,
    minutes INTEGER NOT NULL,
    office_note TEXT NOT NULL,
    published_at VARCHAR(24),
    on_the_way_at VARCHAR(24),
    arrived_at VARCHAR(24),
    closed_at VARCHAR(24),
    cancelled_because TEXT,
    created_at VARCHAR(24) NOT NULL,
    updated_at VARCHAR(24) NOT NULL,
    version INTEGER NOT NULL,
    UNIQUE (company_id, id),
    FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
  )`,
  `CREATE INDEX ix_visit_day ON visit (company_id, planned_on, technician_id)`,
  `CREATE INDEX ix_visit_pond ON visit (company_id, pond_id)`,
  `CREATE TABLE visit_task (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    visit_id VARCHAR(36) NOT NULL,
    care_task_id VARCHAR(36) NOT NULL,
    outcome VARCHAR(10) CHECK (outcome IN ('done', 'partly', 'not-done')),
    done_share DOUBLE PRECISION,
    remark TEXT NOT NULL,
    UNIQUE (company_id, visit_id, care_task_id),
    FOREIGN KEY (company_id, visit_id) REFERENCES visit (company_id, id),
    FOREIGN KEY (company_id, care_task_id) REFERENCES care_task (company_id, id)
  )`,
  `CREATE TABLE visit_closing (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    visit_id VARCHAR(36) NOT NULL,
    closing_version INTEGER NOT NULL,
    closed_at VARCHAR(24) NOT NULL,
    closed_by VARCHAR(36) NOT NULL REFERENCES person (id),
    received_at VARCHAR(24) NOT NULL,
    reopened_at VARCHAR(24),
    reopened_by VARCHAR(36),
    reopened_because TEXT,
    record TEXT NOT NULL,
    UNIQUE (company_id, visit_id, closing_version),
    FOREIGN KEY (company_id, visit_id) REFERENCES visit (company_id, id)
  )`,
];

const MAIL = [
  `CREATE TABLE mail_outbox (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL REFERENCES company (id),
    kind VARCHAR(20) NOT NULL CHECK (kind IN ('digest', 'urgent', 'visit-report', 'visit-notice', 'account')),
    dedupe_key VARCHAR(200) NOT NULL,
    state VARCHAR(14) NOT NULL CHECK (state IN ('due', 'claimed', 'handing_over', 'sent', 'deferred', 'bounced', 'expired', 'in_doubt', 'dead', 'kept')),
    to_name TEXT NOT NULL,
    to_address VARCHAR(254) NOT NULL,
    contact_id VARCHAR(36),
    pond_id VARCHAR(36),
    subject TEXT NOT NULL,
    html TEXT NOT NULL,
    plain_text TEXT NOT NULL,
    headers TEXT NOT NULL,
    message_id VARCHAR(200) NOT NULL UNIQUE,
    dated_at VARCHAR(24) NOT NULL,
    attempts INTEGER NOT NULL,
    not_before VARCHAR(24) NOT NULL,
    not_after VARCHAR(24),
    lease_number INTEGER NOT NULL,
    leased_until VARCHAR(24),
    last_reply TEXT,
    sent_at VARCHAR(24),
    created_at VARCHAR(24) NOT NULL,
    UNIQUE (company_id, dedupe_key)
  )`,
  `CREATE INDEX ix_mail_outbox_due ON mail_outbox (company_id, state, not_before)`,
  `CREATE TABLE reminder (
    id VARCHAR(36) PRIMARY KEY,
    company_id VARCHAR(36) NOT NULL,
    person_id VARCHAR(36) NOT NULL REFERENCES person (id),
    digest_on VARCHAR(10) NOT NULL,
    task_ids TEXT NOT NULL,
    outbox_id VARCHAR(36) NOT NULL REFERENCES mail_outbox (id),
    created_at VARCHAR(24) NOT NULL,
    UNIQUE (company_id, person_id, digest_on)
  )`,
];

const JOBS = [
  `CREATE TABLE job_run (
    run_key VARCHAR(120) PRIMARY KEY,
    state VARCHAR(12) NOT NULL CHECK (state IN ('claimed', 'finished', 'failed')),
    claimed_at VARCHAR(24) NOT NULL,
    finished_at VARCHAR(24),
    outcome TEXT NOT NULL
  )`,
];
