import { requireWithin } from '../errors.js';
import { saturationVapourPressureKPa } from './fao56.js';
import { estimateExtremeMinC, hardinessZoneOf } from './hardiness.js';
import { koeppenClass } from './koeppen.js';
import type { SiteClimate } from './station.js';
import { ofMonth, twelveMonths } from './twelve-months.js';

/**
 * The climate of a place as it would be warmer or colder all year: every monthly mean and extreme moves by as much, the
 * relative humidity, the share of sun, the rain and the spread between days and years stay. Zone and class are worked
 * out anew (derived; a question asked of a calendar, no projection of a climate).
 * @param warmerC -15 to 15. [°C]
 * @throws OutOfRangeError
 */
export function warmerClimate(climate: SiteClimate, warmerC: number): SiteClimate {
  requireWithin('degrees warmer, °C', warmerC, { min: -15, max: 15 });
  if (warmerC === 0) return climate;
  const moved = (monthly: SiteClimate['meanC']) => twelveMonths((month) => ofMonth(monthly, month) + warmerC);
  const [meanC, maxC, minC] = [moved(climate.meanC), moved(climate.maxC), moved(climate.minC)];
  const { dailySdC, precipitationMm } = climate;
  return {
    ...climate,
    meanC,
    maxC,
    minC,
    vapourPressureHPa: twelveMonths((month) => {
      const before = saturationVapourPressureKPa({ temperatureC: ofMonth(climate.meanC, month) });
      const after = saturationVapourPressureKPa({ temperatureC: ofMonth(meanC, month) });
      return (ofMonth(climate.vapourPressureHPa, month) * after) / before;
    }),
    koeppen: precipitationMm === null ? climate.koeppen : koeppenClass({ meanC, precipitationMm }),
    hardinessZone: hardinessZoneOf({ extremeMinC: estimateExtremeMinC({ minC, dailySdC }) }),
  };
}
