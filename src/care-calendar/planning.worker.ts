import { parentPort, workerData } from 'node:worker_threads';
import { ClimateService } from '../climate/index.js';
import type { PlanningAnswer, PlanningOrder, PlanningTables } from './planning-threads.js';
import { PondPlannerService } from './pond-planner.service.js';

/** A thread that plans ponds for `PlanningThreads`: the planner of the main thread over the same tables. */
const { stations, rules, dechlorinators } = workerData as PlanningTables;
const planner = new PondPlannerService(new ClimateService(stations), rules, dechlorinators);

parentPort?.on('message', ({ number, order }: { number: number; order: PlanningOrder }) => {
  parentPort?.postMessage({ number, answer: answerTo(order) });
});

function answerTo({ record, history, company, today, weather }: PlanningOrder): PlanningAnswer {
  try {
    const { plan, outlook, winter } = planner.plan(record, history, company, today, weather);
    return { value: { plan, outlook, winter } };
  } catch (error) {
    return { reason: (error as Error).message };
  }
}
