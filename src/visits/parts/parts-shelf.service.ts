import { Injectable } from '@nestjs/common';
import { In, IsNull } from 'typeorm';
import { InvalidValueError, requireWithin } from '../../core/errors.js';
import { Database } from '../../database/index.js';
import { Clock } from '../../platform/clock.js';
import { type CompanyId, newId } from '../../platform/ids.js';
import { ShelfPartNotFoundError } from '../visits.errors.js';
import { ShelfPartEntity } from './shelf-part.entity.js';

export interface ShelfPartInput {
  readonly name: string;
  readonly partRef?: string;
  readonly unit: string;
  readonly onHand?: number | null;
  readonly leadDays?: number;
  readonly ruleIds?: readonly string[];
}

const LONGEST_NAME = 200;
const LONGEST_REF = 60;
const LONGEST_UNIT = 20;
/** Stock is counted by hand and may run below nothing until somebody counts again. */
const STOCK = { min: -100_000, max: 1_000_000 } as const;
const LEAD_DAYS = { min: 0, max: 365 } as const;
const MOST_RULES = 40;

/** The company's shelf of parts and products: what technicians choose from and what the office orders. */
@Injectable()
export class PartsShelf {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  /** By name; those taken off the shelf only where asked. */
  async list(companyId: CompanyId, options: { readonly withArchived?: boolean } = {}): Promise<ShelfPartEntity[]> {
    return this.database.company(companyId).find(ShelfPartEntity, {
      where: options.withArchived ? {} : { archivedAt: IsNull() },
      order: { name: 'ASC', id: 'ASC' },
    });
  }

  /** @throws InvalidValueError, OutOfRangeError */
  async add(companyId: CompanyId, input: ShelfPartInput): Promise<ShelfPartEntity> {
    const id = newId(this.clock.now().toMillis());
    const row = { id, ...checked(input), archivedAt: null, createdAt: this.clock.instant() };
    await this.database.unitOfWork('put a part on the shelf', () =>
      this.database.company(companyId).insert(ShelfPartEntity, row),
    );
    return { ...row, companyId };
  }

  /** @throws ShelfPartNotFoundError, InvalidValueError, OutOfRangeError */
  async change(companyId: CompanyId, partId: string, input: ShelfPartInput): Promise<void> {
    const row = checked(input);
    await this.database.unitOfWork('change a part', async () => {
      const changed = await this.database.company(companyId).update(ShelfPartEntity, { id: partId }, row);
      if (changed === 0) throw new ShelfPartNotFoundError(partId);
    });
  }

  /** Off the shelf, or back on it. What was used of it stays in the visits. @throws ShelfPartNotFoundError */
  async setArchived(companyId: CompanyId, partId: string, isArchived: boolean): Promise<void> {
    await this.database.unitOfWork('take a part off the shelf', async () => {
      const archivedAt = isArchived ? this.clock.instant() : null;
      const changed = await this.database.company(companyId).update(ShelfPartEntity, { id: partId }, { archivedAt });
      if (changed === 0) throw new ShelfPartNotFoundError(partId);
    });
  }

  /** Takes from the stock, or puts back with a negative amount. Inside the unit of work of the visit. */
  async take(companyId: CompanyId, partId: string, amount: number): Promise<void> {
    const store = this.database.company(companyId);
    const part = await store.findOne(ShelfPartEntity, { id: partId });
    if (!part || part.onHand === null) return;
    // Sums of tenths carry rounding: a thousandth is finer than anybody counts.
    const onHand = Math.round((part.onHand - amount) * 1000) / 1000;
    await store.update(ShelfPartEntity, { id: partId }, { onHand });
  }

  /** Of these ids, those that are on the shelf of this company or were. */
  async known(companyId: CompanyId, ids: readonly string[]): Promise<ReadonlySet<string>> {
    if (ids.length === 0) return new Set();
    const parts = await this.database
      .company(companyId)
      .find(ShelfPartEntity, { where: { id: In([...new Set(ids)]) } });
    return new Set(parts.map(({ id }) => id));
  }

  /** How long the parts for each rule's work take to come, where they are counted and none is left. [days] */
  async leadDaysByRule(companyId: CompanyId): Promise<ReadonlyMap<string, number>> {
    const byRule = new Map<string, number>();
    for (const part of await this.list(companyId)) {
      if (part.onHand === null || part.onHand > 0) continue;
      for (const ruleId of part.ruleIds) byRule.set(ruleId, Math.max(byRule.get(ruleId) ?? 0, part.leadDays));
    }
    return byRule;
  }
}

function checked(input: ShelfPartInput) {
  const { onHand = null, leadDays = 0, ruleIds = [] } = input;
  if (onHand !== null) requireWithin('onHand', onHand, STOCK);
  requireWithin('leadDays', leadDays, LEAD_DAYS);
  requireWithin('number of rules', ruleIds.length, { min: 0, max: MOST_RULES });
  return {
    name: text('name', input.name, LONGEST_NAME, true),
    partRef: text('partRef', input.partRef ?? '', LONGEST_REF, false),
    unit: text('unit', input.unit, LONGEST_UNIT, true),
    onHand,
    leadDays: Math.round(leadDays),
    ruleIds,
  };
}

function text(field: string, typed: string, longest: number, isNeeded: boolean): string {
  const trimmed = typed.replace(/\s+/g, ' ').trim();
  if (isNeeded && trimmed === '') throw new InvalidValueError(field, typed, 'It cannot be empty.');
  if (trimmed.length > longest) {
    throw new InvalidValueError(field, `${trimmed.slice(0, 40)}…`, `Write at most ${longest} characters.`);
  }
  return trimmed;
}
