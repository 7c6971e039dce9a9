import { describe, expect, it } from '@jest/globals';
import { planningContext } from '../../../../src/core/care/planning-context.js';
import { crossingOutcome } from '../../../../src/core/care/triggers/crossing.js';
import { civilDay, isoDateOf } from '../../../../src/core/units/civil-day.js';
import { aPlanInput } from '../../../support/a-pond.js';
import { aParameter, aRule } from '../../../support/a-rule.js';
import { sinusoidForecast } from '../../../support/sinusoid-forecast.js';

// Fixture for date arithmetic only, derived: trade handbook section 8.6, mean 12, amplitude 12, warmest on day 205.
const POND = { meanC: 12, amplitudeC: 12, warmestDayOfYear: 205 };

function outcome(given: {
  firstDay: string;
  thresholdC: number;
  direction: 'rising' | 'falling';
  year: number;
  spreadDays?: number;
  leadDays?: number;
  meanC?: number;
}) {
  const rule = aRule({
    cycle: given.direction === 'rising' ? 'warming' : 'cooling',
    anyOf: [{ kind: 'crossing', threshold: 'threshold', direction: given.direction, leadDays: 'lead' }],
    parameters: { threshold: aParameter(given.thresholdC, '°C'), lead: aParameter(given.leadDays ?? 0, 'd') },
  });
  const forecast = sinusoidForecast({
    ...POND,
    meanC: given.meanC ?? POND.meanC,
    firstDay: civilDay(given.firstDay),
    spreadDays: given.spreadDays ?? 0,
  });
  const context = planningContext(aPlanInput({ forecast, rules: [rule] }));
  const half = given.direction === 'rising' ? 'warming' : 'cooling';
  const trigger = rule.anyOf[0];
  if (trigger?.kind !== 'crossing') throw new Error('no crossing');
  return crossingOutcome(trigger, rule, context, { half, year: given.year });
}

function days(result: ReturnType<typeof outcome>): string[] {
  if (!result.fires) throw new Error(`${result.because} ${result.detail}`);
  const { earliest, due, latest } = result.window;
  return [earliest, due, latest].map(isoDateOf);
}

describe('a crossing', () => {
  it.each([
    // Trade handbook section 8.6: due day is the first whole day at or after the crossing (derived).
    { thresholdC: 7, direction: 'rising', year: 2025, due: '2026-03-30' },
    { thresholdC: 10, direction: 'rising', year: 2025, due: '2026-04-15' },
    { thresholdC: 13, direction: 'rising', year: 2025, due: '2026-04-29' },
    { thresholdC: 15, direction: 'rising', year: 2025, due: '2026-05-09' },
    { thresholdC: 21, direction: 'rising', year: 2025, due: '2026-06-13' },
    { thresholdC: 15, direction: 'falling', year: 2026, due: '2026-10-09' },
    { thresholdC: 13, direction: 'falling', year: 2026, due: '2026-10-19' },
    { thresholdC: 10, direction: 'falling', year: 2026, due: '2026-11-02' },
    { thresholdC: 5, direction: 'falling', year: 2026, due: '2026-11-29' },
    { thresholdC: 4, direction: 'falling', year: 2026, due: '2026-12-05' },
  ] as const)('of $thresholdC °C $direction is due on $due', (given) => {
    expect(days(outcome({ firstDay: '2026-02-01', ...given }))[1]).toBe(given.due);
  });

  it('opens and closes at the quantiles of the traces, and leads by the days asked for', () => {
    const plain = { firstDay: '2026-02-01', thresholdC: 10, direction: 'falling', year: 2026, spreadDays: 10 } as const;
    expect(days(outcome(plain))).toEqual(['2026-10-25', '2026-11-02', '2026-11-10']);
    expect(days(outcome({ ...plain, leadDays: 7 }))).toEqual(['2026-10-18', '2026-10-26', '2026-11-03']);
  });

  it('that lies before the forecast is dated by how long the water took to get there', () => {
    const result = outcome({ firstDay: '2026-11-20', thresholdC: 10, direction: 'falling', year: 2026 });
    expect(days(result)).toEqual(['2026-11-02', '2026-11-02', '2026-11-02']);
  });

  it('keeps that day when it is asked again weeks later', () => {
    for (const firstDay of ['2026-11-05', '2026-11-30', '2026-12-20', '2027-01-20']) {
      const due = civilDay(days(outcome({ firstDay, thresholdC: 10, direction: 'falling', year: 2026 }))[1] as string);
      expect(Math.abs(due - civilDay('2026-11-02'))).toBeLessThanOrEqual(1);
    }
  });

  it('is overtaken once the water has come back', () => {
    const result = outcome({ firstDay: '2027-05-20', thresholdC: 10, direction: 'falling', year: 2026 });
    expect(result).toMatchObject({ fires: false, because: 'overtaken' });
  });

  it('does not happen where the water never goes there', () => {
    const result = outcome({ firstDay: '2026-02-01', thresholdC: 10, direction: 'falling', year: 2026, meanC: 25 });
    expect(result).toMatchObject({ fires: false, because: 'no-crossing', detail: 'always-above' });
  });

  it('keeps the threshold and the three days in its reason', () => {
    const result = outcome({ firstDay: '2026-02-01', thresholdC: 10, direction: 'rising', year: 2025 });
    expect(result.fires && result.reason.inputs.map((input) => input.name)).toEqual(
      expect.arrayContaining(['threshold', 'crossing-p10', 'crossing-p50', 'crossing-p90']),
    );
  });
});
