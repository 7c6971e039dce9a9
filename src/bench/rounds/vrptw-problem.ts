import type { RoundsPlan, RoundsProblem } from '../../core/rounds/rounds-problem.js';
import type { VrptwCustomer, VrptwInstance } from './vrptw-text.js';

/** `trunc1`: distances cut to one decimal, held as whole tenths. `double`: as they are. Never compare one with the other. */
export type Convention = 'trunc1' | 'double';

/** More than any detour, so that no plan leaves a customer out that has room for it. */
const LEFT_OUT = 1e8;

/** The instance as a problem of rounds: each vehicle a crew-day, driving the only cost. */
export function problemOf(instance: VrptwInstance, convention: Convention): RoundsProblem {
  const { customers } = instance;
  const scale = scaleOf(convention);
  const places = customers.length;
  const travel = convention === 'trunc1' ? new Int32Array(places * places) : new Float64Array(places * places);
  customers.forEach((from, i) => {
    customers.forEach((to, j) => {
      travel[i * places + j] = distanceOf(from, to, convention) * scale;
    });
  });
  const [depot, ...visited] = customers as [VrptwCustomer, ...VrptwCustomer[]];
  const vehicles = Math.min(instance.vehicles, visited.length);
  return {
    places,
    travel: convention === 'trunc1' ? travel.map(Math.round) : travel,
    crewDays: Array.from({ length: vehicles }, (_, i) => ({
      id: `vehicle ${i + 1}`,
      crew: `vehicle ${i + 1}`,
      day: 0,
      persons: [],
      startPlace: 0,
      endPlace: 0,
      hours: { open: depot.ready * scale, close: depot.due * scale },
      capacity: instance.capacity,
    })),
    visits: visited.map(({ number, demand, ready, due, service }, i) => ({
      id: String(number),
      place: i + 1,
      service: service * scale,
      windows: [{ open: ready * scale, close: due * scale }],
      load: demand,
      penalty: LEFT_OUT,
    })),
    prices: { unfairness: 0, round: 0 },
  };
}

function distanceOf(from: VrptwCustomer, to: VrptwCustomer, convention: Convention): number {
  const distance = Math.hypot(from.x - to.x, from.y - to.y);
  return convention === 'trunc1' ? Math.floor(10 * distance + 1e-9) / 10 : distance;
}

/** Units of the problem per unit of the file. */
export function scaleOf(convention: Convention): number {
  return convention === 'trunc1' ? 10 : 1;
}

/** Customer numbers per vehicle in order, empty vehicles left away. */
export function routesOf(instance: VrptwInstance, plan: RoundsPlan): number[][] {
  return plan.rounds
    .filter((stops) => stops.length > 0)
    .map((stops) => stops.map((visit) => instance.customers[visit + 1]!.number));
}
