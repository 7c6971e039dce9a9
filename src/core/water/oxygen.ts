import { requireWithin } from '../errors.js';
import { kelvinFromC } from '../units/celsius-fahrenheit.js';

/** Range of the saturation fit. [°C, g/L] */
const FIT_RANGE_C = { min: 0, max: 40 } as const;
const SALINITY_RANGE_G_PER_L = { min: 0, max: 40 } as const;
/** Heights at which the air pressure stays inside the fit's 0.5 to 1.1 atm. [m] */
const ELEVATION_RANGE_M = { min: -500, max: 5400 } as const;

export interface OxygenSample {
  /** 0 to 40. [°C] */
  readonly temperatureC: number;
  /** 0 to 40; fresh water when left out. [g/L] */
  readonly salinityGPerL?: number;
  /** -500 to 5400; sea level when left out. [m] */
  readonly elevationM?: number;
}

/**
 * Oxygen in water that is in balance with moist air. [mg/L]
 * At 20 °C, fresh water and sea level 9.09. Outside the range of the fit it throws.
 * @see Benson & Krause (1980), Limnol. Oceanogr. 25, 662-671, and (1984), ibid. 29, 620-632 (published source); the
 *      pressure term with their vapour pressure, the pressure of `airPressureAtm`. 1 g/L is taken as 1 g/kg.
 */
export function oxygenSaturationMgPerL(sample: OxygenSample): number {
  const { temperatureC, salinityGPerL = 0, elevationM = 0 } = sample;
  requireWithin('water temperature, °C', temperatureC, FIT_RANGE_C);
  requireWithin('salinity, g/L', salinityGPerL, SALINITY_RANGE_G_PER_L);

  const k = kelvinFromC(temperatureC);
  const freshLn = -139.34411 + 1.575701e5 / k - 6.642308e7 / k ** 2 + 1.2438e10 / k ** 3 - 8.621949e11 / k ** 4;
  const saltLn = salinityGPerL * (0.017674 - 10.754 / k + 2140.7 / k ** 2);
  return Math.exp(freshLn - saltLn) * pressureFactor(temperatureC, airPressureAtm({ elevationM }));
}

/** Saturation at a pressure over saturation at one atmosphere (Benson & Krause). [-] */
function pressureFactor(temperatureC: number, pressureAtm: number): number {
  const k = kelvinFromC(temperatureC);
  const vapourAtm = Math.exp(11.8571 - 3840.7 / k - 216961 / k ** 2);
  const theta = 0.000975 - 1.426e-5 * temperatureC + 6.436e-8 * temperatureC ** 2;
  return ((pressureAtm - vapourAtm) * (1 - theta * pressureAtm)) / ((1 - vapourAtm) * (1 - theta));
}

/**
 * Mean air pressure at a height, standard atmosphere. [atm]
 *   P = (1 - 2.25577e-5 h)^5.25588        0.8243 at 1600 m
 * @param site.elevationM -500 to 5400. [m]
 * @see ISO 2533 standard atmosphere (from memory). Only for oxygen; FAO-56 has its own formula.
 */
export function airPressureAtm(site: { elevationM: number }): number {
  requireWithin('elevation, m', site.elevationM, ELEVATION_RANGE_M);
  return (1 - 2.25577e-5 * site.elevationM) ** 5.25588;
}

/** Measured oxygen as a share of saturation; above 1 when algae make more than the air holds. [-] */
export function oxygenSaturationShare(sample: OxygenSample & { dissolvedOxygenMgPerL: number }): number {
  requireWithin('dissolved oxygen, mg/L', sample.dissolvedOxygenMgPerL, { min: 0, max: 40 });
  return sample.dissolvedOxygenMgPerL / oxygenSaturationMgPerL(sample);
}
