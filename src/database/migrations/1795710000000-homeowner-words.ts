import type { MigrationInterface, QueryRunner } from 'typeorm';

/** What homeowners say to the office from a mail or their page: a question, a wish, an answer to a visit. */
export class HomeownerWords1795710000000 implements MigrationInterface {
  name = 'HomeownerWords1795710000000';

  async up(db: QueryRunner): Promise<void> {
    await db.query(`CREATE TABLE homeowner_word (
      id VARCHAR(36) PRIMARY KEY,
      company_id VARCHAR(36) NOT NULL REFERENCES company (id),
      pond_id VARCHAR(36) NOT NULL,
      person_id VARCHAR(36) NOT NULL REFERENCES person (id),
      kind VARCHAR(20) NOT NULL CHECK (kind IN ('question', 'visit-wish', 'visit-suits', 'visit-does-not-suit')),
      visit_id VARCHAR(36),
      task_id VARCHAR(36),
      said TEXT NOT NULL,
      said_at VARCHAR(24) NOT NULL,
      settled_at VARCHAR(24),
      settled_by VARCHAR(36) REFERENCES person (id),
      UNIQUE (company_id, id),
      FOREIGN KEY (company_id, pond_id) REFERENCES pond (company_id, id)
    )`);
    await db.query(`CREATE INDEX ix_homeowner_word_open ON homeowner_word (company_id, settled_at)`);
  }

  async down(db: QueryRunner): Promise<void> {
    // What homeowners said is lost.
    await db.query(`DROP TABLE homeowner_word`);
  }
}
