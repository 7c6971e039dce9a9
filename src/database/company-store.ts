import type { FindOptionsOrder, FindOptionsSelect, FindOptionsWhere, ObjectLiteral } from 'typeorm';
import type { QueryDeepPartialEntity } from 'typeorm/query-builder/QueryPartialEntity.js';
import type { CompanyId } from '../platform/ids.js';
import { insertRows } from './insert-rows.js';
import type { CompanyOwned, EntityClass } from './rows.js';
import { ScopedSelect } from './scoped-select.js';
import type { Statements } from './statements.js';

export interface FindPage<E> {
  where?: FindOptionsWhere<E> | FindOptionsWhere<E>[];
  order?: FindOptionsOrder<E>;
  select?: FindOptionsSelect<E>;
  skip?: number;
  take?: number;
}

type Row<E> = Omit<E, 'companyId'>;
const ROWS_PER_INSERT = 500;

/**
 * All that may be asked of one company's rows. The company is part of every statement this class writes: a query
 * that forgets it cannot be written, because features are never handed an entity manager.
 */
export class CompanyStore {
  constructor(
    readonly companyId: CompanyId,
    private readonly statements: Statements,
  ) {}

  async find<E extends CompanyOwned & ObjectLiteral>(entity: EntityClass<E>, page: FindPage<E> = {}): Promise<E[]> {
    if (isNoneOf(page.where)) return [];
    return this.statements.forReads().find(entity, { ...page, where: this.mine(page.where) });
  }

  async findOne<E extends CompanyOwned & ObjectLiteral>(
    entity: EntityClass<E>,
    where: FindOptionsWhere<E>,
    order?: FindOptionsOrder<E>,
  ): Promise<E | null> {
    return this.statements.forReads().findOne(entity, { where: this.mine(where), ...(order && { order }) });
  }

  async count<E extends CompanyOwned & ObjectLiteral>(
    entity: EntityClass<E>,
    where: FindPage<E>['where'] = {},
  ): Promise<number> {
    if (isNoneOf(where)) return 0;
    return this.statements.forReads().count(entity, { where: this.mine(where) });
  }

  /** A query for lists: conditions are added to the company's own, never in place of it. */
  select<E extends CompanyOwned & ObjectLiteral>(entity: EntityClass<E>, alias: string): ScopedSelect<E> {
    const query = this.statements.forReads().createQueryBuilder(entity, alias);
    return new ScopedSelect(this.companyId, query, alias);
  }

  async insert<E extends CompanyOwned & ObjectLiteral>(
    entity: EntityClass<E>,
    rows: Row<E> | readonly Row<E>[],
  ): Promise<void> {
    const all = (Array.isArray(rows) ? rows : [rows]) as Row<E>[];
    for (let from = 0; from < all.length; from += ROWS_PER_INSERT) {
      const some = all.slice(from, from + ROWS_PER_INSERT).map((row) => ({ ...row, companyId: this.companyId }));
      await insertRows(this.statements.forWrites(), entity, some);
    }
  }

  /** Changes the rows that match; answers how many there were. */
  async update<E extends CompanyOwned & ObjectLiteral>(
    entity: EntityClass<E>,
    where: FindOptionsWhere<E>,
    change: QueryDeepPartialEntity<Row<E>>,
  ): Promise<number> {
    if ('companyId' in change) throw new Error('companyId: a row never moves to another company.');
    const target = this.mine(where) as FindOptionsWhere<E>;
    const result = await this.statements.forWrites().update(entity, target, change as QueryDeepPartialEntity<E>);
    return result.affected ?? 0;
  }

  async remove<E extends CompanyOwned & ObjectLiteral>(
    entity: EntityClass<E>,
    where: FindOptionsWhere<E>,
  ): Promise<number> {
    const result = await this.statements.forWrites().delete(entity, this.mine(where) as FindOptionsWhere<E>);
    return result.affected ?? 0;
  }

  private mine<E>(where: FindPage<E>['where']): FindOptionsWhere<E> | FindOptionsWhere<E>[] {
    const scope = { companyId: this.companyId };
    if (Array.isArray(where)) return where.map((one) => ({ ...one, ...scope }));
    return { ...where, ...scope } as unknown as FindOptionsWhere<E>;
  }
}

/** An empty list of alternatives matches nothing; TypeORM would read it as no condition at all. */
function isNoneOf(where: unknown): boolean {
  return Array.isArray(where) && where.length === 0;
}
