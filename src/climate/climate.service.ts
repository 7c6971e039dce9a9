import { Inject, Injectable } from '@nestjs/common';
import { STATIONS } from '../config/tokens.js';
import { greatCircleKm } from '../core/climate/great-circle.js';
import { siteClimateFor, withOverrides } from '../core/climate/site-climate.js';
import type { SiteClimate, Station } from '../core/climate/station.js';
import { InvalidValueError, requireWithin } from '../core/errors.js';

/** What the climate of a place needs to know of it. A pond fits. */
export interface ClimateSite {
  /** Degrees, north positive. */
  readonly latitude: number;
  /** Degrees, east positive. */
  readonly longitude: number;
  readonly elevationM: number;
  /** Chosen by a person; null lets the nearest decide. */
  readonly stationId?: string | null;
  readonly hardinessZone?: string | null;
  readonly koeppen?: string | null;
}

export interface NearStation {
  readonly station: Station;
  readonly distanceKm: number;
  /** Site minus station. */
  readonly elevationDifferenceM: number;
}

/** A station 100 m higher or lower counts as 30 km farther away (climate handbook 12, common practice). [km/m] */
const PENALTY_KM_PER_M = 0.3;

/** The same object for the same site: the planner keeps the freeze dates it simulated beside it. */
const KEPT_CLIMATES = 1000;

/** The climate of places, from the bundled stations. */
@Injectable()
export class ClimateService {
  private readonly byId: ReadonlyMap<string, Station>;
  private readonly kept = new Map<string, SiteClimate>();

  constructor(@Inject(STATIONS) private readonly stations: readonly Station[]) {
    this.byId = new Map(stations.map((station) => [station.id, station]));
  }

  /**
   * Climate of a site from its station or the nearest ones, with what a person knows better laid over it. Its
   * `warnings` say when the nearest is far off or at another height.
   * @throws InvalidValueError, OutOfRangeError naming the field.
   */
  siteFor(site: ClimateSite): SiteClimate {
    const { latitude, longitude, elevationM, stationId, hardinessZone, koeppen } = site;
    const key = JSON.stringify([
      latitude,
      longitude,
      elevationM,
      stationId ?? null,
      hardinessZone ?? null,
      koeppen ?? null,
    ]);
    const climate = this.kept.get(key) ?? this.computed(site);
    // The one used last goes to the end; the one not used for longest is dropped.
    this.kept.delete(key);
    this.kept.set(key, climate);
    if (this.kept.size > KEPT_CLIMATES) this.kept.delete(this.kept.keys().next().value as string);
    return climate;
  }

  private computed(site: ClimateSite): SiteClimate {
    const { latitude, longitude, elevationM } = site;
    const options = site.stationId ? { stationId: site.stationId } : {};
    const climate = siteClimateFor({ latitude, longitude, elevationM }, this.stations, options);
    return withOverrides(climate, {
      ...(site.hardinessZone && { hardinessZone: site.hardinessZone }),
      ...(site.koeppen && { koeppen: site.koeppen }),
    });
  }

  /** Stations to choose from, the most fitting first: by distance plus 30 km for every 100 m of height. */
  stationsNear(latitude: number, longitude: number, elevationM: number, atMost = 8): NearStation[] {
    requireWithin('latitude', latitude, { min: -90, max: 90 });
    requireWithin('longitude', longitude, { min: -180, max: 180 });
    requireWithin('elevation, m', elevationM, { min: -500, max: 6000 });
    return this.stations
      .map((station) => ({
        station,
        distanceKm: greatCircleKm({ latitude, longitude }, station),
        elevationDifferenceM: elevationM - station.elevationM,
      }))
      .sort((a, b) => penalisedKm(a) - penalisedKm(b) || (a.station.id < b.station.id ? -1 : 1))
      .slice(0, atMost);
  }

  station(id: string): Station | undefined {
    return this.byId.get(id);
  }

  /** Refuses a station that is not among the bundled ones; null and undefined are no choice. */
  requireStation(id: string | null | undefined): void {
    if (id === null || id === undefined || this.byId.has(id)) return;
    throw new InvalidValueError(
      'climate station',
      id,
      'Choose one of the bundled stations, or leave it to the nearest.',
    );
  }
}

function penalisedKm(near: NearStation): number {
  return near.distanceKm + PENALTY_KM_PER_M * Math.abs(near.elevationDifferenceM);
}
