import type { EntityManager, EntityTarget, FindOptionsOrder, FindOptionsWhere, ObjectLiteral } from 'typeorm';
import type { QueryDeepPartialEntity } from 'typeorm/query-builder/QueryPartialEntity.js';
import type { Shared } from './rows.js';

/** Rows that belong to no one company. An entity with `companyId` is refused by its type. */
export class SharedStore {
  constructor(private readonly manager: EntityManager) {}

  find<E extends Shared & ObjectLiteral>(
    entity: EntityTarget<E>,
    where: FindOptionsWhere<E> | FindOptionsWhere<E>[] = {},
    order?: FindOptionsOrder<E>,
  ): Promise<E[]> {
    return this.manager.find(entity, { where, ...(order && { order }) });
  }

  findOne<E extends Shared & ObjectLiteral>(entity: EntityTarget<E>, where: FindOptionsWhere<E>): Promise<E | null> {
    return this.manager.findOne(entity, { where });
  }

  count<E extends Shared & ObjectLiteral>(entity: EntityTarget<E>, where: FindOptionsWhere<E> = {}): Promise<number> {
    return this.manager.count(entity, { where });
  }

  async insert<E extends Shared & ObjectLiteral>(entity: EntityTarget<E>, rows: E | readonly E[]): Promise<void> {
    const values = (Array.isArray(rows) ? rows : [rows]) as QueryDeepPartialEntity<E>[];
    if (values.length > 0) {
      await this.manager.createQueryBuilder().insert().into(entity).values(values).updateEntity(false).execute();
    }
  }

  async update<E extends Shared & ObjectLiteral>(
    entity: EntityTarget<E>,
    where: FindOptionsWhere<E>,
    change: QueryDeepPartialEntity<E>,
  ): Promise<number> {
    const result = await this.manager.update(entity, where, change);
    return result.affected ?? 0;
  }

  async remove<E extends Shared & ObjectLiteral>(entity: EntityTarget<E>, where: FindOptionsWhere<E>): Promise<number> {
    const result = await this.manager.delete(entity, where);
    return result.affected ?? 0;
  }
}
