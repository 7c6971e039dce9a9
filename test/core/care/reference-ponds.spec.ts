import { readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from '@jest/globals';
import type { CarePlan, PlannedTask, Quantity } from '../../../src/core/care/care-plan.js';
import { planCareCalendar } from '../../../src/core/care/plan-care-calendar.js';
import { addDays, type CivilDay, civilDay, dayOfYear, isoDateOf } from '../../../src/core/units/civil-day.js';
import { shippedRule } from '../../support/shipped-rules.js';
import type { Sinusoid } from '../../support/sinusoid-forecast.js';
import { referenceInput, TWELVE_PONDS } from '../../support/twelve-ponds.js';

/*
 * The whole year of twelve reference ponds, task by task, each with the handbook line its date and dose follow. The
 * golden files were read line by line against the handbooks; the dates of crossings and of plain intervals are worked
 * out here once more, by the handbook's own formula and not by the planner.
 */

interface Golden {
  readonly pond: string;
  readonly tasks: readonly {
    readonly task: string;
    readonly earliest: string;
    readonly due: string;
    readonly latest: string;
    readonly doses?: readonly string[];
    readonly handbook: string;
  }[];
  readonly notDue: readonly { readonly rule: string; readonly because: string; readonly handbook: string }[];
}

const FOLDER = path.join(path.dirname(fileURLToPath(import.meta.url)), 'golden');

function goldenOf(name: string): Golden {
  return JSON.parse(readFileSync(path.join(FOLDER, `${name}.json`), 'utf8'));
}

const dose = ({ of, amount, unit, per }: Quantity) => `${of} ${amount} ${unit}${per === 'once' ? '' : ` ${per}`}`;

function asGolden(plan: CarePlan): Pick<Golden, 'tasks' | 'notDue'> {
  const isPlanned = (ruleId: string) => plan.tasks.some((task) => task.ruleId === ruleId);
  return {
    tasks: plan.tasks.map(({ ruleId, cycle, window, quantities }) => ({
      task: `${ruleId} ${cycle}`,
      earliest: isoDateOf(window.earliest),
      due: isoDateOf(window.due),
      latest: isoDateOf(window.latest),
      ...(quantities.length > 0 ? { doses: quantities.map(dose) } : {}),
      handbook: shippedRule(ruleId).source,
    })),
    notDue: plan.notDue
      .filter(({ ruleId, cycle }) => cycle === undefined && !isPlanned(ruleId))
      .map(({ ruleId, because }) => ({ rule: ruleId, because, handbook: shippedRule(ruleId).source })),
  };
}

const raw = (task: PlannedTask, name: string) => task.reason.inputs.find((input) => input.name === name)?.value;

/** Handbook section 8.1: d0 ± (365/2π)·acos((θ − Tm)/A), the first whole day of the year at or after it. */
function crossingDayOfYear(water: Sinusoid, thresholdC: number, direction: unknown): number {
  const half = (365 / (2 * Math.PI)) * Math.acos((thresholdC - water.meanC) / water.amplitudeC);
  const day = direction === 'rising' ? water.warmestDayOfYear - half : water.warmestDayOfYear + half;
  return ((Math.ceil(day) - 1 + 730) % 365) + 1;
}

describe.each(TWELVE_PONDS)('the reference pond $name', (reference) => {
  const input = referenceInput(reference);
  const plan = planCareCalendar(input);

  it('has the calendar of its golden file, every line of which names the handbook', () => {
    const golden = goldenOf(reference.name);
    expect(asGolden(plan)).toEqual({ tasks: golden.tasks, notDue: golden.notDue });
    for (const line of [...golden.tasks, ...golden.notDue]) expect(line.handbook).toMatch(/handbook/i);
  });

  it('crosses each temperature on the day the formula of the handbook gives', () => {
    // Crossings in the very first days are cut by the start of the forecast, in some of the traces.
    const isWhole = (task: PlannedTask) => Number(raw(task, 'crossing-p10')) > civilDay(reference.today) + 7;
    const crossings = plan.tasks.filter((task) => task.reason.trigger === 'crossing' && isWhole(task));
    const off = crossings.flatMap((task) => {
      const expected = crossingDayOfYear(reference.water, Number(raw(task, 'threshold')), raw(task, 'direction'));
      const found = dayOfYear(Number(raw(task, 'crossing-p50')) as CivilDay);
      return Math.abs(found - expected) <= 1 ? [] : [`${task.ruleId}: day ${found}, by hand ${expected}`];
    });
    expect(off).toEqual([]);
    const isSeasonal = reference.water.amplitudeC > 4.5;
    expect(crossings.length > 0).toBe(isSeasonal);
  });

  it('counts plain intervals from the day care began', () => {
    const plain = plan.tasks.filter(({ ruleId, reason, machine }) => {
      const rule = shippedRule(ruleId);
      const [trigger] = rule.anyOf;
      const isPlain = trigger?.kind === 'interval' && !trigger.season && rule.anyOf.length === 1;
      return isPlain && rule.gates.length + rule.alignWith.length + rule.notWithin.length === 0 && !machine && reason;
    });
    expect(plain.length).toBeGreaterThan(1);
    for (const task of plain) {
      const days = shippedRule(task.ruleId).parameters.everyDays?.value ?? 0;
      expect([task.ruleId, isoDateOf(task.window.due)]).toEqual([
        task.ruleId,
        isoDateOf(addDays(civilDay(reference.today), days)),
      ]);
    }
  });
});
