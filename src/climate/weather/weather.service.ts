import { Inject, Injectable, Logger } from '@nestjs/common';
import { In } from 'typeorm';
import { SETTINGS, type Settings } from '../../config/index.js';
import type { DailyAir } from '../../core/thermal/water-forecast.js';
import { civilDay } from '../../core/units/civil-day.js';
import { Database } from '../../database/index.js';
import { Clock, instantFrom } from '../../platform/clock.js';
import type { ForecastDay, WeatherPlace } from '../providers/weather-provider.js';
import { WeatherClient } from './weather-client.js';
import { WeatherForecastEntity } from './weather-forecast.entity.js';

/** The air that is forecast for a place, and what a person should know of it. */
export interface PlaceWeather {
  /** Empty: the days ahead are the normal ones. Wind is left to the pond's own shelter. */
  readonly air: readonly DailyAir[];
  /** Why there is no forecast, or that it is an old one; null where all is well, or none is set up. */
  readonly note: string | null;
}

export const NO_WEATHER: PlaceWeather = { air: [], note: null };

/** How many days that are over are kept: shallow water has forgotten them by then. [days] */
const KEPT_DAYS = 21;
/** A forecast that is older than this is not believed any more. [h] */
const USEFUL_HOURS = 36;
/** One that came in so short a time ago is not asked for again. [h] */
const FRESH_HOURS = 3;

/** The weather of the days ahead, where a forecast is set up. A provider that is down changes nothing but a note. */
@Injectable()
export class WeatherService {
  private readonly logger = new Logger('weather');
  private readonly client: WeatherClient | null;

  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    @Inject(SETTINGS) { weather }: Partial<Pick<Settings, 'weather'>>,
  ) {
    this.client = weather ? new WeatherClient(weather) : null;
  }

  /** Whether forecasts are asked for at all. */
  get isSetUp(): boolean {
    return this.client !== null;
  }

  /** Asks for the forecast of each place once; answers how many came and how many did not. Never throws for a fault. */
  async refresh(
    sites: readonly WeatherPlace[],
    signal?: AbortSignal,
  ): Promise<{ readonly got: number; readonly failed: number }> {
    const outcome = { got: 0, failed: 0 };
    if (this.client === null) return outcome;
    const places = new Map(sites.map((site) => [placeKey(site), placeOf(site)]));
    const standing = await this.rows([...places.keys()]);
    for (const [key, place] of places) {
      if (signal?.aborted) break;
      const row = standing.get(key);
      if (row && row.fault === '' && this.ageHours(row) < FRESH_HOURS) continue;
      const fault = await this.asked(this.client, key, place, row);
      if (fault === '') outcome.got += 1;
      else {
        outcome.failed += 1;
        if (outcome.failed === 1) this.logger.warn(`${key}: ${fault}`);
      }
    }
    return outcome;
  }

  /** What is known for some places, each under its `placeKey`. */
  async of(sites: readonly WeatherPlace[]): Promise<ReadonlyMap<string, PlaceWeather>> {
    if (this.client === null || sites.length === 0) return new Map();
    const keys = [...new Set(sites.map(placeKey))];
    const rows = await this.rows(keys);
    return new Map(keys.map((key) => [key, this.weatherOf(rows.get(key))]));
  }

  private weatherOf(row: WeatherForecastEntity | undefined): PlaceWeather {
    if (!row) return { air: [], note: 'The first weather forecast comes with the next night.' };
    if (row.gotAt === null || this.ageHours(row) > USEFUL_HOURS) {
      return { air: [], note: 'No weather forecast could be had: the days ahead are the normal ones of the climate.' };
    }
    return {
      air: row.days.map(({ date, ...day }) => ({ ...day, on: civilDay(date), windMPerS: null })),
      note: row.fault === '' ? null : 'The weather forecast of today could not be had: that of yesterday is used.',
    };
  }

  private async asked(
    client: WeatherClient,
    key: string,
    place: WeatherPlace,
    row: WeatherForecastEntity | undefined,
  ): Promise<string> {
    const askedAt = this.clock.instant();
    const answer = await client.ask(place).then(
      (days) => ({ days: afterPast(row?.days ?? [], days), gotAt: askedAt, fault: '' }),
      (error: Error) => ({ days: row?.days ?? [], gotAt: row?.gotAt ?? null, fault: error.message.slice(0, 300) }),
    );
    await this.database.unitOfWork('note a weather forecast', async () => {
      const shared = this.database.shared();
      await shared.remove(WeatherForecastEntity, { place: key });
      await shared.insert(WeatherForecastEntity, { place: key, askedAt, ...answer });
    });
    return answer.fault;
  }

  private async rows(keys: readonly string[]): Promise<ReadonlyMap<string, WeatherForecastEntity>> {
    const found = await this.database.shared().find(WeatherForecastEntity, { place: In([...keys]) });
    return new Map(found.map((row) => [row.place, row]));
  }

  private ageHours({ gotAt }: WeatherForecastEntity): number {
    return gotAt === null ? Number.POSITIVE_INFINITY : this.clock.now().diff(instantFrom(gotAt), 'hours').hours;
  }
}

/** What was forecast for a day that is over is the best that is known of it: a cold spell is not forgotten overnight. */
function afterPast(before: readonly ForecastDay[], days: readonly ForecastDay[]): ForecastDay[] {
  const first = days[0]?.date ?? '';
  return [...before.filter(({ date }) => date < first).slice(-KEPT_DAYS), ...days];
}

/** Tenths of a degree: about 10 km, as fine as daily weather is. */
export function placeKey(site: WeatherPlace): string {
  const { latitude, longitude } = placeOf(site);
  return `${latitude.toFixed(1)},${longitude.toFixed(1)}`;
}

function placeOf({ latitude, longitude }: WeatherPlace): WeatherPlace {
  return { latitude: tenth(latitude), longitude: tenth(longitude) };
}

/** Adding 0 keeps -0 away. */
function tenth(degrees: number): number {
  return Math.round(degrees * 10) / 10 + 0;
}
