import { describe, expect, it } from '@jest/globals';
import fc from 'fast-check';
import { InvalidValueError, OutOfRangeError } from '../../../src/core/errors.js';
import { flatProblem } from '../../../src/core/rounds/flat-problem.js';
import { costOfMove, startsOf } from '../../../src/core/rounds/moves.js';
import { costOfPlan } from '../../../src/core/rounds/objective.js';
import { type PreviousRound, repairRounds } from '../../../src/core/rounds/repair.js';
import type { RoundsPlan, RoundsProblem } from '../../../src/core/rounds/rounds-problem.js';
import { runSearch } from '../../../src/core/rounds/run-search.js';
import { brokenRules, scheduleOf } from '../../../src/core/rounds/schedule.js';
import { RoundsSearch } from '../../../src/core/rounds/search.js';
import { unassignedReason } from '../../../src/core/rounds/unassigned-reason.js';
import { aCrewDay, aVisit, companyDay, travelBetween } from './small-problems.js';
import { timetableFaults } from './timetable-faults.js';

function planned(problem: RoundsProblem): RoundsPlan {
  const search = new RoundsSearch(flatProblem(problem), 1);
  runSearch(search, { steps: 2000 });
  return search.bestPlan();
}

function asPrevious(problem: RoundsProblem, plan: RoundsPlan): PreviousRound[] {
  const flat = flatProblem(problem);
  return plan.rounds.map((stops, r) => {
    const { id, crew, day } = problem.crewDays[r]!;
    const own = scheduleOf(flat, r, stops).stops;
    return {
      crewDay: id,
      crew,
      day,
      stops: own.map(({ visit, start }) => ({ visit: problem.visits[visit]!.id, start })),
    };
  });
}

/** Four crews in four corners, four ponds each. */
function fourCorners(): RoundsProblem {
  const corners = [
    [0, 0],
    [60, 0],
    [0, 60],
    [60, 60],
  ] as const;
  const ponds = corners.flatMap(
    ([x, y]) =>
      [
        [x, y],
        [x + 6, y],
        [x, y + 7],
        [x + 8, y + 8],
      ] as [number, number][],
  );
  return {
    places: 17,
    travel: travelBetween([[30, 30], ...ponds]),
    crewDays: ['ann', 'bob', 'cyd', 'dan'].map((name) => aCrewDay(name)),
    visits: ponds.map((_, i) => aVisit(`v${i}`, i + 1)),
  };
}

const published = (problem: RoundsProblem, plan: RoundsPlan): RoundsProblem => {
  const starts = startsOf(flatProblem(problem), plan);
  const promise = (v: number) => {
    const { crewDay, start } = starts.get(v)!;
    return { crew: problem.crewDays[crewDay]!.crew, day: 0, start, span: 60 };
  };
  return { ...problem, visits: problem.visits.map((visit, v) => ({ ...visit, published: promise(v) })) };
};

describe('a move by hand', () => {
  it('costs what the plan afterwards costs more, and leaves the plan alone', () => {
    fc.assert(
      fc.property(companyDay(8), fc.nat(7), fc.nat(7), fc.boolean(), (problem, a, b, isSwap) => {
        const flat = flatProblem(problem);
        const plan = planned(problem);
        const copy = structuredClone(plan);
        const [visit, other] = [a % flat.visits, b % flat.visits];
        const answer = costOfMove(
          flat,
          plan,
          isSwap ? { kind: 'swap', visit, other } : { kind: 'move', visit, crewDay: b % 2 },
        );
        expect(plan).toEqual(copy);
        expect(answer.total).toBeCloseTo(costOfPlan(flat, answer.plan).total - costOfPlan(flat, plan).total, 6);
        if (isSwap) expect(costOfMove(flat, answer.plan, { kind: 'swap', visit, other }).plan).toEqual(plan);
        const isSound = timetableFaults(
          problem,
          answer.plan,
          answer.plan.rounds.map((s, r) => scheduleOf(flat, r, s)),
        );
        expect(answer.broken.length === 0).toBe(isSound.length === 0);
      }),
      { numRuns: 40 },
    );
  });

  it('tells the minutes of driving and by how much a window is missed', () => {
    const problem: RoundsProblem = {
      places: 3,
      travel: travelBetween([
        [0, 0],
        [10, 0],
        [20, 0],
      ]),
      crewDays: [aCrewDay('ann')],
      visits: [aVisit('near', 1, { windows: [{ open: 480, close: 495 }] }), aVisit('far', 2)],
    };
    const flat = flatProblem(problem);
    const plan = { rounds: [[0, 1]], unassigned: [] };
    const answer = costOfMove(flat, plan, { kind: 'move', visit: 0, crewDay: 0, position: 1 });
    // 480 + 20 driving + 30 work + 10 driving = 540, 45 past 495.
    expect(answer.broken).toEqual([{ rule: 'window', crewDay: 0, visit: 0, by: 45 }]);
    expect(answer.driving).toBe(0);
    expect(costOfMove(flat, plan, { kind: 'unassign', visit: 1 }).driving).toBe(-20);
    expect(() => costOfMove(flat, plan, { kind: 'move', visit: 9, crewDay: 0 })).toThrow(InvalidValueError);
  });
});

describe('a plan that breaks a rule', () => {
  const travel = travelBetween([
    [0, 0],
    [10, 0],
    [20, 0],
  ]);
  const rulesOf = (problem: RoundsProblem, rounds: number[][]) =>
    brokenRules(flatProblem(problem), { rounds, unassigned: [] }).map(({ rule, by }) => (by ? `${rule} ${by}` : rule));

  it('is told by both referees: one late by 1, overtime by 1, a skill, hands, a sick pond first', () => {
    const cases: [RoundsProblem, string][] = [
      [
        {
          places: 3,
          travel,
          crewDays: [aCrewDay('ann')],
          visits: [aVisit('a', 1, { windows: [{ open: 480, close: 489 }] })],
        },
        'window 1',
      ],
      [
        {
          places: 3,
          travel,
          crewDays: [aCrewDay('ann', { hours: { open: 480, close: 529 } })],
          visits: [aVisit('a', 1)],
        },
        'overtime 1',
      ],
      [
        { places: 3, travel, crewDays: [aCrewDay('ann')], visits: [aVisit('a', 1, { skills: ['electrical'] })] },
        'skill',
      ],
      [{ places: 3, travel, crewDays: [aCrewDay('ann')], visits: [aVisit('a', 1, { crewSize: 2 })] }, 'crew-size'],
      [
        { places: 3, travel, crewDays: [aCrewDay('ann')], visits: [aVisit('a', 1, { isLast: true }), aVisit('b', 2)] },
        'sick-pond-last',
      ],
    ];
    for (const [problem, rule] of cases) {
      const rounds = [problem.visits.map((_, v) => v)];
      expect(rulesOf(problem, rounds)).toEqual([rule]);
      const schedules = [scheduleOf(flatProblem(problem), 0, rounds[0]!)];
      expect(timetableFaults(problem, { rounds, unassigned: [] }, schedules)).toHaveLength(1);
    }
  });

  it('is told by the referee when a visit stands twice or nowhere', () => {
    const problem = { places: 3, travel, crewDays: [aCrewDay('ann')], visits: [aVisit('a', 1), aVisit('b', 2)] };
    const plan = { rounds: [[0, 0]], unassigned: [] };
    const faults = timetableFaults(problem, plan, [scheduleOf(flatProblem(problem), 0, [0, 0])]);
    expect(faults).toEqual(['a stands 2 times', 'b stands 0 times']);
  });

  it('is never searched for a problem that cannot be read', () => {
    const good = { places: 3, travel, crewDays: [aCrewDay('ann')], visits: [aVisit('a', 1)] };
    const bad = (visit: object) => () => flatProblem({ ...good, visits: [{ ...good.visits[0]!, ...visit }] });
    expect(bad({ service: -1 })).toThrow(OutOfRangeError);
    expect(bad({ service: Number.NaN })).toThrow(OutOfRangeError);
    expect(bad({ place: 3 })).toThrow(OutOfRangeError);
    expect(bad({ windows: [{ open: 9, close: 5 }] })).toThrow(OutOfRangeError);
    expect(bad({ lock: { crewDay: 'nobody' } })).toThrow(InvalidValueError);
    expect(() => flatProblem({ ...good, places: 4 })).toThrow(InvalidValueError);
  });

  it('leaves a visit out for a reason', () => {
    const visits = [
      aVisit('a', 1, { skills: ['electrical'] }),
      aVisit('b', 1, { windows: [{ open: 2000, close: 2100 }] }),
      aVisit('c', 1, { service: 460 }),
      aVisit('d', 1, { service: 400 }),
    ];
    const flat = flatProblem({ places: 3, travel, crewDays: [aCrewDay('ann')], visits });
    expect(visits.map((_, v) => unassignedReason(flat, v))).toEqual(['no-skill', 'no-day', 'no-time', 'no-time']);
  });
});

describe('repair', () => {
  it('gives the same plan back when nothing happened', () => {
    const problem = fourCorners();
    const plan = planned(problem);
    const repaired = repairRounds(problem, asPrevious(problem, plan));
    expect(repaired.plan.rounds).toEqual(plan.rounds);
    expect(repaired.changes).toEqual([]);
  });

  it('changes at most its own round when one visit is cancelled', () => {
    const problem = fourCorners();
    const plan = planned(problem);
    for (let gone = 0; gone < 16; gone++) {
      const rest = { ...problem, visits: problem.visits.filter((_, v) => v !== gone) };
      const { changes, disruption } = repairRounds(rest, asPrevious(problem, plan), { budget: { steps: 3000 } });
      const own = plan.rounds.find((stops) => stops.includes(gone))!.map((v) => problem.visits[v]!.id);
      expect(changes.every(({ visit }) => own.includes(rest.visits[visit]!.id))).toBe(true);
      expect(disruption).toBeLessThanOrEqual(3 / 15);
    }
  });

  it('moves only the visits of one who falls ill, and holds every promise it can', () => {
    const before = fourCorners();
    const plan = planned(before);
    const problem = published(before, plan);
    const ill = plan.rounds.findIndex((stops) => stops.length > 0);
    const rest = { ...problem, crewDays: problem.crewDays.filter((_, r) => r !== ill) };
    const { changes, plan: after, brokenPromises } = repairRounds(rest, asPrevious(before, plan));
    expect(after.unassigned).toEqual([]);
    expect(changes.map(({ visit }) => visit).sort()).toEqual([...plan.rounds[ill]!].sort());
    expect(brokenPromises.every((visit) => plan.rounds[ill]!.includes(visit))).toBe(true);
  });

  it('puts a new visit in without breaking a promise', () => {
    const before = fourCorners();
    const plan = planned(before);
    const problem = published(before, plan);
    const more = { ...problem, visits: [...problem.visits, aVisit('new', 3)] };
    const { brokenPromises, changes } = repairRounds(more, asPrevious(before, plan));
    expect(brokenPromises).toEqual([]);
    expect(changes.some(({ visit, kinds }) => visit === 16 && kinds[0] === 'added')).toBe(true);
  });

  it('never leaves a locked visit', () => {
    fc.assert(
      fc.property(companyDay(8), (problem) => {
        const plan = planned(problem);
        const starts = startsOf(flatProblem(problem), plan);
        const [visit, at] = [...starts][0] ?? [];
        if (visit === undefined || !at) return;
        const lock = { crewDay: problem.crewDays[at.crewDay]!.id, start: at.start };
        const locked = { ...problem, visits: problem.visits.map((own, v) => (v === visit ? { ...own, lock } : own)) };
        const more = { ...locked, visits: [...locked.visits, aVisit('new', 1, { penalty: 1e6 })] };
        const { plan: after } = repairRounds(more, asPrevious(problem, plan), { budget: { steps: 500 } });
        expect(startsOf(flatProblem(more), after).get(visit)).toEqual(at);
      }),
      { numRuns: 30 },
    );
  });
});
