import { InvalidValueError } from '../errors.js';
import { addDays, type CivilDay } from '../units/civil-day.js';
import type { PlanInput } from './care-plan.js';
import type { CareRule, ParameterName } from './care-rule.js';
import { type HistoryIndex, historyIndex } from './history-index.js';
import { type PondLoads, pondLoads } from './loads/pond-loads.js';
import type { PondFacts } from './pond-facts.js';
import { stagedPond } from './stocking-stages.js';
import { type WaterOutlook, waterOutlook } from './water-outlook.js';

/** All a rule may look at while one pond is planned. Made once per plan. */
export interface PlanningContext {
  readonly input: PlanInput;
  readonly pond: PondFacts;
  readonly today: CivilDay;
  /** Last day a task may come due. */
  readonly horizon: CivilDay;
  readonly outlook: WaterOutlook;
  readonly history: HistoryIndex;
  readonly loads: PondLoads;
}

export function planningContext(given: PlanInput): PlanningContext {
  const input = { ...given, pond: stagedPond(given) };
  const outlook = waterOutlook(input.forecast, input.climate, input.pond);
  const history = historyIndex(input.history);
  const horizon = addDays(input.today, input.horizonDays);
  const loads = pondLoads({ input, outlook, history, horizon });
  return { input, pond: input.pond, today: input.today, horizon, outlook, history, loads };
}

/** Value of a rule's parameter. Throws when the rule names one it does not have. */
export function parameter(rule: CareRule, name: ParameterName): number {
  return ruleParameter(rule, name).value;
}

export function optionalParameter(rule: CareRule, name: ParameterName | undefined, otherwise: number): number {
  return name === undefined ? otherwise : parameter(rule, name);
}

export function ruleParameter(rule: CareRule, name: ParameterName) {
  const found = rule.parameters[name];
  if (!found) {
    const known = Object.keys(rule.parameters).join(', ');
    throw new InvalidValueError(`parameter of rule ${rule.id}`, name, `Its parameters are: ${known}.`);
  }
  return found;
}
