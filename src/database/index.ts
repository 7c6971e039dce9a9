export { CompanyStore, type FindPage } from './company-store.js';
export { DatabaseUnusableError } from './database.errors.js';
export { Database } from './database.js';
export { type DatabaseTarget, type Entities, MIGRATIONS, openDatabase } from './open-database.js';
export type { CompanyOwned, EntityClass, Shared } from './rows.js';
export type { ScopedSelect } from './scoped-select.js';
export { SharedCommit } from './shared-commit.js';
export { SharedStore } from './shared-store.js';
