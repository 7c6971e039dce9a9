import { Injectable } from '@nestjs/common';
import type { CompanyId, PersonId, PondId } from '../platform/ids.js';

/** What may have happened to a pond. */
export interface PondNewsItems {
  'pond-changed': { readonly companyId: CompanyId; readonly pondId: PondId };
  'reading-taken': { readonly companyId: CompanyId; readonly pondId: PondId; readonly readingIds: readonly string[] };
  'contact-ended': {
    readonly companyId: CompanyId;
    readonly pondId: PondId;
    readonly contactId: string;
    readonly personId: PersonId | null;
    readonly on: string;
  };
  /** Many at once, told after they were saved; `step` is called after each one that was looked at. */
  'ponds-imported': {
    readonly companyId: CompanyId;
    readonly pondIds: readonly PondId[];
    readonly step: () => void;
  };
}
export type PondNewsKind = keyof PondNewsItems;
export type PondNewsListener<K extends PondNewsKind> = (item: PondNewsItems[K]) => Promise<void>;

/**
 * News of ponds for the folders above. A listener is awaited inside the unit of work that makes the news (except
 * `ponds-imported`, told after it): when it throws, the change is not saved either.
 */
@Injectable()
export class PondNews {
  private readonly listeners: { [K in PondNewsKind]?: PondNewsListener<K>[] } = {};

  on<K extends PondNewsKind>(kind: K, listener: PondNewsListener<K>): void {
    const known = this.listeners[kind] as PondNewsListener<K>[] | undefined;
    if (known) known.push(listener);
    else (this.listeners as Record<K, PondNewsListener<K>[]>)[kind] = [listener];
  }

  async tell<K extends PondNewsKind>(kind: K, item: PondNewsItems[K]): Promise<void> {
    for (const listener of (this.listeners[kind] ?? []) as PondNewsListener<K>[]) await listener(item);
  }
}
