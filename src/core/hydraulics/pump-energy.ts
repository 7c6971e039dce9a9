import { requireWithin } from '../errors.js';
import { GRAVITY_M_PER_S2, waterDensityKgPerM3 } from './water-viscosity.js';

const USUAL_WATER_C = 15;
const HOURS_PER_DAY = { min: 0, max: 24 } as const;

/**
 * Energy of a machine: watts x hours / 1000. [kWh]
 * 120 W all year: 1,051.2 kWh.
 * @param run.powerW 0 to 50,000, drawn at the socket. [W]
 * @param run.days 0 to 36,600. [d]
 */
export function energyKWh(run: { powerW: number; hoursPerDay: number; days: number }): number {
  requireWithin('power, W', run.powerW, { min: 0, max: 50_000 });
  requireWithin('hours a day', run.hoursPerDay, HOURS_PER_DAY);
  requireWithin('days', run.days, { min: 0, max: 36_600 });
  return (run.powerW * run.hoursPerDay * run.days) / 1000;
}

/**
 * What energy costs, in whole minor units of a currency (cents), rounded half up.
 * 1,051.2 kWh at 17 cents: 17,870.
 * @param bill.energyKWh 0 to 10,000,000. [kWh]
 * @param bill.priceMinorPerKWh Price in minor units, 0 to 1,000; fractions as on the bill, 16.48. [minor/kWh]
 * @see kWh x price, the form US DOE publishes (published source).
 */
export function energyCostMinor(bill: { energyKWh: number; priceMinorPerKWh: number }): number {
  requireWithin('energy, kWh', bill.energyKWh, { min: 0, max: 10_000_000 });
  requireWithin('price, minor units per kWh', bill.priceMinorPerKWh, { min: 0, max: 1000 });
  // A product such as 1051.2 x 17 must not lose its half cent to the last bit.
  return Math.floor(bill.energyKWh * bill.priceMinorPerKWh + 0.5 + 1e-9);
}

/**
 * Power that lifting water takes without any loss: rho g Q H. [W]
 * 5 m³/h by 3 m: 40.8 W. What the socket gives is two to five times as much for a pond pump (common practice).
 */
export function hydraulicPowerW(lift: { flowLPerH: number; headM: number; waterTemperatureC?: number }): number {
  requireWithin('flow, L/h', lift.flowLPerH, { min: 0, max: 1_000_000 });
  requireWithin('head, m', lift.headM, { min: 0, max: 100 });
  const density = waterDensityKgPerM3({ temperatureC: lift.waterTemperatureC ?? USUAL_WATER_C });
  return (density * GRAVITY_M_PER_S2 * lift.flowLPerH * lift.headM) / 3.6e6;
}
