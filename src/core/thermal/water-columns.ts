import { type Ground, groundAtMidsummer } from './ground-heat.js';
import {
  equilibriumC,
  netHeatAtZeroWPerM2,
  SECONDS_PER_DAY,
  STEFAN_BOLTZMANN,
  tabledExchangeWPerM2K,
  WATER_EMISSIVITY,
  WATER_HEAT_J_PER_M3_K,
} from './heat-balance.js';
import { NEW_ICE_M, simulatedIceM, WATER_AFTER_ICE_C, WATER_UNDER_ICE_C } from './ice.js';
import type { DayWeather, PondForcing } from './pond-forcing.js';
import { tabledSaturationHPa, tabledSkyEmissivity } from './saturation.js';
import { WATERFALL_STOPS_BELOW_C, wetBulbFrom } from './waterfall.js';

// Bound once: where code runs in a sandbox, each look-up of a global costs more than the sum it does.
const { exp, max, min } = Math;

export interface ColumnSetting {
  readonly effectiveDepthM: number;
  readonly ground: Ground;
  readonly waterfallWPerM2K: number;
  /** Mean air of the year, from which the ground starts. [°C] */
  readonly yearMeanC: number;
}

/** Water, ice and ground of several columns, each under its own air; moved on by a day in place, without allocation. */
export class WaterColumns {
  /** Water of the heat balance alone; NaN before the first day. [°C] */
  readonly balanceC: Float64Array;
  readonly iceM: Float64Array;
  /** Net cold since the cover formed. [°C d] */
  readonly coldSinceFreezeUpC: Float64Array;
  private readonly upperGroundC: Float64Array;
  private readonly lowerGroundC: Float64Array;
  /** Equilibrium less air on the day before: where Newton's method starts. [°C] */
  private readonly lift: Float64Array;
  private readonly secondsPerHeat: number;

  constructor(
    columns: number,
    /** May be exchanged between two days. */
    public setting: ColumnSetting,
  ) {
    this.balanceC = new Float64Array(columns).fill(Number.NaN);
    this.iceM = new Float64Array(columns);
    this.coldSinceFreezeUpC = new Float64Array(columns);
    this.upperGroundC = new Float64Array(columns);
    this.lowerGroundC = new Float64Array(columns);
    this.lift = new Float64Array(columns);
    this.secondsPerHeat = -SECONDS_PER_DAY / (WATER_HEAT_J_PER_M3_K * setting.effectiveDepthM);
  }

  /** Moves one column on by a day under this air. */
  advance(column: number, air: number, weather: DayWeather, forcing: PondForcing): void {
    const { balanceC, lift, setting, upperGroundC } = this;
    const { waterfallWPerM2K: fall, ground } = setting;
    const windHPa = forcing.windFunctionWPerM2HPa;
    const kelvin2 = (air + 273.15) * (air + 273.15);
    let gain =
      forcing.shortwaveWPerM2 +
      WATER_EMISSIVITY * min(1, tabledSkyEmissivity(air) * weather.sky) * STEFAN_BOLTZMANN * kelvin2 * kelvin2 +
      windHPa * weather.humidity * tabledSaturationHPa(air) +
      forcing.sensibleWPerM2K * air;
    let linear = forcing.sensibleWPerM2K;
    const before = balanceC[column] as number;
    if ((this.iceM[column] as number) > 0) {
      this.advanceIce(column, air, netHeatAtZeroWPerM2(gain - forcing.iceLossWPerM2, windHPa));
      return;
    }
    let wet = fall > 0 && before >= WATERFALL_STOPS_BELOW_C ? fall : 0;
    if (weather.rainWPerM2K > 0) {
      if (air > 0) wet += weather.rainWPerM2K;
      else gain -= weather.snowMeltWPerM2;
    }
    if (wet > 0) {
      gain += wet * wetBulbFrom(air, weather.humidityPct, weather.wetBulbSlope, weather.wetBulbConstant);
      linear += wet;
    }
    if (Number.isNaN(before)) {
      this.start(column, equilibriumC(air, gain, windHPa, linear));
      return;
    }
    gain += ground.exchangeWPerM2K * (upperGroundC[column] as number);
    linear += ground.exchangeWPerM2K;
    const equilibrium = equilibriumC(air + (lift[column] as number), gain, windHPa, linear);
    lift[column] = equilibrium - air;
    const exchange = tabledExchangeWPerM2K((before + equilibrium) * 0.5, windHPa, linear);
    const after = equilibrium + (before - equilibrium) * exp(exchange * this.secondsPerHeat);
    this.advanceGround(column, before);
    if (after > 0) balanceC[column] = after;
    else this.freezeUp(column, air);
  }

  private start(column: number, waterC: number): void {
    const { upperC, lowerC } = groundAtMidsummer(waterC, this.setting.yearMeanC);
    this.balanceC[column] = max(0.01, waterC);
    this.upperGroundC[column] = upperC;
    this.lowerGroundC[column] = lowerC;
  }

  private advanceGround(column: number, waterC: number): void {
    const { upperGroundC, lowerGroundC } = this;
    const { upperFromWater, upperFromLower, lowerFromUpper } = this.setting.ground;
    const upper = upperGroundC[column] as number;
    const lower = lowerGroundC[column] as number;
    upperGroundC[column] = upper + upperFromWater * (waterC - upper) + upperFromLower * (lower - upper);
    lowerGroundC[column] = lower + lowerFromUpper * (upper - lower);
  }

  private freezeUp(column: number, air: number): void {
    this.iceM[column] = NEW_ICE_M;
    this.coldSinceFreezeUpC[column] = max(0, -air);
    this.balanceC[column] = WATER_UNDER_ICE_C;
  }

  private advanceIce(column: number, air: number, netHeatAtZero: number): void {
    const { balanceC, iceM, coldSinceFreezeUpC, upperGroundC, setting } = this;
    const before = balanceC[column] as number;
    const fromBelow = max(0, setting.ground.exchangeWPerM2K * ((upperGroundC[column] as number) - before));
    iceM[column] = simulatedIceM(iceM[column] as number, air, netHeatAtZero, fromBelow);
    coldSinceFreezeUpC[column] = max(0, (coldSinceFreezeUpC[column] as number) - air);
    this.advanceGround(column, before);
    balanceC[column] = iceM[column] === 0 ? WATER_AFTER_ICE_C : WATER_UNDER_ICE_C;
  }
}
