import fc from 'fast-check';
import type { CrewDay, RoundsPlan, RoundsProblem, RoundVisit } from '../../../src/core/rounds/rounds-problem.js';

/** Places on a line or plane with whole driving times; place 0 is the yard. */
export function travelBetween(points: readonly (readonly [number, number])[]): Int32Array {
  return Int32Array.from(points.flatMap(([x, y]) => points.map(([u, v]) => Math.ceil(Math.hypot(x - u, y - v)))));
}

export function aCrewDay(id: string, more: Partial<CrewDay> = {}): CrewDay {
  return {
    id,
    crew: id.split('/')[0] as string,
    day: 0,
    persons: [id.split('/')[0] as string],
    startPlace: 0,
    endPlace: 0,
    hours: { open: 480, close: 960 },
    ...more,
  };
}

export function aVisit(id: string, place: number, more: Partial<RoundVisit> = {}): RoundVisit {
  return { id, place, service: 30, windows: [{ open: 480, close: 960 }], ...more };
}

const point = fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 60 }));
const windows = fc.oneof(
  { weight: 3, arbitrary: fc.constant([{ open: 480, close: 960 }]) },
  {
    weight: 2,
    arbitrary: fc
      .record({ open: fc.integer({ min: 480, max: 800 }), length: fc.integer({ min: 30, max: 200 }) })
      .map(({ open, length }) => [{ open, close: open + length }]),
  },
  {
    weight: 1,
    arbitrary: fc.constant([
      { open: 480, close: 560 },
      { open: 780, close: 900 },
    ]),
  },
);

const visit = fc.record({
  service: fc.integer({ min: 10, max: 90 }),
  windows,
  skills: fc.constantFrom([], [], [], ['electrical']),
  crewSize: fc.constantFrom(1, 1, 1, 2),
  isLast: fc.constantFrom(false, false, false, true),
  preferredCrew: fc.constantFrom(undefined, undefined, 'ann', 'bob'),
  published: fc.constantFrom(undefined, undefined, { crew: 'ann', day: 0, start: 600, span: 60 }),
});

/** A company's day in small: two crews, one with a licence, one of two people, pauses, overtime, everything mixed. */
export function companyDay(mostVisits: number): fc.Arbitrary<RoundsProblem> {
  const size = fc.integer({ min: 1, max: mostVisits });
  return size.chain((count) =>
    fc
      .record({
        points: fc.array(point, { minLength: count + 1, maxLength: count + 1 }),
        visits: fc.array(visit, { minLength: count, maxLength: count }),
        hasPause: fc.boolean(),
        overtimeAllowed: fc.constantFrom(0, 60),
      })
      .map(({ points, visits, hasPause, overtimeAllowed }) => ({
        places: count + 1,
        travel: travelBetween(points),
        crewDays: [
          aCrewDay('ann', {
            skills: ['electrical'],
            hours: { open: 480, close: 780 },
            overtimeAllowed,
            ...(hasPause ? { pause: { open: 690, close: 780, length: 30 } } : {}),
          }),
          aCrewDay('bob', { persons: ['bob', 'cyd'], hours: { open: 540, close: 800 } }),
        ],
        visits: visits.map(({ preferredCrew, published, ...own }, i) =>
          aVisit(`v${i}`, i + 1, {
            ...own,
            penalty: 1000,
            ...(preferredCrew ? { preferredCrew } : {}),
            ...(published ? { published } : {}),
          }),
        ),
      })),
  );
}

/** Every plan there is: each visit at each place of each round, or left out. */
export function* everyPlan(visits: number, rounds: number): Generator<RoundsPlan> {
  function* from(visit: number, plan: RoundsPlan): Generator<RoundsPlan> {
    if (visit === visits) {
      yield plan;
      return;
    }
    yield* from(visit + 1, { ...plan, unassigned: [...plan.unassigned, visit] });
    for (let r = 0; r < rounds; r++) {
      const stops = plan.rounds[r] as readonly number[];
      for (let at = 0; at <= stops.length; at++) {
        const longer = [...stops.slice(0, at), visit, ...stops.slice(at)];
        yield* from(visit + 1, { ...plan, rounds: plan.rounds.with(r, longer) });
      }
    }
  }
  yield* from(0, { rounds: Array.from({ length: rounds }, () => []), unassigned: [] });
}
