import { describe, expect, it } from '@jest/globals';
import { notApplicable } from '../../../src/core/care/applicability.js';
import type { Applicability } from '../../../src/core/care/care-rule.js';
import type { PondFacts } from '../../../src/core/care/pond-facts.js';
import { civilDay } from '../../../src/core/units/civil-day.js';
import { aMachine, aPond } from '../../support/a-pond.js';
import { aRule } from '../../support/a-rule.js';

function because(appliesTo: Applicability, changes: Partial<PondFacts> = {}): string | null {
  const rule = aRule({ cycle: 'count', anyOf: [{ kind: 'interval', days: 'd', slackDays: 's' }], appliesTo });
  return notApplicable(rule, aPond(changes))?.because ?? null;
}

describe('notApplicable', () => {
  it('is null for a rule of any pond', () => {
    expect(because({})).toBeNull();
  });

  it.each([
    [{ equipment: ['skimmer'] }, {}, 'not-this-equipment'],
    [{ equipment: ['skimmer', 'pump'] }, {}, null],
    [{ withoutEquipment: ['de-icer'] }, { equipment: [aMachine('de-icer')] }, 'has-equipment'],
    [{ winterClass: ['W2', 'W3'] }, { winterClass: 'W0' }, 'no-frost-climate'],
    [{ winterClass: ['W2', 'W3'] }, { winterClass: 'W1' }, 'not-this-climate'],
    [{ heated: false }, { equipment: [aMachine('heater')] }, 'heated'],
    [{ tap: ['chloramine'] }, { tap: { source: 'well', totalChlorineMgPerL: null } }, 'not-this-tap'],
    [{ livestock: true }, { stock: [] }, 'no-livestock'],
    [{ fish: true }, { stock: [{ species: 'slider-turtle', count: 1, lengthCm: 20 }] }, 'no-fish'],
    [{ turtles: true }, {}, 'no-turtles'],
    [{ plants: ['lotus'] }, {}, 'no-plants'],
    [{ treesNear: true }, { treesNear: false }, 'no-trees'],
    [{ waterfall: true }, { waterfall: false }, 'no-waterfall'],
    [{ stocking: 'light' }, {}, 'not-this-stocking'],
    [{ stocking: 'light' }, { stock: [{ species: 'goldfish', count: 5, lengthCm: 15 }] }, null],
  ] as const)('asks for %j and answers %s', (appliesTo, changes, answer) => {
    expect(because(appliesTo, changes)).toBe(answer);
  });

  it('takes nothing to live in a pond that is still running in', () => {
    const runningIn = { commissionedOn: civilDay('2026-06-01'), stockedOn: null };
    expect(because({ fish: true }, runningIn)).toBe('no-fish');
    expect(because({ inRunIn: true }, runningIn)).toBeNull();
    expect(because({ inRunIn: true })).toBe('not-in-run-in');
  });

  it('takes a pond whose history nobody knows for stocked', () => {
    expect(because({ fish: true }, { commissionedOn: null, stockedOn: null })).toBeNull();
  });
});
