/** A row of a company's table. Its entity has `companyId`, so it can be reached only through that company's store. */
export interface CompanyOwned {
  companyId: string;
}

/** A row of a table that belongs to no one company (people, sessions, job runs). It must not have `companyId`. */
export interface Shared {
  companyId?: never;
}
