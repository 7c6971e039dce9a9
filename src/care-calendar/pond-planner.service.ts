import { createHash } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import type { CompanyEntity } from '../accounts/index.js';
import { ClimateService, NO_WEATHER, type PlaceWeather } from '../climate/index.js';
import type { Dechlorinators } from '../config/products.js';
import { CARE_RULES, DECHLORINATORS } from '../config/tokens.js';
import type { CareHistory, CarePlan, PlanInput } from '../core/care/care-plan.js';
import type { CareRule } from '../core/care/care-rule.js';
import { planCareCalendar } from '../core/care/plan-care-calendar.js';
import type { WinterClass } from '../core/care/pond-facts.js';
import { weatherWarnings } from '../core/care/weather-warnings.js';
import type { SiteClimate } from '../core/climate/station.js';
import { winterClassFor } from '../core/climate/winter-class.js';
import { forecastWater } from '../core/thermal/forecast-water.js';
import { ensembleSeed } from '../core/thermal/seed.js';
import type { DailyAir, PondHeat, WaterForecast, WaterReading } from '../core/thermal/water-forecast.js';
import { type CivilDay, civilDay } from '../core/units/civil-day.js';
import { type PondRecord, pondFacts, pondHeat } from '../ponds/index.js';
import { outlookOf } from './outlook-of.js';
import type { OutlookSummary } from './outlook-summary.js';

/** Tasks are planned a year ahead; the forecast runs half a year further, as the planner asks. [days] */
export const HORIZON_DAYS = 365;
export const FORECAST_DAYS = 548;
/** Forecasts kept for the next replan of the same pond on the same day: closing a visit replans several times. */
const KEPT_FORECASTS = 16;

/** All that planning one pond gives. */
export interface PlannedPond {
  readonly climate: SiteClimate;
  readonly winter: { readonly winterClass: WinterClass; readonly winterKey: string };
  readonly forecast: WaterForecast;
  readonly plan: CarePlan;
  readonly outlook: OutlookSummary;
}

/** From a pond record and its history to a plan. Reads and writes nothing. */
@Injectable()
export class PondPlannerService {
  private readonly forecasts = new Map<string, WaterForecast>();
  private readonly ruleById: ReadonlyMap<string, CareRule>;

  constructor(
    private readonly climate: ClimateService,
    @Inject(CARE_RULES) private readonly rules: readonly CareRule[],
    @Inject(DECHLORINATORS) private readonly dechlorinators: Dechlorinators,
  ) {
    this.ruleById = new Map(rules.map((rule) => [rule.id, rule]));
  }

  rule(ruleId: string): CareRule | undefined {
    return this.ruleById.get(ruleId);
  }

  plan(
    record: PondRecord,
    history: CareHistory,
    company: Pick<CompanyEntity, 'dechlorinatorId' | 'defaultDoneBy'>,
    today: CivilDay,
    weather: PlaceWeather = NO_WEATHER,
  ): PlannedPond {
    const { climate, winter, input } = this.planInput(record, history, company, today, { weather });
    const { forecast } = input;
    const outlook = outlookOf(forecast, climate, winter.winterClass);
    const warnings = weather.note === null ? outlook.warnings : [...outlook.warnings, weather.note];
    return { climate, winter, forecast, plan: planCareCalendar(input), outlook: { ...outlook, warnings } };
  }

  /** All that the plan of a pond follows from; `given.climate` stands in for that of its place. */
  planInput(
    record: PondRecord,
    history: CareHistory,
    company: Pick<CompanyEntity, 'dechlorinatorId' | 'defaultDoneBy'>,
    today: CivilDay,
    given: { readonly weather?: PlaceWeather; readonly climate?: SiteClimate } = {},
  ): Pick<PlannedPond, 'climate' | 'winter'> & { readonly input: PlanInput } {
    const { pond } = record;
    const weather = given.weather ?? NO_WEATHER;
    const climate = given.climate ?? this.climate.siteFor(pond);
    const site = { climate, pond: pondHeat(record), seed: ensembleSeed(pond.id, climate.stations[0]?.id ?? '') };
    const winter = this.winterOf(record, site);
    const forecast = this.forecast(site, waterReadings(history), today, weather.air);
    const input: PlanInput = {
      pond: pondFacts(record, winter),
      today,
      horizonDays: HORIZON_DAYS,
      forecast,
      climate,
      rules: this.rules,
      history: withWarnings(history, forecast, { today, weather, latitude: pond.latitude }),
      dechlorinator: this.dechlorinatorOf(company),
      careSince: civilDay(pond.careSince),
      defaultDoneBy: company.defaultDoneBy,
    };
    return { climate, winter, input };
  }

  /** A company whose product is no longer in the list gets the preset one; every dose names the product it is of. */
  private dechlorinatorOf({ dechlorinatorId }: Pick<CompanyEntity, 'dechlorinatorId'>) {
    const { products, preset } = this.dechlorinators;
    return products.find((product) => product.id === dechlorinatorId) ?? preset;
  }

  /** The stored class while what it was computed from stands; a simulation of forty winters otherwise. */
  private winterOf({ pond }: PondRecord, site: Site): PlannedPond['winter'] {
    const { stations: _, warnings: __, ...figures } = site.climate;
    const winterKey = fingerprint([figures, site.pond, site.seed, pond.maxDepthM]);
    if (pond.winterClass && pond.winterKey === winterKey) return { winterClass: pond.winterClass, winterKey };
    return { winterClass: winterClassFor({ ...site, maxDepthM: pond.maxDepthM }).winterClass, winterKey };
  }

  private forecast(
    site: Site,
    readings: readonly WaterReading[],
    today: CivilDay,
    air: readonly DailyAir[],
  ): WaterForecast {
    const { stations: _, warnings: __, ...figures } = site.climate;
    const key = fingerprint([figures, site.pond, site.seed, readings, today, air]);
    const kept = this.forecasts.get(key);
    if (kept) return kept;
    const forecast = forecastWater({ ...site, firstDay: today, days: FORECAST_DAYS, readings, air });
    this.forecasts.set(key, forecast);
    if (this.forecasts.size > KEPT_FORECASTS) this.forecasts.delete(this.forecasts.keys().next().value as string);
    return forecast;
  }
}

interface Site {
  readonly climate: SiteClimate;
  readonly pond: PondHeat;
  readonly seed: number;
}

/** What a weather forecast warns of stands beside what has happened, for as long as the forecast says so. */
function withWarnings(
  history: CareHistory,
  forecast: WaterForecast,
  given: { readonly today: CivilDay; readonly weather: PlaceWeather; readonly latitude: number },
): CareHistory {
  const { today, latitude } = given;
  const knownUntil = given.weather.air.at(-1)?.on;
  if (knownUntil === undefined) return history;
  return { ...history, events: [...history.events, ...weatherWarnings(forecast, { today, knownUntil }, latitude)] };
}

/** Several on one day count once, by their mean: a day has one temperature in the balance. */
function waterReadings(history: CareHistory): WaterReading[] {
  const byDay = new Map<CivilDay, number[]>();
  for (const { quantity, on, value } of history.readings) {
    if (quantity === 'water-temperature') byDay.set(on, [...(byDay.get(on) ?? []), value]);
  }
  return [...byDay]
    .map(([on, values]) => ({ on, waterTemperatureC: values.reduce((sum, one) => sum + one, 0) / values.length }))
    .sort((a, b) => a.on - b.on);
}

function fingerprint(values: unknown): string {
  return createHash('sha256').update(JSON.stringify(values)).digest('hex').slice(0, 16);
}
