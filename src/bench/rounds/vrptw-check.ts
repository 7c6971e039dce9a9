import type { VrptwInstance } from './vrptw-text.js';

export interface CheckedRoutes {
  readonly distance: number;
  readonly faults: readonly string[];
}

/**
 * Drives routes again from the file alone, sharing nothing with the search: every customer once, loads, windows, depot.
 * Under `trunc1` in whole tenths.
 */
export function checkRoutes(
  instance: VrptwInstance,
  routes: readonly (readonly number[])[],
  convention: 'trunc1' | 'double',
): CheckedRoutes {
  const byNumber = new Map(instance.customers.map((customer) => [customer.number, customer]));
  const depot = instance.customers[0]!;
  const unit = convention === 'trunc1' ? 10 : 1;
  const tolerance = convention === 'trunc1' ? 1e-9 : 1e-6;
  const faults: string[] = [];
  const seen = new Set<number>();
  let total = 0;
  if (routes.length > instance.vehicles) faults.push(`${routes.length} vehicles of ${instance.vehicles}`);
  for (const route of routes) {
    let [at, time, load] = [depot, depot.ready * unit, 0];
    for (const number of [...route, depot.number]) {
      const to = byNumber.get(number);
      if (!to) {
        faults.push(`customer ${number} is not in the file`);
        continue;
      }
      const distance = Math.sqrt((at.x - to.x) ** 2 + (at.y - to.y) ** 2);
      const driven = convention === 'trunc1' ? Math.floor(distance * 10 + 1e-9) : distance;
      total += driven;
      time = Math.max(to.ready * unit, time + at.service * unit * (at === depot ? 0 : 1) + driven);
      if (time > to.due * unit + tolerance) faults.push(`customer ${number} late by ${(time - to.due * unit) / unit}`);
      if (to !== depot && seen.has(number)) faults.push(`customer ${number} twice`);
      if (to !== depot) seen.add(number);
      load += to.demand;
      at = to;
    }
    if (load > instance.capacity) faults.push(`load ${load} of ${instance.capacity}`);
  }
  for (const { number } of instance.customers.slice(1)) {
    if (!seen.has(number)) faults.push(`customer ${number} left out`);
  }
  return { distance: total / unit, faults };
}
