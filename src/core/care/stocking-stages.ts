import { stockBiomass } from '../stock/fish-mass.js';
import { judgeStock, type StockJudgement } from '../stock/stock-judgement.js';
import { COMFORTABLE_TO_KG_PER_M3 } from '../stock/stocking.js';
import type { CivilDay } from '../units/civil-day.js';
import type { FinishedTask, PlanInput } from './care-plan.js';
import type { CareRule } from './care-rule.js';
import { isInRunIn } from './living-stock.js';
import type { PondFacts } from './pond-facts.js';
import { filterAreaM2 } from './quantities/filter-capacity.js';
import { oxygenSupply } from './quantities/oxygen-supply.js';

/** Rules by which a new pond is stocked. */
const FIRST_RULE = 'first-livestock';
export const NEXT_RULE = 'next-livestock';
/** Part of the planned stock that may be missing and yet nothing is: people buy whole fish. [-] */
export const SLACK_SHARE = 0.05;
/** A pond whose filter carries next to nothing is planned as if it carried so much of its stock; it is told so elsewhere. */
const SMALLEST_CARRIED_SHARE = 0.01;
const SMALLEST_KG = 0.001;

/** What the verdict on a stock needs to know of its pond. */
export type JudgedPond = Pick<
  PondFacts,
  'stock' | 'volumeL' | 'equipment' | 'surfaceAreaM2' | 'meanDepthM' | 'elevationM' | 'waterfall'
>;

/**
 * How a pond's stock, as it stands on the record, is borne by its water, filter and aeration. Where oxygen also comes in
 * by ways nobody measured, what was measured can only clear a pond, not blame it.
 */
export function stockJudgement(pond: JudgedPond): StockJudgement {
  const supply = oxygenSupply(pond);
  const known = { stock: pond.stock, volumeL: pond.volumeL, mediaAreaM2: filterAreaM2(pond) };
  const judgement = judgeStock({ ...known, oxygenSupplyGPerH: supply.gPerH });
  const oxygen = judgement.measures.find(({ limit }) => limit === 'oxygen');
  const isUnproved = supply.isAtLeast && oxygen !== undefined && oxygen.verdict !== 'comfortable';
  return isUnproved ? judgeStock({ ...known, oxygenSupplyGPerH: null }) : judgement;
}

/**
 * Live mass the pond's water and filter carry comfortably; no part of a staged stocking is more than its share of this.
 * Oxygen is left to the verdict: its supply is the least certain of the three. [kg]
 */
export function stockingCapacityKg(pond: PondFacts): number {
  const carriedByWaterKg = (COMFORTABLE_TO_KG_PER_M3 * pond.volumeL) / 1000;
  const { stock, volumeL } = pond;
  const { comfortableKg, totalKg } = judgeStock({
    stock,
    volumeL,
    mediaAreaM2: filterAreaM2(pond),
    oxygenSupplyGPerH: null,
  });
  return Math.max(SMALLEST_KG, SMALLEST_CARRIED_SHARE * totalKg, comfortableKg ?? carriedByWaterKg);
}

/** A pond with the part of its stock that is in, where it is stocked in parts; else the pond as given. */
export function stagedPond(plan: Pick<PlanInput, 'pond' | 'history' | 'rules'>): PondFacts {
  const stages = stagesDone(plan);
  return stages === null || stages.share === 1 ? plan.pond : { ...plan.pond, stockedShare: stages.share };
}

export interface StagesDone {
  readonly stockedKg: number;
  readonly plannedKg: number;
  readonly lastOn: CivilDay;
  readonly share: number;
}

/**
 * What the parts put in so far amount to; null for a pond that is not stocked in parts. The record holds the stock that
 * is planned. A part closed without its mass counts as planned, and giving up a following part ends the staging: from
 * then on the record is what lives in the pond.
 */
export function stagesDone(plan: Pick<PlanInput, 'pond' | 'history' | 'rules'>): StagesDone | null {
  const { pond, history } = plan;
  const plannedKg = stockBiomass(pond.stock).totalKg;
  const next = ruleOf(plan.rules, NEXT_RULE);
  if (!next || pond.commissionedOn === null || isInRunIn(pond) || plannedKg === 0) return null;

  const filledOn = pond.commissionedOn;
  const done = history.finished.filter((task) => task.on >= filledOn);
  const firsts = done.filter(({ ruleId, state }) => ruleId === FIRST_RULE && state === 'COMPLETED');
  const first = firsts.sort((a, b) => a.on - b.on).at(-1);
  if (!first) return null;
  const following = done.filter(({ ruleId, on }) => ruleId === NEXT_RULE && on >= first.on);
  if (following.some(({ state }) => state === 'CANCELLED')) return null;

  const largestKg = Math.min(plannedKg, stockingCapacityKg(pond));
  const kgOf = (task: FinishedTask, share: number) => task.actuals.stockedKg ?? share * largestKg;
  const stockedKg = following.reduce(
    (sum, task) => sum + kgOf(task, stageShare(next)),
    kgOf(first, stageShare(ruleOf(plan.rules, FIRST_RULE))),
  );
  const share = stockedKg >= (1 - SLACK_SHARE) * plannedKg ? 1 : stockedKg / plannedKg;
  const lastOn = Math.max(first.on, ...following.map(({ on }) => on)) as CivilDay;
  return { stockedKg, plannedKg, lastOn, share };
}

export function ruleOf(rules: readonly CareRule[], id: string): CareRule | undefined {
  return rules.find((rule) => rule.id === id);
}

/** The largest part of the whole that goes in at once, as the rule has it. [-] */
export function stageShare(rule: CareRule | undefined): number {
  return rule?.parameters.stageShare?.value ?? rule?.parameters.firstShare?.value ?? 0.2;
}
