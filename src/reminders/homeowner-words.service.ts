import { Injectable } from '@nestjs/common';
import { In, IsNull, Not } from 'typeorm';
import { PeopleService } from '../accounts/index.js';
import { InvalidValueError } from '../core/errors.js';
import { Database } from '../database/index.js';
import { Clock } from '../platform/clock.js';
import { type CompanyId, newId, type PersonId, type PondId, type TaskId, type VisitId } from '../platform/ids.js';
import { PondEntity } from '../ponds/index.js';
import { VisitEntity } from '../visits/index.js';
import { HomeownerWordEntity, type HomeownerWordKind } from './homeowner-word.entity.js';
import { HomeownerWordNotFoundError } from './reminders.errors.js';

export interface NewHomeownerWord {
  readonly pondId: PondId;
  readonly personId: PersonId;
  readonly kind: HomeownerWordKind;
  readonly said: string;
  readonly visitId?: VisitId | null;
  readonly taskId?: TaskId | null;
}

/** With whom and what it is about, for the office. */
export interface OpenHomeownerWord {
  readonly word: HomeownerWordEntity;
  readonly name: string;
  readonly phone: string;
  readonly pond: Pick<PondEntity, 'id' | 'name' | 'town' | 'timeZone'>;
  readonly visit: VisitEntity | null;
}

const LONGEST_WORDS = 2000;
/** Open ones of one person and pond; more are a fault or a nuisance. */
const MOST_OPEN = 20;

/** What homeowners say, kept until the office has settled it. */
@Injectable()
export class HomeownerWords {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly people: PeopleService,
  ) {}

  /**
   * Keeps it. The same answer to the same visit said again changes nothing; another one takes its place.
   * @throws InvalidValueError for a question without words, or more than can be kept
   */
  async say(companyId: CompanyId, said: NewHomeownerWord): Promise<void> {
    const words = said.said.trim();
    if (said.kind === 'question' && words === '') {
      throw new InvalidValueError('question', said.said, 'Write what you would like to know.');
    }
    if (words.length > LONGEST_WORDS) {
      throw new InvalidValueError('words', `${words.slice(0, 40)}…`, `Write at most ${LONGEST_WORDS} characters.`);
    }
    await this.database.unitOfWork('keep what a homeowner said', async () => {
      const store = this.database.company(companyId);
      const { pondId, personId, kind, visitId = null, taskId = null } = said;
      const open = { pondId, personId, settledAt: IsNull() };
      if (visitId !== null) {
        const same = await store.findOne(HomeownerWordEntity, { ...open, visitId, kind });
        if (same && same.said === words) return;
        await store.remove(HomeownerWordEntity, { ...open, visitId });
      } else if ((await store.count(HomeownerWordEntity, open)) >= MOST_OPEN) {
        throw new InvalidValueError('question', words.slice(0, 40), 'Many of yours wait already: please call us.');
      }
      await store.insert(HomeownerWordEntity, {
        id: newId(this.clock.now().toMillis()),
        pondId,
        personId,
        kind,
        visitId,
        taskId,
        said: words,
        saidAt: this.clock.instant(),
        settledAt: null,
        settledBy: null,
      });
    });
  }

  /** What a person answered to a visit and the office has not settled, or null. */
  answerTo(companyId: CompanyId, personId: PersonId, visitId: VisitId): Promise<HomeownerWordEntity | null> {
    return this.database.company(companyId).findOne(HomeownerWordEntity, { personId, visitId, settledAt: IsNull() });
  }

  /** What waits for the office, oldest first. */
  async open(companyId: CompanyId, atMost = 200): Promise<OpenHomeownerWord[]> {
    const store = this.database.company(companyId);
    const words = await store.find(HomeownerWordEntity, {
      where: { settledAt: IsNull() },
      order: { saidAt: 'ASC', id: 'ASC' },
      take: atMost,
    });
    const ponds = await store.find(PondEntity, { where: { id: In(words.map(({ pondId }) => pondId)) } });
    const visits = await store.find(VisitEntity, {
      where: { id: In(words.flatMap(({ visitId }) => visitId ?? [])) },
    });
    const people = await this.people.byIds(words.map(({ personId }) => personId));
    return words.map((word) => ({
      word,
      name: people.get(word.personId)?.name ?? '',
      phone: people.get(word.personId)?.phone ?? '',
      pond: ponds.find(({ id }) => id === word.pondId) as PondEntity,
      visit: visits.find(({ id }) => id === word.visitId) ?? null,
    }));
  }

  /** The office has answered, or seen it. @throws HomeownerWordNotFoundError */
  settle(companyId: CompanyId, id: string, by: PersonId): Promise<void> {
    return this.mark(companyId, id, IsNull(), { settledAt: this.clock.instant(), settledBy: by });
  }

  /** Takes settling back. @throws HomeownerWordNotFoundError */
  unsettle(companyId: CompanyId, id: string): Promise<void> {
    return this.mark(companyId, id, Not(IsNull()), { settledAt: null, settledBy: null });
  }

  private async mark(
    companyId: CompanyId,
    id: string,
    settledAt: ReturnType<typeof IsNull>,
    change: Pick<HomeownerWordEntity, 'settledAt' | 'settledBy'>,
  ): Promise<void> {
    await this.database.unitOfWork('settle what a homeowner said', async () => {
      const store = this.database.company(companyId);
      if ((await store.count(HomeownerWordEntity, { id })) === 0) throw new HomeownerWordNotFoundError(id);
      await store.update(HomeownerWordEntity, { id, settledAt }, change);
    });
  }
}
