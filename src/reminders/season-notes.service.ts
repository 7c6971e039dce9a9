import { Injectable } from '@nestjs/common';
import { IsNull, Not } from 'typeorm';
import { CareCalendarService } from '../care-calendar/index.js';
import { lastingSeason, SEASON_LIMITS_C, seasonBeginning, type WaterSeason } from '../core/care/water-season.js';
import { type CivilDay, civilDay, isoDateOf } from '../core/units/civil-day.js';
import { showTemperature, type UnitSystem } from '../core/units/show.js';
import { Database } from '../database/index.js';
import type { CompanyId, PersonId } from '../platform/ids.js';
import type { Homeowner } from './homeowners.service.js';
import type { SeasonNote } from './messages/mail-content.js';
import { WHEEL_SHOWN_PX, wheelInWords, wheelWater, yearWheelPicture } from './messages/year-wheel-picture.js';
import { ReminderEntity } from './reminder.entity.js';
import { dayAndMonth } from './spoken-dates.js';

/** A note where a season begins, and the season the mail stands in, which the next one compares with. */
export interface SeasonTold {
  readonly season: WaterSeason | null;
  readonly note: SeasonNote | null;
}

const NONE: SeasonTold = { season: null, note: null };

/** Tells when a season of the water begins: of the first pond, where there are several. */
@Injectable()
export class SeasonNotes {
  constructor(
    private readonly database: Database,
    private readonly calendar: CareCalendarService,
  ) {}

  /** The season of the last weekly mail to a person, or null. */
  async lastTold(companyId: CompanyId, personId: PersonId): Promise<WaterSeason | null> {
    const [last] = await this.database.company(companyId).find(ReminderEntity, {
      where: { personId, season: Not(IsNull()) },
      order: { digestOn: 'DESC' },
      take: 1,
    });
    return last?.season ?? null;
  }

  /** @param told The season told last. */
  async of(
    { company, ponds: [pond, ...others], units }: Homeowner,
    days: { readonly from: CivilDay; readonly to: CivilDay },
    told: WaterSeason | null,
  ): Promise<SeasonTold> {
    const outcome = pond ? await this.calendar.outcomeOf(company.id, pond.id) : null;
    if (!pond || !outcome) return NONE;
    const { outlook } = outcome;
    const water = { firstDay: civilDay(outlook.firstDay), median7dMeanC: outlook.median7dMeanC };
    const beginning = seasonBeginning(water, days, pond.latitude, told);
    if (!beginning) return { season: told ?? lastingSeason(water, days.from, pond.latitude), note: null };

    const wheel = wheelWater(outlook);
    const picture = await yearWheelPicture(wheel, days.from, pond.latitude);
    const { title, sentences } = wordsOf(beginning, days.from, units);
    return {
      season: beginning.season,
      note: {
        title: others.length === 0 ? title : `${pond.name}: ${title.charAt(0).toLowerCase()}${title.slice(1)}`,
        sentences,
        picture: {
          cid: `year-${isoDateOf(days.from)}@pond`,
          fileName: 'year.png',
          contentType: 'image/png',
          base64: picture.toString('base64'),
        },
        pictureWords: wheelInWords(wheel, days.from, (c) => showTemperature(c, units)),
        pictureWidthPx: WHEEL_SHOWN_PX,
      },
    };
  }
}

function wordsOf(
  { season, on }: { readonly season: WaterSeason; readonly on: CivilDay },
  today: CivilDay,
  units: UnitSystem,
): Pick<SeasonNote, 'title' | 'sentences'> {
  const when = on > today ? `from about ${dayAndMonth(on)}` : 'now';
  const rest = showTemperature(SEASON_LIMITS_C.rest, units);
  const growing = showTemperature(SEASON_LIMITS_C.growing, units);
  switch (season) {
    case 'rest':
      return {
        title: 'The winter rest begins',
        sentences: [
          `The week's mean of the water is below ${rest} ${when}.`,
          'Fish eat next to nothing in such water and live on what they have. The less the pond is disturbed, the better.',
        ],
      };
    case 'spring':
      return {
        title: 'The spring of the pond begins',
        sentences: [
          `The week's mean of the water is above ${rest} ${when}.`,
          'Fish, filter and plants wake slowly, and one after the other: the filter later than the fish.',
        ],
      };
    case 'growing':
      return {
        title: 'The growing season begins',
        sentences: [
          `The week's mean of the water is above ${growing} ${when}.`,
          'Everything grows now, algae too. Warm water holds less oxygen, so the pumps run day and night.',
        ],
      };
    case 'autumn':
      return {
        title: 'The autumn of the pond begins',
        sentences: [
          `The week's mean of the water is below ${growing} ${when}.`,
          'What falls or dies in the water now lies there all winter, so what is taken out now is worth most.',
        ],
      };
  }
}
