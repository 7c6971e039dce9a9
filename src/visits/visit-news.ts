import { Injectable } from '@nestjs/common';
import type { CompanyId, PersonId, PondId, VisitId } from '../platform/ids.js';

interface VisitItem {
  readonly companyId: CompanyId;
  readonly pondId: PondId;
  readonly visitId: VisitId;
}

/** What may have happened to a visit. */
export interface VisitNewsItems {
  /** The homeowner may be told of day and time. */
  'visit-published': VisitItem;
  /** A published visit got another day, time or technician. */
  'visit-moved': VisitItem & {
    readonly fromDay: string;
    readonly toDay: string;
    /** Another day or another told time; false when only the technician changed. */
    readonly isOtherTime: boolean;
  };
  /** `wasPublished`: the homeowner had been told of it. */
  'visit-cancelled': VisitItem & { readonly because: string; readonly wasPublished: boolean };
  'visit-on-the-way': VisitItem & { readonly at: string };
  /** Told once for each change to COMPLETED: a closing sent twice, or a second one, tells it no more. */
  'visit-closed': VisitItem & {
    readonly closingId: string;
    readonly closingVersion: number;
    readonly closedBy: PersonId;
    /** It had been closed before and was opened again. */
    readonly isAgain: boolean;
  };
  /** A further closing of a visit that is closed already; kept beside the first. */
  'visit-amended': VisitItem & { readonly closingId: string; readonly closingVersion: number };
  'visit-reopened': VisitItem & { readonly why: string };
}
export type VisitNewsKind = keyof VisitNewsItems;
export type VisitNewsListener<K extends VisitNewsKind> = (item: VisitNewsItems[K]) => Promise<void>;

/**
 * News of visits for the folders above. A listener is awaited inside the unit of work that makes the news: when it
 * throws, the step is not saved either. So it may write, but must not send mail or ask the network.
 */
@Injectable()
export class VisitNews {
  private readonly listeners: { [K in VisitNewsKind]?: VisitNewsListener<K>[] } = {};

  on<K extends VisitNewsKind>(kind: K, listener: VisitNewsListener<K>): void {
    const known = this.listeners[kind] as VisitNewsListener<K>[] | undefined;
    if (known) known.push(listener);
    else (this.listeners as Record<K, VisitNewsListener<K>[]>)[kind] = [listener];
  }

  async tell<K extends VisitNewsKind>(kind: K, item: VisitNewsItems[K]): Promise<void> {
    for (const listener of (this.listeners[kind] ?? []) as VisitNewsListener<K>[]) await listener(item);
  }
}
