import type { EntityTarget, ObjectLiteral, SelectQueryBuilder } from 'typeorm';
import type { CompanyOwned } from './rows.js';

/**
 * A select that starts inside one company and can only be narrowed. TypeORM's own builder has `where()`, which
 * throws earlier conditions away; this one has no such word.
 */
export class ScopedSelect<E extends CompanyOwned & ObjectLiteral> {
  constructor(
    private readonly companyId: string,
    private readonly query: SelectQueryBuilder<E>,
    private readonly alias: string,
  ) {
    query.where(`${alias}.companyId = :scopedCompanyId`, { scopedCompanyId: companyId });
  }

  /** Adds a condition, e.g. `.and('task.dueOn <= :day', { day })`. An OR stays inside its own brackets. */
  and(condition: string, parameters: ObjectLiteral = {}): this {
    this.query.andWhere(`(${condition})`, parameters);
    return this;
  }

  /** Joins another table of the same company without fetching it, for conditions and sorting. */
  join<J extends CompanyOwned & ObjectLiteral>(
    entity: EntityTarget<J>,
    alias: string,
    on: string,
    parameters: ObjectLiteral = {},
  ): this {
    this.query.innerJoin(entity as never, alias, `${alias}.companyId = :scopedCompanyId AND (${on})`, {
      ...parameters,
      scopedCompanyId: this.companyId,
    });
    return this;
  }

  orderBy(property: string, direction: 'ASC' | 'DESC' = 'ASC'): this {
    this.query.addOrderBy(property.includes('.') ? property : `${this.alias}.${property}`, direction);
    return this;
  }

  page(skip: number, take: number): this {
    this.query.offset(skip).limit(take);
    return this;
  }

  rows(): Promise<E[]> {
    return this.query.getMany();
  }

  count(): Promise<number> {
    return this.query.getCount();
  }

  /** Figures instead of rows: `[{ key, number }]`, e.g. `{ state: 'alias.state', n: 'COUNT(*)' }` grouped by the first. */
  figures<T extends ObjectLiteral>(columns: Record<string, string>, groupBy?: string): Promise<T[]> {
    const query = this.query.clone().select([]);
    for (const [name, expression] of Object.entries(columns)) query.addSelect(expression, name);
    if (groupBy) query.groupBy(groupBy);
    return query.getRawMany<T>();
  }
}
