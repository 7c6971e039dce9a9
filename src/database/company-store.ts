import type {
  EntityManager,
  EntityTarget,
  FindOptionsOrder,
  FindOptionsSelect,
  FindOptionsWhere,
  ObjectLiteral,
} from 'typeorm';
import type { QueryDeepPartialEntity } from 'typeorm/query-builder/QueryPartialEntity.js';
import type { CompanyId } from '../platform/ids.js';
import type { CompanyOwned } from './rows.js';
import { ScopedSelect } from './scoped-select.js';

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
    private readonly manager: EntityManager,
  ) {}

  find<E extends CompanyOwned & ObjectLiteral>(entity: EntityTarget<E>, page: FindPage<E> = {}): Promise<E[]> {
    return this.manager.find(entity, { ...page, where: this.mine(page.where) });
  }

  findOne<E extends CompanyOwned & ObjectLiteral>(
    entity: EntityTarget<E>,
    where: FindOptionsWhere<E>,
    order?: FindOptionsOrder<E>,
  ): Promise<E | null> {
    return this.manager.findOne(entity, { where: this.mine(where), ...(order && { order }) });
  }

  count<E extends CompanyOwned & ObjectLiteral>(
    entity: EntityTarget<E>,
    where: FindPage<E>['where'] = {},
  ): Promise<number> {
    return this.manager.count(entity, { where: this.mine(where) });
  }

  /** A query for lists: conditions are added to the company's own, never in place of it. */
  select<E extends CompanyOwned & ObjectLiteral>(entity: EntityTarget<E>, alias: string): ScopedSelect<E> {
    return new ScopedSelect(this.companyId, this.manager.createQueryBuilder(entity, alias), alias);
  }

  async insert<E extends CompanyOwned & ObjectLiteral>(
    entity: EntityTarget<E>,
    rows: Row<E> | readonly Row<E>[],
  ): Promise<void> {
    const all = (Array.isArray(rows) ? rows : [rows]) as Row<E>[];
    for (let from = 0; from < all.length; from += ROWS_PER_INSERT) {
      const values = all
        .slice(from, from + ROWS_PER_INSERT)
        .map((row) => ({ ...row, companyId: this.companyId }) as QueryDeepPartialEntity<E>);
      await this.manager.createQueryBuilder().insert().into(entity).values(values).updateEntity(false).execute();
    }
  }

  /** Changes the rows that match; answers how many there were. */
  async update<E extends CompanyOwned & ObjectLiteral>(
    entity: EntityTarget<E>,
    where: FindOptionsWhere<E>,
    change: QueryDeepPartialEntity<Row<E>>,
  ): Promise<number> {
    const target = this.mine(where) as FindOptionsWhere<E>;
    const result = await this.manager.update(entity, target, change as QueryDeepPartialEntity<E>);
    return result.affected ?? 0;
  }

  async remove<E extends CompanyOwned & ObjectLiteral>(
    entity: EntityTarget<E>,
    where: FindOptionsWhere<E>,
  ): Promise<number> {
    const result = await this.manager.delete(entity, this.mine(where) as FindOptionsWhere<E>);
    return result.affected ?? 0;
  }

  private mine<E>(where: FindPage<E>['where']): FindOptionsWhere<E> | FindOptionsWhere<E>[] {
    const scope = { companyId: this.companyId };
    if (Array.isArray(where)) return where.map((one) => ({ ...one, ...scope }));
    return { ...where, ...scope } as unknown as FindOptionsWhere<E>;
  }
}
