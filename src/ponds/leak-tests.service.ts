import { Injectable } from '@nestjs/common';
import { ClimateService } from '../climate/index.js';
import { InvalidValueError } from '../core/errors.js';
import { siteEvaporationOnMmPerDay } from '../core/evaporation/site-evaporation.js';
import { isoDateOf } from '../core/units/civil-day.js';
import type { LeakVerdictKind } from '../core/water-loss/leak-finder.js';
import { Clock, civilDayIn, instantFrom } from '../platform/clock.js';
import type { CompanyId } from '../platform/ids.js';
import { type JudgedLeakTest, judgeLeakTest, type LeakTest, LeakTestSchema } from './leak-test.js';
import type { PondEventEntity } from './pond-event.entity.js';
import { PondEventsService } from './pond-events.service.js';
import type { PondRecord } from './pond-record.js';

/** Leak tests of a pond, kept among its events and judged anew each time with the record as it stands. */
@Injectable()
export class LeakTestsService {
  constructor(
    private readonly events: PondEventsService,
    private readonly climate: ClimateService,
    private readonly clock: Clock,
  ) {}

  /** Keeps a test that can be judged. With an id that is already there nothing changes. Answers the id. */
  async keep(companyId: CompanyId, record: PondRecord, test: LeakTest, id?: string): Promise<string> {
    this.judge(record, test, []);
    const { pond } = record;
    const on = isoDateOf(civilDayIn(instantFrom(test.levels.at(-1)?.at ?? ''), pond.timeZone));
    return this.events.record(companyId, pond.id, {
      ...(id && { id }),
      kind: 'leak-test',
      on,
      note: JSON.stringify(test),
    });
  }

  /**
   * What a test says, with what other tests say of the pumps the other way.
   * @throws InvalidValueError, OutOfRangeError for levels that cannot be.
   */
  judge(
    record: Pick<PondRecord, 'pond' | 'equipment'>,
    test: LeakTest,
    kept: readonly JudgedLeakTest[],
  ): JudgedLeakTest {
    const latest = test.levels.at(-1);
    if (latest && instantFrom(latest.at) > this.clock.now().plus({ minutes: CLOCK_SLACK_MINUTES })) {
      throw new InvalidValueError('taken', latest.at, 'A level cannot be taken in the future. Check date and time.');
    }
    return judgeLeakTest(record, this.climate.siteFor(record.pond), test, { other: otherVerdict(test, kept) });
  }

  /** The tests kept among a pond's events, oldest first; of one that was gone on with only its last state. */
  kept(record: Pick<PondRecord, 'pond' | 'equipment'>, events: readonly PondEventEntity[]): JudgedLeakTest[] {
    const byStart = new Map<string, { eventId: string; test: LeakTest }>();
    for (const { id, kind, note } of [...events].sort((a, b) => (a.createdAt < b.createdAt ? -1 : 1))) {
      if (kind !== 'leak-test') continue;
      const test = LeakTestSchema.parse(JSON.parse(note));
      byStart.set(`${test.levels[0]?.at} ${test.pumps}`, { eventId: id, test });
    }
    if (byStart.size === 0) return [];
    const climate = this.climate.siteFor(record.pond);
    const judged: JudgedLeakTest[] = [];
    for (const { eventId, test } of byStart.values()) {
      judged.push(judgeLeakTest(record, climate, test, { eventId, other: otherVerdict(test, judged) }));
    }
    return judged.sort((a, b) => (lastAt(a.test) < lastAt(b.test) ? -1 : 1));
  }

  /** Evaporation to reckon with for a test begun now, as the climate has it. [mm/day] */
  evaporationNowMmPerDay({ pond }: Pick<PondRecord, 'pond'>): number {
    return siteEvaporationOnMmPerDay(this.climate.siteFor(pond), this.clock.today(pond.timeZone));
  }
}

/** A phone's clock may run ahead by this much. [minutes] */
const CLOCK_SLACK_MINUTES = 15;
/** Tests further apart than this say nothing about each other: a leak may have begun or been mended. */
const PAIR_WITHIN_DAYS = 60;

function otherVerdict(test: LeakTest, kept: readonly JudgedLeakTest[]): LeakVerdictKind | null {
  const end = instantFrom(lastAt(test));
  const near = kept.filter(
    (one) =>
      one.test.pumps !== test.pumps &&
      Math.abs(instantFrom(lastAt(one.test)).diff(end, 'days').days) <= PAIR_WITHIN_DAYS,
  );
  return near.at(-1)?.verdict.verdict ?? null;
}

function lastAt(test: LeakTest): string {
  return test.levels.at(-1)?.at ?? '';
}
