import { Column, Entity, PrimaryColumn } from 'typeorm';
import { instantColumn, jsonColumn, keyColumn, textColumn } from '../../database/columns.js';
import type { ForecastDay } from '../providers/weather-provider.js';

/** The last weather forecast for a place, and how the last question ended. Places belong to no company. */
@Entity('weather_forecast')
export class WeatherForecastEntity {
  /** Latitude and longitude to a tenth of a degree, e.g. `43.1,-89.4`. */
  @PrimaryColumn(keyColumn('place'))
  place!: string;

  /** When the days were got; null where none ever were. */
  @Column(instantColumn('got_at', { nullable: true }))
  gotAt!: string | null;

  @Column(jsonColumn('days'))
  days!: ForecastDay[];

  @Column(instantColumn('asked_at'))
  askedAt!: string;

  /** Why the last question got no answer; empty when it got one. */
  @Column(textColumn('fault'))
  fault!: string;
}
