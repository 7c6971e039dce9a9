/** A row of a company's table. Its entity has `companyId`, so it can be reached only through that company's store. */
export interface CompanyOwned {
  companyId: string;
}

/** A row of a table that belongs to no one company (people, sessions, job runs). It must not have `companyId`. */
export interface Shared {
  companyId?: never;
}

/**
 * The class of an entity. TypeORM's own `EntityTarget` also takes any function, so a class of the wrong kind would pass
 * its type check.
 */
export type EntityClass<E> = new () => E;
