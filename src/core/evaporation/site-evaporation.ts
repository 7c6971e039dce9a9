import { extraterrestrialMjPerM2Day } from '../climate/fao56.js';
import type { SiteClimate } from '../climate/station.js';
import { ofMonth } from '../climate/twelve-months.js';
import { requireWithin } from '../errors.js';
import { type CivilDay, dayFromParts, dayOfYear, monthOf, yearOf } from '../units/civil-day.js';
import { openWaterEvaporationMmPerDay } from './penman.js';

const MIDDLE_OF_MONTH = 15;
/** Any year without a leap day: only the day of the year counts. */
const COMMON_YEAR = 2025;

/**
 * Evaporation of open water on an average day of a month, from the climate of a site. [mm/day]
 * Penman without wind (Valiantzas 2006), because a garden's wind is not known. Good to about 1 mm.
 * @param climate Monthly means of the site; its latitude within the polar circles.
 * @param month 1 to 12.
 */
export function siteEvaporationMmPerDay(climate: SiteClimate, month: number): number {
  requireWithin('month', month, { min: 1, max: 12 });
  const day = dayOfYear(dayFromParts(COMMON_YEAR, month, MIDDLE_OF_MONTH));
  const above = extraterrestrialMjPerM2Day({ latitude: climate.latitude, dayOfYear: day });
  return openWaterEvaporationMmPerDay({
    latitude: climate.latitude,
    dayOfYear: day,
    elevationM: climate.elevationM,
    airTemperatureMinC: ofMonth(climate.minC, month - 1),
    airTemperatureMaxC: ofMonth(climate.maxC, month - 1),
    solarMjPerM2Day: ofMonth(climate.sunShare, month - 1) * above,
    vapourPressureKPa: ofMonth(climate.vapourPressureHPa, month - 1) / 10,
    windAt2mMPerS: null,
  });
}

/**
 * Evaporation of open water on an average day of the year, straight between the middles of the months. [mm/day]
 * One real day is off by 37 % (one standard deviation, April to September; see `water-loss/loss-errors`).
 */
export function siteEvaporationOnMmPerDay(climate: SiteClimate, day: CivilDay): number {
  const month = monthOf(day);
  const year = yearOf(day);
  const middle = dayFromParts(year, month, MIDDLE_OF_MONTH);
  const isAfter = day >= middle;
  const other = isAfter ? (month % 12) + 1 : ((month + 10) % 12) + 1;
  const otherYear = isAfter && month === 12 ? year + 1 : !isAfter && month === 1 ? year - 1 : year;
  const along = (day - middle) / (dayFromParts(otherYear, other, MIDDLE_OF_MONTH) - middle);
  const here = siteEvaporationMmPerDay(climate, month);
  return here + along * (siteEvaporationMmPerDay(climate, other) - here);
}
