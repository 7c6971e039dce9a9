import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { GARDEN_TURNOVER_PER_HOUR, KOI_TURNOVER_PER_HOUR, turnover } from '../../../src/core/hydraulics/turnover.js';
import { expectWithin } from '../../support/expect-within.js';

describe('turnover (common practice)', () => {
  it('of 4,000 L with one circuit of 3,600 L/h is not met, with a second of 2,000 it is', () => {
    const pond = { volumeL: 4000, neededPerHour: 1 };
    expect(turnover({ ...pond, circuitFlowsLPerH: [3600] })).toEqual({ perHour: 0.9, isMet: false, missingLPerH: 400 });
    expect(turnover({ ...pond, circuitFlowsLPerH: [3600, 2000] })).toEqual({
      perHour: 1.4,
      isMet: true,
      missingLPerH: 0,
    });
  });

  it('asks one volume an hour for koi and half of it for a garden pond', () => {
    expect([KOI_TURNOVER_PER_HOUR, GARDEN_TURNOVER_PER_HOUR]).toEqual([1, 0.5]);
  });

  it('is met by exactly the volume, and missing altogether without a circuit', () => {
    expect(turnover({ volumeL: 4000, circuitFlowsLPerH: [4000], neededPerHour: 1 }).isMet).toBe(true);
    expect(turnover({ volumeL: 4000, circuitFlowsLPerH: [], neededPerHour: 0.5 })).toEqual({
      perHour: 0,
      isMet: false,
      missingLPerH: 2000,
    });
  });

  it('is met once a circuit brings what is missing', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 100_000 }),
        fc.array(fc.integer({ min: 0, max: 20_000 }), { maxLength: 4 }),
        (volumeL, flows) => {
          const now = turnover({ volumeL, circuitFlowsLPerH: flows, neededPerHour: 1 });
          const then = turnover({ volumeL, circuitFlowsLPerH: [...flows, now.missingLPerH], neededPerHour: 1 });
          expect(then.isMet).toBe(true);
          expectWithin(
            now.perHour * volumeL,
            flows.reduce((sum, flow) => sum + flow, 0),
            1e-6,
          );
        },
      ),
    );
  });

  it.each([
    [{ volumeL: 0 }, 'pond volume, L: 0'],
    [{ circuitFlowsLPerH: [-1] }, 'flow of a circuit, L/h: -1'],
    [{ neededPerHour: Number.NaN }, 'turnover needed, volumes an hour: NaN'],
  ])('refuses %j', (wrong, message) => {
    expect(() => turnover({ volumeL: 4000, circuitFlowsLPerH: [1000], neededPerHour: 1, ...wrong })).toThrow(message);
  });
});
