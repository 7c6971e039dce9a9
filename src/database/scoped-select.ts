import type { ObjectLiteral, SelectQueryBuilder } from 'typeorm';
import type { CompanyOwned, EntityClass } from './rows.js';

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
    this.query.andWhere(`(${closed(condition)})`, ours(parameters));
    return this;
  }

  /** Joins another table of the same company without fetching it, for conditions and sorting. */
  join<J extends CompanyOwned & ObjectLiteral>(
    entity: EntityClass<J>,
    alias: string,
    on: string,
    parameters: ObjectLiteral = {},
  ): this {
    this.query.innerJoin(entity as never, alias, `${alias}.companyId = :scopedCompanyId AND (${closed(on)})`, {
      ...ours(parameters),
      scopedCompanyId: this.companyId,
    });
    return this;
  }

  /** `property` is a name of the entity, or `alias.name`; never a text of the user's. */
  orderBy(property: string, direction: 'ASC' | 'DESC' = 'ASC'): this {
    if (!/^\w+(\.\w+)?$/.test(property)) throw new Error(`sort: "${property}" is not the name of a column.`);
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

function ours(parameters: ObjectLiteral): ObjectLiteral {
  if ('scopedCompanyId' in parameters) throw new Error('scopedCompanyId: this name belongs to the company scope.');
  return parameters;
}

/** A condition must keep to its own brackets: one that closes more than it opens would step out of the scope. */
function closed(condition: string): string {
  let depth = 0;
  for (const sign of condition) {
    if (sign === '(') depth++;
    if (sign === ')') depth--;
    if (depth < 0) break;
  }
  if (depth !== 0 || /--|\/\*|;/.test(condition))
    throw new Error(`condition: the brackets of "${condition}" do not match.`);
  return condition;
}
