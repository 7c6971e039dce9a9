import type { EntityManager, FindOptionsOrder, FindOptionsWhere, ObjectLiteral } from 'typeorm';
import type { QueryDeepPartialEntity } from 'typeorm/query-builder/QueryPartialEntity.js';
import { insertRows } from './insert-rows.js';
import type { EntityClass, Shared } from './rows.js';
import type { Statements } from './statements.js';

/** Rows that belong to no one company. An entity with `companyId` is refused by its type. */
export class SharedStore {
  constructor(private readonly statements: Statements) {}

  async find<E extends Shared & ObjectLiteral>(
    entity: EntityClass<E>,
    where: FindOptionsWhere<E> | FindOptionsWhere<E>[] = {},
    order?: FindOptionsOrder<E>,
  ): Promise<E[]> {
    if (Array.isArray(where) && where.length === 0) return []; // TypeORM would read it as no condition at all
    return this.reading(entity).find(entity, { where, ...(order && { order }) });
  }

  async findOne<E extends Shared & ObjectLiteral>(
    entity: EntityClass<E>,
    where: FindOptionsWhere<E>,
  ): Promise<E | null> {
    return this.reading(entity).findOne(entity, { where });
  }

  async count<E extends Shared & ObjectLiteral>(
    entity: EntityClass<E>,
    where: FindOptionsWhere<E> = {},
  ): Promise<number> {
    return this.reading(entity).count(entity, { where });
  }

  async insert<E extends Shared & ObjectLiteral>(entity: EntityClass<E>, rows: E | readonly E[]): Promise<void> {
    await insertRows(this.writing(entity), entity, (Array.isArray(rows) ? rows : [rows]) as readonly E[]);
  }

  async update<E extends Shared & ObjectLiteral>(
    entity: EntityClass<E>,
    where: FindOptionsWhere<E>,
    change: QueryDeepPartialEntity<E>,
  ): Promise<number> {
    const result = await this.writing(entity).update(entity, where, change);
    return result.affected ?? 0;
  }

  async remove<E extends Shared & ObjectLiteral>(entity: EntityClass<E>, where: FindOptionsWhere<E>): Promise<number> {
    const result = await this.writing(entity).delete(entity, where);
    return result.affected ?? 0;
  }

  private reading(entity: EntityClass<Shared>): EntityManager {
    return ofNoCompany(entity, this.statements.forReads());
  }

  private writing(entity: EntityClass<Shared>): EntityManager {
    return ofNoCompany(entity, this.statements.forWrites());
  }
}

/** The second wall behind the type: a cast does not get through. */
function ofNoCompany(entity: EntityClass<Shared>, manager: EntityManager): EntityManager {
  const metadata = manager.connection.getMetadata(entity);
  if (metadata.findColumnWithPropertyName('companyId')) {
    throw new Error(`${metadata.name} belongs to companies: ask Database.company(id) for it.`);
  }
  return manager;
}
