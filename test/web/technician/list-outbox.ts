import {
  type NewOutboxItem,
  type Outbox,
  type OutboxItem,
  savedItem,
} from '../../../src/web/technician/phone/outbox.js';

/** An outbox in memory, as it stands on a phone. */
export function listOutbox(saved: readonly NewOutboxItem[]): Outbox & { readonly items: OutboxItem[] } {
  const items: OutboxItem[] = saved.map((item, i) => ({ ...savedItem(item), seq: i + 1 }));
  return {
    items,
    of: async (owner) => items.filter((item) => item.owner === owner),
    change: async (seq, change) => {
      const at = items.findIndex((item) => item.seq === seq);
      items[at] = { ...(items[at] as OutboxItem), ...change };
    },
  };
}
